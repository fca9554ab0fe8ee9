//! What is plausible: the ranges every value of a layout must lie in.
//!
//! They are wide enough for any road vehicle and narrow enough that a wrong
//! unit falls outside. ASSUMPTION: the limits are our own judgement; each is
//! shown in docs/layout-format.md and in the finding it raises.

use crate::quantity::parse_quantity;
use crate::units::Quantity;
use std::sync::OnceLock;
use uom::si::f64::{
    Force, KinematicViscosity, Length, Pressure, Ratio, ThermodynamicTemperature, Torque, Volume,
};

/// A range of allowed values, as text so that it reads as it is written.
pub(crate) struct Allowed<Q> {
    low: &'static str,
    high: &'static str,
    /// Whether zero itself may stand for "none".
    pub(crate) zero: bool,
    /// Whether the lower end of the tolerance must lie inside too. It may lie
    /// anywhere above zero where zero is allowed, or where another check
    /// judges it better.
    pub(crate) is_low_end_held: bool,
    /// Thousands of values are held against one range, so it is read once.
    limits: OnceLock<[Q; 2]>,
}

impl<Q: Quantity> Allowed<Q> {
    const fn new(
        low: &'static str,
        high: &'static str,
        [zero, is_low_end_held]: [bool; 2],
    ) -> Self {
        Self {
            low,
            high,
            zero,
            is_low_end_held,
            limits: OnceLock::new(),
        }
    }

    const fn between(low: &'static str, high: &'static str) -> Self {
        Self::new(low, high, [false, true])
    }

    const fn nominally_between(low: &'static str, high: &'static str) -> Self {
        Self::new(low, high, [false, false])
    }

    const fn zero_or(low: &'static str, high: &'static str) -> Self {
        Self::new(low, high, [true, false])
    }

    /// The lowest and the highest value.
    pub(crate) fn limits(&self) -> [Q; 2] {
        let read = |text| {
            parse_quantity::<Q>(text)
                .expect("the limits of this table are well-formed, as a test reads each of them")
                .nominal
        };
        *self.limits.get_or_init(|| [self.low, self.high].map(read))
    }

    /// The range in words, for findings.
    pub(crate) fn text(&self) -> String {
        let zero = if self.zero { "0, or " } else { "" };
        format!("{zero}{} to {}", self.low, self.high)
    }
}

macro_rules! ranges {
    ($($name:ident: $quantity:ty = $kind:ident($low:literal, $high:literal);)+) => {
        $(pub(crate) static $name: Allowed<$quantity> = Allowed::$kind($low, $high);)+

        #[cfg(test)]
        mod tests {
            use super::*;

            #[test]
            fn every_range_reads() {
                $({
                    let [low, high] = $name.limits();
                    assert!(low < high, stringify!($name));
                })+
            }
        }
    };
}

ranges! {
    PIPE_BORE: Length = between("1 mm", "20 mm");
    PIPE_OUTSIDE: Length = between("3 mm", "20 mm");
    PIPE_WALL: Length = between("0.3 mm", "3 mm");
    PIPE_LENGTH: Length = between("5 mm", "30 m");
    HOSE_BORE: Length = between("1 mm", "20 mm");
    HOSE_LENGTH: Length = between("20 mm", "5 m");
    FEED_BORE: Length = between("2 mm", "30 mm");
    HEIGHT: Length = zero_or("1 mm", "4 m");
    DISTANCE_ALONG: Length = zero_or("1 mm", "30 m");
    COMPARTMENT: Volume = between("5 ml", "5 l");
    MINIMUM_MARK: Volume = zero_or("1 ml", "5 l");
    REMAINDER: Volume = zero_or("0.1 ml", "500 ml");
    CYLINDER_BORE: Length = between("5 mm", "80 mm");
    // The shortest stroke is held against the cut-off.
    CYLINDER_STROKE: Length = nominally_between("3 mm", "120 mm");
    CUT_OFF: Length = zero_or("0.1 mm", "10 mm");
    PEDAL_RATIO: Ratio = between("1", "15");
    FREE_PLAY: Length = zero_or("0.1 mm", "60 mm");
    BOOSTER_RATIO: Ratio = between("1", "20");
    BOOSTER_HELP: Force = between("100 N", "30 kN");
    PISTON_BORE: Length = between("8 mm", "130 mm");
    EXTENSION: Length = zero_or("0.05 mm", "60 mm");
    WEAR_TRAVEL: Length = between("1 mm", "60 mm");
    CLEARANCE: Length = zero_or("0.01 mm", "5 mm");
    GIVE: Volume = zero_or("0.01 ml", "10 ml");
    PEDAL_FLEX: Length = zero_or("0.1 mm", "60 mm");
    BAR_SHARE: Ratio = between("20 %", "80 %");
    CAVITY_DEAD: Volume = zero_or("0.05 ml", "100 ml");
    PART_CONTENTS: Volume = zero_or("0.01 ml", "100 ml");
    VISCOSITY: KinematicViscosity = between("0.5 mm2/s", "20000 mm2/s");
    FLUID_TEMPERATURE: ThermodynamicTemperature = between("-40 degC", "100 degC");
    SCREW_BORE: Length = between("0.5 mm", "5 mm");
    BELOW_TOP: Length = between("0.5 mm", "100 mm");
    SPANNER: Length = between("4 mm", "30 mm");
    TORQUE: Torque = between("1 N m", "40 N m");
    CUT_IN: Pressure = between("1 bar", "150 bar");
    REDUCTION: Ratio = zero_or("0.01", "1");
    HOLD_OFF: Pressure = between("0.5 bar", "30 bar");
    HOLDS: Pressure = between("0.05 bar", "5 bar");
    STORED: Pressure = between("5 bar", "350 bar");
    // Positions count from any point of the vehicle and may be negative: the
    // range is that of the distance.
    DISTANCE: Length = zero_or("1 mm", "20 m");
}
