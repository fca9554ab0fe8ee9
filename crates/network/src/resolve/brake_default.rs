//! What is assumed of a brake where the file is silent.

use crate::bounds::Figure;
use crate::layout::Mounting;
use crate::usual::Usual;
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// What is assumed of a kind of brake when the file is silent.
pub(super) struct Defaults {
    pub(super) wear_travel: Figure<Length>,
    pub(super) dead_volume: Figure<Volume>,
    pub(super) unknown_extension: Figure<Length>,
}

pub(super) fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

impl Defaults {
    fn new(wear_travel: Usual, dead_volume: Usual, unknown_extension: Usual) -> Self {
        Self {
            wear_travel: Figure::assumed(wear_travel, mm),
            dead_volume: Figure::assumed(dead_volume, Volume::new::<milliliter>),
            unknown_extension: Figure::assumed(unknown_extension, mm),
        }
    }
}

pub(super) fn caliper_defaults(mounting: Option<Mounting>) -> Defaults {
    let (wear_travel, unknown_extension) = match mounting {
        Some(Mounting::Sliding) => (Usual::SlidingWearTravel, Usual::SlidingExtension),
        Some(Mounting::Fixed) => (Usual::FixedWearTravel, Usual::FixedExtension),
        None => (Usual::CaliperWearTravel, Usual::CaliperExtension),
    };
    Defaults::new(wear_travel, Usual::CaliperDeadVolume, unknown_extension)
}

pub(super) fn wheel_cylinder_defaults() -> Defaults {
    Defaults::new(
        Usual::WheelCylinderWearTravel,
        Usual::WheelCylinderDeadVolume,
        Usual::WheelCylinderExtension,
    )
}

/// Those of a clutch's slave cylinder; it has no lining, and no wear travel that is asked for.
pub(super) fn clutch_defaults() -> Defaults {
    Defaults::new(
        Usual::CaliperWearTravel,
        Usual::ClutchDeadVolume,
        Usual::ClutchExtension,
    )
}
