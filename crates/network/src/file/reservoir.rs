//! Reservoirs as written.

use super::{Amount, Given, Name, OneOrMany};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReservoirFile {
    pub(crate) id: Name,
    #[serde(default)]
    pub(crate) height: Option<Amount>,
    #[serde(default)]
    pub(crate) level_switch: Option<Given<bool>>,
    pub(crate) compartments: Given<Vec<CompartmentFile>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CompartmentFile {
    pub(crate) id: Name,
    pub(crate) max: Amount,
    #[serde(default)]
    pub(crate) min: Option<Amount>,
    #[serde(default)]
    pub(crate) take_off: Option<Amount>,
    #[serde(default)]
    pub(crate) left_when_drawn_off: Option<Amount>,
    pub(crate) feeds: Given<OneOrMany>,
    #[serde(default)]
    pub(crate) hose: Option<FeedHoseFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FeedHoseFile {
    #[serde(default)]
    pub(crate) to: Option<Name>,
    pub(crate) bore: Amount,
    pub(crate) length: Amount,
}
