//! Master cylinders as written.

use super::part::{AccumulatorFile, PositionFile, ScrewFile};
use super::{Amount, Given, Name};
use crate::layout::{BoosterKind, Control, Works};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CylinderFile {
    pub(crate) id: Name,
    pub(crate) kind: Given<CylinderKindFile>,
    pub(crate) purpose: Option<Given<Works>>,
    pub(crate) control: Option<Given<Control>>,
    pub(crate) pedal_ratio: Option<Amount>,
    pub(crate) free_play: Option<Amount>,
    pub(crate) flex_at_500_n: Option<Amount>,
    pub(crate) booster: Option<BoosterFile>,
    pub(crate) height: Option<Amount>,
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
    pub(crate) bore: Option<Amount>,
    pub(crate) primary: Given<ChamberFile>,
    pub(crate) secondary: Given<ChamberFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ChamberFile {
    pub(crate) bore: Option<Amount>,
    pub(crate) stroke: Amount,
    pub(crate) cut_off: Option<Amount>,
    pub(crate) circuit: Option<Name>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BoosterFile {
    pub(crate) kind: Given<BoosterKind>,
    pub(crate) ratio: Option<Amount>,
    pub(crate) most_help: Option<Amount>,
    pub(crate) accumulator: Option<AccumulatorFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BalanceBarFile {
    pub(crate) cylinders: Given<Vec<Name>>,
    pub(crate) share: Option<Amount>,
}
