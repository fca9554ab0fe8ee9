//! What to do when something goes otherwise, as facts; renderers have the words.

use super::Fed;
use bleedwright_network::FluidFamily;
use strum::IntoStaticStr;

/// What to do when something goes otherwise than planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Otherwise {
    /// A screw does not open.
    ScrewStuck,
    /// Bubbles or old fluid do not end.
    NeverClear,
    /// Nothing comes out of an open screw.
    NothingComes,
    /// A compartment ran dry in the middle of the work.
    RanDry {
        /// Whether it feeds cylinders that are not of this job.
        feeds_others: bool,
    },
    /// The fluid of the system is the wrong one; the family of the right one, where it is known.
    WrongFluid(Option<FluidFamily>),
    /// It sinks under the foot or hand.
    Sinks,
    /// It stays soft.
    StaysSoft {
        /// What is fed.
        fed: Fed,
        /// Whether an anti-lock unit is on the way.
        has_unit: bool,
        /// Whether a parking brake's motor is in the way of pistons that are pushed back.
        is_parked_by_motor: bool,
    },
    /// The clutch drags, or what works it does not come back.
    ClutchDrags,
}
