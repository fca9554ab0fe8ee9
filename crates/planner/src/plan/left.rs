//! What bleeding leaves where it is.

use bleedwright_network::Bounds;
use uom::si::f64::Volume;

/// Air that no screw reaches, beside what [anti-lock units](super::Plan::units) keep.
#[derive(Clone, Debug, PartialEq)]
pub struct Remains {
    /// Where.
    pub part: String,
    /// How much.
    pub volume: Bounds<Volume>,
    /// Why.
    pub why: AirLeft,
}

/// Why air stays.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AirLeft {
    /// It stands above this screw, unless the brake is tilted.
    AboveScrew(String),
    /// It climbs back faster than the fluid takes it along.
    MayClimb {
        /// Whether the layout says how the line leads; else that holds if it leads down.
        are_heights_known: bool,
    },
}

/// What an anti-lock unit keeps behind its valves.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftInUnit {
    /// The unit.
    pub part: String,
    /// How much its passages on the circuits of the job hold there.
    pub volume: Bounds<Volume>,
    /// What that is.
    pub kept: Kept,
}

/// What stays behind valves that no screw reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kept {
    /// The fluid that was there before: the unit stayed full.
    OldFluid,
    /// Air, if it came as far as the unit, which nobody knows.
    MaybeAir,
    /// Air: the unit was empty.
    Air,
}

impl Kept {
    /// In a document for programs.
    pub fn word(self) -> &'static str {
        match self {
            Self::OldFluid => "old fluid",
            Self::MaybeAir => "air or old fluid",
            Self::Air => "air",
        }
    }

    /// Whether nobody may drive before the maker's routine was run.
    pub fn may_be_air(self) -> bool {
        self != Self::OldFluid
    }
}
