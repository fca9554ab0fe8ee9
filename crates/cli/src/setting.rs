//! Values to set, each given as `NAME = VALUE`.

use crate::exit::nothing_written;
use anyhow::Result;

/// Names and values; `example` shows how one is written.
pub(crate) fn pairs<'s>(settings: &'s [String], example: &str) -> Result<Vec<(&'s str, &'s str)>> {
    let pair = |setting: &'s String| {
        let (name, value) = setting.split_once('=').ok_or_else(|| {
            nothing_written(format!(
                "`{setting}` has no `=`; write it like --set \"{example}\""
            ))
        })?;
        Ok((name.trim(), value.trim()))
    };
    settings.iter().map(pair).collect()
}
