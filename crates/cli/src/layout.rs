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

/// The name of a file without its folders, which are nobody's business on a sheet.
pub(crate) fn file_name(path: &Path) -> String {
    let name = path.file_name().unwrap_or(path.as_os_str());
    name.to_string_lossy().into_owned()
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
