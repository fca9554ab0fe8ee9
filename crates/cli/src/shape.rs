//! Layouts to start from: the demo vehicles, and a folder of the user's own.

use anyhow::{Context, Result};
use bleedwright_network::suggest;
use std::fs;
use std::path::Path;

macro_rules! demos {
    ($($name:literal),+) => {
        /// The demo vehicles, by name.
        const DEMOS: &[(&str, &str)] =
            &[$(($name, include_str!(concat!("../../../layouts/", $name, ".ron")))),+];
    };
}

demos!(
    "avocet",
    "curlew",
    "dunlin",
    "godwit",
    "lapwing",
    "plover",
    "redshank",
    "ruff",
    "turnstone",
    "whimbrel"
);

/// The text of a layout by its name, or why there is none of that name.
pub(crate) fn find(name: &str, folder: Option<&Path>) -> Result<Result<String, String>> {
    let Some(folder) = folder else {
        let known: Vec<&str> = DEMOS.iter().map(|(name, _)| *name).collect();
        return Ok(DEMOS
            .iter()
            .find(|(demo, _)| *demo == name)
            .map(|(_, text)| (*text).to_owned())
            .ok_or_else(|| unknown(name, &known)));
    };
    let shown = bleedwright_report::clean(&folder.to_string_lossy()).into_owned();
    let mut names = Vec::new();
    for entry in
        fs::read_dir(folder).with_context(|| format!("cannot read the folder `{shown}`"))?
    {
        let path = entry
            .with_context(|| format!("cannot read the folder `{shown}`"))?
            .path();
        if path.extension().is_some_and(|extension| extension == "ron")
            && let Some(stem) = path.file_stem().and_then(|stem| stem.to_str())
        {
            names.push(stem.to_owned());
        }
    }
    names.sort();
    if !names.iter().any(|known| known == name) {
        let known: Vec<&str> = names.iter().map(String::as_str).collect();
        return Ok(Err(unknown(name, &known)));
    }
    let path = folder.join(format!("{name}.ron"));
    fs::read_to_string(&path)
        .with_context(|| {
            format!(
                "cannot read `{}`",
                bleedwright_report::clean(&path.to_string_lossy())
            )
        })
        .map(Ok)
}

fn unknown(name: &str, known: &[&str]) -> String {
    if known.is_empty() {
        return "the folder --shapes holds no file that ends in .ron".to_owned();
    }
    format!(
        "there is no layout `{}` to start from; {} (known: {})",
        bleedwright_report::clean(name),
        suggest(name, known),
        known.join(", ")
    )
}
