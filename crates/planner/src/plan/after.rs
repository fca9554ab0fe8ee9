//! What comes after the last screw, as facts; renderers have the words.

use super::{Change, LeftInUnit, Plan};
use bleedwright_network::ParkingBrake;

/// Something to do after the last screw. Each is right or the work is not.
#[derive(Clone, Debug, PartialEq)]
pub enum Check {
    /// The user's own order breaks a rule of the pipework: what it leaves is bled again.
    UnsafeOrder,
    /// Screws that were left out, by name: nobody drives before they are bled.
    LeftOut(Vec<String>),
    /// The screws to torque, hoses off, screws dried, the caps still off.
    ScrewsToTorque(Vec<ScrewTorque>),
    /// A change to the vehicle undone.
    Undo(Change),
    /// What the pistons press on is in its place.
    BrakesTogether {
        /// Whether there are discs.
        has_discs: bool,
        /// Whether there are drums.
        has_drums: bool,
    },
    /// By the reverse method old fluid came up into the reservoir.
    OldFluidAbove,
    /// Pumped gently until firm.
    PumpedFirm,
    /// The level and the cap of the reservoir.
    Level,
    /// Held lightly for a minute: a cylinder whose seal passes often creeps only under a light foot.
    HeldLightly,
    /// The hard press that shows leaks.
    HardPress,
    /// The vacuum booster helps, and everything holds with its help.
    Booster,
    /// The vacuum pump showed bubbles that may have been no air of the system.
    BledByVacuum,
    /// The lamp of a tandem cylinder's warning switch.
    BrakeLamp {
        /// Whether a differential switch may have to be centred again.
        has_differential_switch: bool,
    },
    /// The lamp of the anti-lock units.
    AntiLockLamp,
    /// The maker's routine at a unit that keeps air or old fluid.
    Routine(LeftInUnit),
    /// The bleed after that routine, at the unit of that name; its steps are [`Plan::second`].
    BleedAgain(String),
    /// Air that no screw surely reaches; the parts and lines.
    Air(Vec<String>),
    /// The clutch parts.
    Clutch,
    /// Every wheel turns free.
    WheelsFree,
    /// The parking brake holds and lets go.
    ParkingBrake(Option<ParkingBrake>),
    /// Spills washed, old fluid handed in.
    Spills,
    /// Stops at walking pace, then the road.
    RoadTest(Option<BarredBy>),
    /// A pedal whose feel an electric booster may make proves nothing: the fault memory is read.
    SimulatedPedal,
}

/// Screws of one torque.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScrewTorque {
    /// As the layout writes it; none where that is the maker's alone.
    pub torque: Option<String>,
    /// The screws, by name.
    pub screws: Vec<String>,
}

/// Why there is no road test yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BarredBy {
    /// Screws were left out.
    LeftOut,
    /// A unit may keep air.
    Unit,
}

impl Check {
    /// The change it undoes.
    pub fn undoes(&self) -> Option<&Change> {
        match self {
            Self::Undo(change) => Some(change),
            _ => None,
        }
    }
}

impl Plan {
    /// The anti-lock units that keep air or old fluid, by name.
    pub fn units(&self) -> impl Iterator<Item = &LeftInUnit> {
        self.checks_after.iter().filter_map(|check| match check {
            Check::Routine(unit) => Some(unit),
            _ => None,
        })
    }
}
