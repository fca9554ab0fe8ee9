//! Tees, valves, anti-lock units and brakes as written.

use super::{Amount, Given, Name};
use crate::layout::{Level, Lining, Mounting, ParkingBrake, Wheel};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PartFile {
    pub(crate) id: Name,
    pub(crate) kind: Given<PartKindFile>,
    #[serde(default)]
    pub(crate) wheel: Option<Given<Wheel>>,
    #[serde(default)]
    pub(crate) place: Option<Given<Level>>,
    #[serde(default)]
    pub(crate) sections: Option<Vec<Name>>,
    #[serde(default)]
    pub(crate) contents: Option<Amount>,
    #[serde(default)]
    pub(crate) height: Option<Amount>,
    #[serde(default)]
    pub(crate) position: Option<PositionFile>,
    #[serde(default)]
    pub(crate) screws: Vec<ScrewFile>,
    #[serde(default)]
    pub(crate) accumulator: Option<AccumulatorFile>,
    #[serde(default)]
    pub(crate) parking_brake: Option<Given<ParkingBrake>>,
    #[serde(default)]
    pub(crate) electric_parking_brake: Option<Given<bool>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PartKindFile {
    Tee,
    Block,
    Union,
    Proportioning(ValveFile),
    PressureLimiting(ValveFile),
    LoadSensing(ValveFile),
    Metering(ValveFile),
    Residual(ValveFile),
    Check(ValveFile),
    DifferentialSwitch,
    AntiLock(AntiLockFile),
    Caliper(CaliperFile),
    WheelCylinder(WheelCylinderFile),
    ClutchSlave(CavityFile),
}

/// The settings of any valve; which of them a kind may have is checked later.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ValveFile {
    pub(crate) cut_in: Option<Amount>,
    pub(crate) cut_in_laden: Option<Amount>,
    pub(crate) ratio: Option<Amount>,
    pub(crate) hold_off: Option<Amount>,
    pub(crate) held_open_by: Option<Name>,
    pub(crate) holds: Option<Amount>,
    pub(crate) opens: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AntiLockFile {
    pub(crate) circuits: Given<Vec<AntiLockCircuitFile>>,
    #[serde(default)]
    pub(crate) routine: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AntiLockCircuitFile {
    pub(crate) inlet: Name,
    pub(crate) outlets: Given<Vec<Name>>,
    pub(crate) through: Amount,
    pub(crate) trapped: Amount,
}

#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct CaliperFile {
    pub(crate) mounting: Option<Given<Mounting>>,
    pub(crate) pistons: Option<Given<Vec<PistonFile>>>,
    pub(crate) dead_volume: Option<Amount>,
    pub(crate) chambers: Option<Vec<CavityFile>>,
    pub(crate) crossover: Option<Amount>,
    pub(crate) lining: Option<Given<Lining>>,
    pub(crate) wear_travel: Option<Amount>,
    pub(crate) running_clearance: Option<Amount>,
    #[serde(default)]
    pub(crate) gives_at_100_bar: Option<Amount>,
    pub(crate) bleed_first: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CavityFile {
    #[serde(default)]
    pub(crate) id: Option<Name>,
    pub(crate) pistons: Given<Vec<PistonFile>>,
    #[serde(default)]
    pub(crate) dead_volume: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PistonFile {
    pub(crate) bore: Amount,
    #[serde(default)]
    pub(crate) extension: Option<Amount>,
    #[serde(default)]
    pub(crate) count: Option<Given<u32>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WheelCylinderFile {
    pub(crate) bore: Amount,
    #[serde(default)]
    pub(crate) pistons: Option<Given<u32>>,
    #[serde(default)]
    pub(crate) extension: Option<Amount>,
    #[serde(default)]
    pub(crate) dead_volume: Option<Amount>,
    #[serde(default)]
    pub(crate) lining: Option<Given<Lining>>,
    #[serde(default)]
    pub(crate) wear_travel: Option<Amount>,
    #[serde(default)]
    pub(crate) running_clearance: Option<Amount>,
    #[serde(default)]
    pub(crate) gives_at_100_bar: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ScrewFile {
    pub(crate) id: Name,
    #[serde(default)]
    pub(crate) chamber: Option<Name>,
    #[serde(default)]
    pub(crate) at_top: Option<Given<bool>>,
    #[serde(default)]
    pub(crate) below_top: Option<Amount>,
    #[serde(default)]
    pub(crate) bore: Option<Amount>,
    #[serde(default)]
    pub(crate) spanner: Option<Amount>,
    #[serde(default)]
    pub(crate) torque: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AccumulatorFile {
    #[serde(default)]
    pub(crate) pressure: Option<Amount>,
    #[serde(default)]
    pub(crate) routine: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PositionFile {
    pub(crate) x: Amount,
    pub(crate) y: Amount,
    #[serde(default)]
    pub(crate) z: Option<Amount>,
}
