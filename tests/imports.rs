//! Who imports whom among the files of the program.

use crate::binary::root;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// The files below `src` that each of them names by `crate::`; what is no file is in `main`.
fn imports() -> BTreeMap<String, BTreeSet<String>> {
    let files: BTreeMap<String, String> = fs::read_dir(root().join("crates/cli/src"))
        .expect("the sources are there")
        .map(|entry| {
            let path = entry.expect("it can be read").path();
            let stem = path.file_stem().expect("it has a name").to_string_lossy();
            let text = fs::read_to_string(&path).expect("a source is text");
            (stem.into_owned(), text)
        })
        .collect();
    let named = |text: &str| {
        let pieces = text.split("crate::").skip(1).map(|after| {
            let name = after
                .split(|c: char| !c.is_alphanumeric() && c != '_')
                .next();
            name.filter(|name| files.contains_key(*name))
                .unwrap_or("main")
        });
        pieces.map(str::to_owned).collect()
    };
    // What `main` is made of, it imports by `mod`.
    let of_main = files
        .keys()
        .filter(|name| *name != "main")
        .cloned()
        .collect();
    let imports = files.iter().map(|(name, text)| (name.clone(), named(text)));
    imports.chain([("main".to_owned(), of_main)]).collect()
}

/// Files that import none of those left are taken away again and again; what stays is a circle, or leads to one.
#[test]
fn no_files_of_the_program_import_each_other() {
    let mut left = imports();
    assert!(
        left.len() > 20 && left.values().flatten().count() > 100,
        "{left:?}"
    );
    loop {
        let names: BTreeSet<String> = left.keys().cloned().collect();
        left.retain(|_, imported| !imported.is_disjoint(&names));
        if left.len() == names.len() {
            break;
        }
    }
    assert!(left.is_empty(), "{left:?}");
}
