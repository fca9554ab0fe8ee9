//! Reading a layout file.

use crate::input;
use anyhow::Result;
use bleedwright_network::{Loaded, load};
use std::path::Path;

/// A layout and the text it was read from, for places in messages.
pub(crate) struct LayoutFile {
    pub(crate) name: String,
    pub(crate) source: String,
    pub(crate) loaded: Loaded,
}

/// Reads a layout; `-` reads standard input.
pub(crate) fn read(path: &Path) -> Result<LayoutFile> {
    let input = input::read(path, "layout")?;
    let loaded = load(&input.bytes);
    Ok(LayoutFile {
        name: input.name,
        source: String::from_utf8_lossy(&input.bytes).into_owned(),
        loaded,
    })
}
