//! The layout file as it is written: format 1.
//!
//! These structures hold what the file says and no more. Quantities stay text
//! until `resolve` reads them, so that every mistake in a file is reported at
//! once and not only the first.

mod cylinder;
mod given;
mod line;
mod part;
mod reservoir;
mod text;
mod viscosity;

pub(crate) use cylinder::{
    BalanceBarFile, BoosterFile, ChamberFile, CylinderFile, CylinderKindFile,
};
pub(crate) use given::{GIVEN, Given, known, words};
pub(crate) use line::{LineFile, LineKindFile, PipeFile, ViaFile};
pub(crate) use part::{
    AccumulatorFile, AntiLockCircuitFile, AntiLockFile, CaliperFile, CavityFile, PartFile,
    PartKindFile, PistonFile, PositionFile, ScrewFile, ValveFile, WheelCylinderFile,
};
pub(crate) use reservoir::{CompartmentFile, FeedHoseFile, ReservoirFile};
pub(crate) use text::{OneOrMany, Text};
pub(crate) use viscosity::ViscosityFile;

use crate::layout::{Fluid, Split, Steering};
use serde::Deserialize;

/// A quantity that may turn out unreadable.
pub(crate) type Amount = Given<Text>;

/// A name, a reference to one, or a remark.
pub(crate) type Name = Given<String>;

/// A whole layout file. What it must give is `Given`; everything else is an
/// `Option` or a list that may be empty.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LayoutFile {
    pub(crate) format: Given<u64>,
    pub(crate) name: Name,
    pub(crate) notes: Option<Name>,
    pub(crate) steering: Option<Given<Steering>>,
    pub(crate) fluid: Option<Given<Fluid>>,
    #[serde(default)]
    pub(crate) viscosity: Vec<ViscosityFile>,
    pub(crate) split: Option<Given<Split>>,
    #[serde(default)]
    pub(crate) reservoirs: Vec<ReservoirFile>,
    #[serde(default)]
    pub(crate) cylinders: Vec<CylinderFile>,
    #[serde(default)]
    pub(crate) balance_bars: Vec<BalanceBarFile>,
    #[serde(default)]
    pub(crate) parts: Vec<PartFile>,
    #[serde(default)]
    pub(crate) lines: Vec<LineFile>,
    pub(crate) maker_order: Option<Vec<Name>>,
}

/// The number of this format; older ones keep loading.
pub(crate) const FORMAT: u64 = 1;
