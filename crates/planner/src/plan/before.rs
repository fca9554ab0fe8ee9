//! What comes before the first screw, and what to do when something goes otherwise, as facts; renderers have the words.

use bleedwright_network::ParkingBrake;

/// Something to look at or to do before the first screw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Before {
    /// Everything is dry, before fluid is poured.
    LookDry {
        /// Whether there are drums to look into.
        has_drums: bool,
    },
    /// Hoses, pipes and what is worn are sound.
    LookSound,
    /// The old fluid is one, and of the right kind.
    LookFluid,
    /// Every screw opens and shuts, while nothing is drawn off yet.
    LookScrews,
    /// The parking brake is let off, once the vehicle stands safely.
    ParkingBrakeOff(Option<ParkingBrake>),
    /// Brakes that are new, by name.
    NewBrakes {
        /// The parts.
        parts: Vec<String>,
        /// Whether calipers are among them.
        has_calipers: bool,
    },
    /// A pump that wakes by a door or the pedal, at an anti-lock unit or a store of pressure.
    PumpMayWake,
}

/// What to do when something goes otherwise than planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Otherwise {
    /// A screw does not open.
    ScrewStuck,
    /// Nothing comes out of an open screw.
    NothingComes,
    /// A compartment ran dry in the middle of the work.
    RanDry,
    /// The fluid of the system is the wrong one.
    WrongFluid,
    /// It sinks under the foot or hand.
    Sinks,
    /// It stays soft.
    StaysSoft,
}
