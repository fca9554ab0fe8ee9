//! What comes before the first screw, and what to do when something goes otherwise, as facts; renderers have the words.

use super::{Fed, Standing, Worked};
use bleedwright_network::{BoosterKind, Control, FluidFamily, ParkingBrake};
use uom::si::f64::Volume;

/// Something to look at or to do before the first screw.
#[derive(Clone, Debug, PartialEq)]
pub enum Before {
    /// Everything is dry, before fluid is poured.
    LookDry(Fed),
    /// Hoses, pipes and what is worn are sound.
    LookSound(Fed),
    /// It stood for long: what sticks is found and freed before fluid is poured.
    FreedDry(Fed),
    /// It stood for long: hoses are judged by their date.
    HosesByDate,
    /// It stood for long: no stroke goes to the end of the bore.
    ShortStrokes,
    /// The old fluid is one, and of the right kind.
    LookFluid,
    /// Every screw opens and shuts, while nothing is drawn off yet.
    LookScrews,
    /// How it stands.
    Stands(Standing),
    /// Joints that were opened beside the screws are made up before fluid is poured.
    Joints {
        /// The parts and lines, by name.
        at: Vec<String>,
        /// Whether pipes may have been exchanged, at a unit.
        may_be_crossed: bool,
    },
    /// No level fell to the outlet of its compartment; those whose outlet for this job lies higher, with the level.
    LevelHeld(Vec<(String, Volume)>),
    /// The shuttle of a differential switch is kept in the middle; the part.
    SwitchCentred(String),
    /// No booster helps any more, or the maker lets nobody bleed by its pedal.
    Booster(BoosterKind),
    /// The parking brake is let off, once the vehicle stands safely.
    ParkingBrakeOff(Option<ParkingBrake>),
    /// Brakes that are new, by name.
    NewBrakes {
        /// The parts.
        parts: Vec<String>,
        /// Whether calipers are among them.
        has_calipers: bool,
    },
    /// The slave cylinders of the clutch sit in their place; the parts.
    SlavesInPlace(Vec<String>),
    /// The handlebar is turned until the reservoirs of these cylinders stand level and high.
    BarTurned(Vec<String>),
    /// Air is let out at the banjo of this lever's cylinder, which has no screw.
    BanjoFirst(String),
    /// Controls that brake both wheels of a motorcycle.
    Linked(Vec<Worked>),
    /// The reverse lock-out of this coupler's cylinder lets the shaft brake.
    ReverseLockSet(String),
    /// The breakaway cable is off.
    BreakawayOff,
    /// The shaft of this coupler's cylinder is pushed in by a lever.
    ShaftByLever(String),
    /// What works the cylinders is left alone, all the way back.
    PortsOpen(Vec<Control>),
    /// A pump that wakes by a door or the pedal, at an anti-lock unit or a store of pressure.
    PumpMayWake,
}

/// What to do when something goes otherwise than planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
