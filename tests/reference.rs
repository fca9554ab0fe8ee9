//! The values that the scripts below `tests/reference` made.

use crate::binary::root;
use std::env;
use std::fs;
use std::path::PathBuf;

pub(crate) struct Cases {
    pub(crate) json: String,
    /// Whether they are all that the script makes, instead of the few of every kind that are committed.
    pub(crate) is_long: bool,
}

/// Reads the committed file, or that of the folder that the variable `BLEEDWRIGHT_REFERENCE` names, which
/// `tests/reference/regenerate.sh --long` fills.
pub(crate) fn cases(path: &str) -> Cases {
    let long = env::var_os("BLEEDWRIGHT_REFERENCE").map(PathBuf::from);
    let is_long = long.is_some();
    let path = long
        .unwrap_or_else(|| root().join("tests/reference"))
        .join(path);
    let json = fs::read_to_string(&path);
    let json = json.unwrap_or_else(|error| panic!("{} is not there: {error}", path.display()));
    Cases { json, is_long }
}
