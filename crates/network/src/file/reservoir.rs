//! Reservoirs as written.

use super::{Amount, Given, Name, OneOrMany};
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReservoirFile {
    pub(crate) id: Name,
    pub(crate) height: Option<Amount>,
    pub(crate) level_switch: Option<Given<bool>>,
    pub(crate) compartments: Given<Vec<CompartmentFile>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CompartmentFile {
    pub(crate) id: Name,
    pub(crate) max: Amount,
    pub(crate) min: Option<Amount>,
    pub(crate) take_off: Option<Amount>,
    pub(crate) left_when_drawn_off: Option<Amount>,
    pub(crate) feeds: Given<OneOrMany>,
    pub(crate) hose: Option<FeedHoseFile>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FeedHoseFile {
    pub(crate) to: Option<Name>,
    pub(crate) bore: Amount,
    pub(crate) length: Amount,
}
