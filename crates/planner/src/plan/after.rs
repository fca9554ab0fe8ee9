//! What comes after the last screw, as facts; renderers have the words.

use super::{Change, LeftInUnit, Plan, Standing, Worked};
use bleedwright_network::{BoosterKind, ParkingBrake};
use strum::IntoStaticStr;

/// Something to do after the last screw. Each is right or the work is not.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
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
        /// Whether the axles are a motorcycle's.
        has_axle_bolts: bool,
    },
    /// By the reverse method old fluid came up into the reservoir.
    OldFluidAbove,
    /// Pumped gently until firm, each of these.
    PumpedFirm {
        /// What works the brakes.
        worked: Vec<Worked>,
        /// Whether there are discs.
        has_discs: bool,
    },
    /// The level and the cap of the reservoir.
    Level {
        /// Whether a switch that was unplugged is plugged in again; none where nobody said that there is one.
        has_switch: Option<bool>,
    },
    /// Held lightly for a minute: a cylinder whose seal passes often creeps only under a light foot.
    HeldLightly(Vec<Worked>),
    /// The hard press that shows leaks.
    HardPress {
        /// What works the brakes.
        worked: Vec<Worked>,
        /// Parts and lines whose joints were opened beside the screws, by name.
        joints: Vec<String>,
    },
    /// The booster helps, and everything holds with its help.
    Booster(BoosterKind),
    /// The stop lamps.
    StopLamps,
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
    /// The clutch held down, and looked at for leaks.
    ClutchHeld {
        /// What works it.
        worked: Vec<Worked>,
        /// Its slave cylinders, which move as far as the maker says.
        slaves: Vec<String>,
    },
    /// The clutch parts, and lets go: tried on the ground, once the brakes are proved.
    Clutch(Vec<Worked>),
    /// Every wheel is held while it is pressed, and turns free after it.
    WheelsFree(Vec<Worked>),
    /// The parking brake holds and lets go.
    ParkingBrake(Option<ParkingBrake>),
    /// It stood for long: the fluid is renewed once more soon.
    RenewedAgainSoon,
    /// Spills washed, old fluid handed in.
    Spills,
    /// Stops at walking pace, then the road.
    RoadTest {
        /// Why there is none yet.
        barred_by: Option<BarredBy>,
        /// What is driven.
        standing: Standing,
    },
    /// A clutch alone: moved off, gear after gear.
    ClutchDriven,
    /// The memory of an anti-lock unit, an electric booster or an electric parking brake.
    FaultMemory {
        /// Whether an electric booster may make the feel of the pedal, so that a firm one proves nothing.
        may_simulate_pedal: bool,
    },
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
    /// Whether it is the press that shows leaks.
    pub fn is_hard_press(&self) -> bool {
        matches!(self, Self::HardPress { .. })
    }

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
