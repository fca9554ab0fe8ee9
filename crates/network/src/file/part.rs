//! Tees, valves, anti-lock units and brakes as written.

use super::{Amount, Given, Name};
use crate::layout::{Level, Lining, Mounting, ParkingBrake, Wheel};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PartFile {
    pub(crate) id: Name,
    pub(crate) kind: Given<PartKindFile>,
    pub(crate) wheel: Option<Given<Wheel>>,
    pub(crate) place: Option<Given<Level>>,
    pub(crate) sections: Option<Vec<Name>>,
    pub(crate) contents: Option<Amount>,
    pub(crate) height: Option<Amount>,
    pub(crate) position: Option<PositionFile>,
    #[serde(default)]
    pub(crate) screws: Vec<ScrewFile>,
    pub(crate) accumulator: Option<AccumulatorFile>,
    pub(crate) parking_brake: Option<Given<ParkingBrake>>,
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
    pub(crate) gives_at_100_bar: Option<Amount>,
    pub(crate) bleed_first: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CavityFile {
    pub(crate) id: Option<Name>,
    pub(crate) pistons: Given<Vec<PistonFile>>,
    pub(crate) dead_volume: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PistonFile {
    pub(crate) bore: Amount,
    pub(crate) extension: Option<Amount>,
    pub(crate) count: Option<Given<u32>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WheelCylinderFile {
    pub(crate) bore: Amount,
    pub(crate) pistons: Option<Given<u32>>,
    pub(crate) extension: Option<Amount>,
    pub(crate) dead_volume: Option<Amount>,
    pub(crate) lining: Option<Given<Lining>>,
    pub(crate) wear_travel: Option<Amount>,
    pub(crate) running_clearance: Option<Amount>,
    pub(crate) gives_at_100_bar: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ScrewFile {
    pub(crate) id: Name,
    pub(crate) chamber: Option<Name>,
    pub(crate) at_top: Option<Given<bool>>,
    pub(crate) below_top: Option<Amount>,
    pub(crate) bore: Option<Amount>,
    pub(crate) spanner: Option<Amount>,
    pub(crate) torque: Option<Amount>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AccumulatorFile {
    pub(crate) pressure: Option<Amount>,
    pub(crate) routine: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PositionFile {
    pub(crate) x: Amount,
    pub(crate) y: Amount,
    pub(crate) z: Option<Amount>,
}
