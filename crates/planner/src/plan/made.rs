//! Changes to the vehicle as they are made before the first screw, as facts; renderers have the words.

use super::{Change, PedalBlock, Standing, Worked};
use crate::options::Method;
use bleedwright_network::Bounds;
use strum::IntoStaticStr;
use uom::si::f64::{Pressure, Volume};

/// A change to the vehicle as it is made: each has a [`Change`], which is undone.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Made {
    /// How it stands.
    Stands(Standing),
    /// The breakaway cable is off.
    BreakawayOff,
    /// The reverse lock-out of this coupler's cylinder lets the shaft brake.
    ReverseLockSet(String),
    /// Stored pressure was released.
    PressureReleased {
        /// The part or cylinder that stores it.
        owner: String,
        /// The maker's routine, where the layout has it.
        routine: Option<String>,
    },
    /// The electric parking brake is in service mode.
    ServiceMode,
    /// This brake is unbolted and tilted when its turn comes, a spacer between its pistons.
    Tilted(String),
    /// The lever of this load-sensing valve is tied toward laden.
    LeverTied(String),
    /// A metering valve is held open.
    MeteringHeld {
        /// The valve.
        valve: String,
        /// By what, where the layout says so.
        by: Option<String>,
    },
    /// A clamp is on this line until something is pressed.
    Clamp(String),
    /// A plug sits in the open end of this line or part until its joint is made up.
    Plug(String),
    /// What works this cylinder is propped just past the cut-off while a joint is open.
    Propped(Worked),
    /// A block stops a pedal or lever.
    PedalBlock(PedalBlock),
    /// The screws are made ready for this method, their caps off.
    CapsOff(Method),
    /// A pressure tank is on the reservoir.
    TankOn {
        /// New fluid in it.
        fluid: Volume,
        /// The pressure in it.
        pressure: Bounds<Pressure>,
        /// Whether the user gave the pressure.
        is_given: bool,
    },
    /// Unions that are the highest point of a way with air in it may be loosened first.
    UnionsLoosened(Vec<String>),
    /// Air is let out at the banjo of this lever's cylinder, which has no screw.
    BanjoFirst(String),
}

impl Made {
    /// What must be undone.
    pub fn change(&self) -> Change {
        match self {
            Self::Stands(standing) => Change::OnSupports(*standing),
            Self::BreakawayOff => Change::BreakawayOff,
            Self::ReverseLockSet(cylinder) => Change::ReverseLockSet(cylinder.clone()),
            Self::PressureReleased { owner, .. } => Change::PressureReleased(owner.clone()),
            Self::ServiceMode => Change::ServiceMode,
            Self::Tilted(part) => Change::Spacer(part.clone()),
            Self::LeverTied(valve) => Change::LeverTied(valve.clone()),
            Self::MeteringHeld { valve, .. } => Change::MeteringHeld(valve.clone()),
            Self::Clamp(line) => Change::Clamp(line.clone()),
            Self::Plug(at) => Change::Plug(at.clone()),
            Self::Propped(worked) => Change::Propped(worked.cylinders.clone()),
            Self::PedalBlock(block) => Change::PedalBlock(block.cylinders.clone()),
            Self::CapsOff(_) => Change::CapsOff,
            Self::TankOn { .. } => Change::TankOn,
            Self::UnionsLoosened(unions) => Change::UnionLoosened(unions.clone()),
            Self::BanjoFirst(cylinder) => Change::BanjoCracked(cylinder.clone()),
        }
    }
}
