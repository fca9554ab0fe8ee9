//! Layouts to start from: the demo vehicles, and a folder of the user's own.

use crate::exit::usage;
use anyhow::{Context, Error, Result};
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

/// The text of a layout by its name.
pub(crate) fn find(name: &str, folder: Option<&Path>) -> Result<String> {
    let Some(folder) = folder else {
        let known: Vec<&str> = DEMOS.iter().map(|(name, _)| *name).collect();
        let demo = DEMOS.iter().find(|(demo, _)| *demo == name);
        return demo
            .map(|(_, text)| (*text).to_owned())
            .ok_or_else(|| unknown(name, &known));
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
        return Err(unknown(name, &known));
    }
    let path = folder.join(format!("{name}.ron"));
    fs::read_to_string(&path).with_context(|| {
        let shown = path.to_string_lossy();
        format!("cannot read `{}`", bleedwright_report::clean(&shown))
    })
}

fn unknown(name: &str, known: &[&str]) -> Error {
    if known.is_empty() {
        return usage("the folder --shapes holds no file that ends in .ron");
    }
    usage(format!(
        "there is no layout `{}` to start from; {} (known: {})",
        bleedwright_report::clean(name),
        suggest(name, known),
        known.join(", ")
    ))
}
