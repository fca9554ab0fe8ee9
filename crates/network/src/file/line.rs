//! Lines as written.

use super::{Amount, Given, Name};
use crate::layout::{Expansion, HoseMaterial};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineFile {
    pub(crate) id: Name,
    pub(crate) from: Name,
    pub(crate) to: Name,
    pub(crate) kind: Given<LineKindFile>,
    #[serde(default)]
    pub(crate) via: Vec<ViaFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum LineKindFile {
    Pipe(PipeFile),
    Hose(HoseFile),
    Direct,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PipeFile {
    pub(crate) size: Option<Amount>,
    pub(crate) wall: Option<Amount>,
    pub(crate) bore: Option<Amount>,
    pub(crate) length: Amount,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HoseFile {
    pub(crate) bore: Option<Amount>,
    pub(crate) length: Amount,
    pub(crate) material: Option<Given<HoseMaterial>>,
    pub(crate) expansion: Option<Given<Expansion>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ViaFile {
    pub(crate) at: Option<Amount>,
    pub(crate) height: Amount,
}
