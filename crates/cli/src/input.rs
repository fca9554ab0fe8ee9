//! Reading an input file whole.

use anyhow::{Context, Result};
use bleedwright_network::DEFAULT_SIZE_LIMIT;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// A file's name for messages, and its bytes.
pub(crate) struct Input {
    pub(crate) name: String,
    pub(crate) bytes: Vec<u8>,
}

/// Reads a file, or standard input for `-`. `kind` is what it should be, for the message.
pub(crate) fn read(path: &Path, kind: &str) -> Result<Input> {
    let is_standard_input = path == Path::new("-");
    let name = if is_standard_input {
        "<standard input>".into()
    } else {
        path.to_string_lossy()
    };
    let name = bleedwright_report::clean(&name).into_owned();
    // One byte more than allowed tells that the file is too large without
    // reading all of it.
    let most = DEFAULT_SIZE_LIMIT as u64 + 1;
    let mut bytes = Vec::new();
    let read = if is_standard_input {
        io::stdin().lock().take(most).read_to_end(&mut bytes)
    } else {
        File::open(path).and_then(|file| file.take(most).read_to_end(&mut bytes))
    };
    read.with_context(|| {
        format!("cannot read `{name}`; give the path of a {kind} file, or - for standard input")
    })?;
    Ok(Input { name, bytes })
}
