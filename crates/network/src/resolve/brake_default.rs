//! What is assumed of a brake where the file is silent.

use crate::bounds::Figure;
use crate::layout::Mounting;
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

fn ml(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

// ASSUMPTION: dead volumes, wear travels and unknown extensions are orders of
// magnitude of the trade, from memory; each is shown in the report.
//
// The piston of a sliding caliper follows the wear of both linings, that of a
// fixed one only of its own; where nobody knows which it is, it may be either.
pub(super) fn caliper_defaults(mounting: Option<Mounting>) -> Defaults {
    let (wear_travel, unknown_extension) = match mounting {
        Some(Mounting::Sliding) => (
            Figure::assumed(
                [10.0, 14.0, 18.0].map(mm),
                "sliding caliper's wear travel 14 mm (10-18), of both linings",
            ),
            Figure::assumed(
                [0.5, 7.0, 17.0].map(mm),
                "sliding caliper's pistons 7 mm out, linings unknown (0.5-17)",
            ),
        ),
        Some(Mounting::Fixed) => (
            Figure::assumed(
                [6.0, 8.0, 11.0].map(mm),
                "fixed caliper's wear travel 8 mm (6-11)",
            ),
            Figure::assumed(
                [0.5, 4.0, 10.0].map(mm),
                "fixed caliper's pistons 4 mm out, linings unknown (0.5-10)",
            ),
        ),
        None => (
            Figure::assumed(
                [6.0, 10.0, 18.0].map(mm),
                "caliper wear travel 10 mm (6-18)",
            ),
            Figure::assumed(
                [0.5, 5.0, 17.0].map(mm),
                "caliper pistons 5 mm out, linings unknown (0.5-17)",
            ),
        ),
    };
    Defaults {
        wear_travel,
        dead_volume: Figure::assumed([1.0, 2.0, 4.0].map(ml), "caliper dead volume 2 ml (1-4)"),
        unknown_extension,
    }
}

pub(super) fn wheel_cylinder_defaults() -> Defaults {
    Defaults {
        wear_travel: Figure::assumed(
            [3.0, 4.0, 6.0].map(mm),
            "wheel-cylinder wear travel 4 mm (3-6)",
        ),
        dead_volume: Figure::assumed(
            [0.5, 1.0, 2.0].map(ml),
            "wheel-cylinder dead volume 1 ml (0.5-2)",
        ),
        unknown_extension: Figure::assumed(
            [0.5, 2.5, 6.0].map(mm),
            "wheel-cylinder pistons 2.5 mm out, linings unknown (0.5-6)",
        ),
    }
}

pub(super) fn clutch_defaults() -> Defaults {
    Defaults {
        dead_volume: Figure::assumed([1.0, 2.0, 4.0].map(ml), "clutch dead volume 2 ml (1-4)"),
        unknown_extension: Figure::assumed(
            [2.0, 8.0, 16.0].map(mm),
            "clutch piston 8 mm out (2-16)",
        ),
        ..caliper_defaults(None)
    }
}
