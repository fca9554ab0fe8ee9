//! Master cylinders as written.

use super::part::{AccumulatorFile, PositionFile, ScrewFile};
use super::{Amount, Given, Name};
use crate::layout::{BoosterKind, Control, Purpose};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CylinderFile {
    pub(crate) id: Name,
    pub(crate) kind: Given<CylinderKindFile>,
    #[serde(default)]
    pub(crate) purpose: Option<Given<Purpose>>,
    #[serde(default)]
    pub(crate) control: Option<Given<Control>>,
    #[serde(default)]
    pub(crate) pedal_ratio: Option<Amount>,
    #[serde(default)]
    pub(crate) free_play: Option<Amount>,
    #[serde(default)]
    pub(crate) flex_at_500_n: Option<Amount>,
    #[serde(default)]
    pub(crate) booster: Option<BoosterFile>,
    #[serde(default)]
    pub(crate) height: Option<Amount>,
    #[serde(default)]
    pub(crate) position: Option<PositionFile>,
    #[serde(default)]
    pub(crate) screws: Vec<ScrewFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum CylinderKindFile {
    Single(ChamberFile),
    Tandem(TandemFile),
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TandemFile {
    #[serde(default)]
    pub(crate) bore: Option<Amount>,
    pub(crate) primary: Given<ChamberFile>,
    pub(crate) secondary: Given<ChamberFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ChamberFile {
    #[serde(default)]
    pub(crate) bore: Option<Amount>,
    pub(crate) stroke: Amount,
    #[serde(default)]
    pub(crate) cut_off: Option<Amount>,
    #[serde(default)]
    pub(crate) circuit: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BoosterFile {
    pub(crate) kind: Given<BoosterKind>,
    #[serde(default)]
    pub(crate) ratio: Option<Amount>,
    #[serde(default)]
    pub(crate) most_help: Option<Amount>,
    #[serde(default)]
    pub(crate) accumulator: Option<AccumulatorFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BalanceBarFile {
    pub(crate) cylinders: Given<Vec<Name>>,
    #[serde(default)]
    pub(crate) share: Option<Amount>,
}
