//! Measured viscosity as written.

use super::Amount;
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ViscosityFile {
    pub(crate) at: Amount,
    pub(crate) value: Amount,
}
