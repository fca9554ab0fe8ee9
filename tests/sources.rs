//! Every source key of the code stands in the list of references and in the list of its crate.

use crate::binary::root;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn files_below(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("the entry can be read").path();
        if path.is_dir() {
            files_below(&path, found);
        } else {
            found.push(path);
        }
    }
}

/// The keys that are written as links to the crate's list.
fn linked_keys(text: &str) -> BTreeSet<String> {
    text.match_indices("](crate#sources)")
        .filter_map(|(end, _)| text[..end].rfind('[').map(|start| &text[start + 1..end]))
        .map(str::to_owned)
        .collect()
}

/// The keys of a crate's list.
fn listed_keys(front: &str) -> BTreeSet<String> {
    front
        .match_indices(r"\[")
        .filter_map(|(start, opening)| {
            let rest = &front[start + opening.len()..];
            rest.find(r"\]").map(|end| rest[..end].to_owned())
        })
        .collect()
}

/// The links of every file below a crate's `src`.
fn keys_of_crate(folder: &Path) -> BTreeSet<String> {
    let mut files = Vec::new();
    files_below(&folder.join("src"), &mut files);
    files
        .into_iter()
        .filter(|file| file.extension().is_some_and(|ending| ending == "rs"))
        .flat_map(|file| linked_keys(&fs::read_to_string(file).expect("the source can be read")))
        .collect()
}

#[test]
fn every_key_is_listed() {
    let references =
        fs::read_to_string(root().join("docs/references.md")).expect("the references can be read");
    let mut crates_with_keys = BTreeSet::new();
    for entry in fs::read_dir(root().join("crates")).expect("the crates can be read") {
        let folder = entry.expect("the entry can be read").path();
        let linked = keys_of_crate(&folder);
        if linked.is_empty() {
            continue;
        }
        let name = folder
            .file_name()
            .expect("a crate's folder has a name")
            .to_string_lossy()
            .into_owned();
        for key in &linked {
            assert!(
                references.contains(&format!("- **[{key}]**")),
                "{name}: {key} is not in references.md"
            );
        }
        let front = fs::read_to_string(folder.join("src/lib.rs")).expect("the crate can be read");
        assert_eq!(
            listed_keys(&front),
            linked,
            "{name}: left what its crate documentation lists, right what its files use"
        );
        crates_with_keys.insert(name);
    }
    for name in ["hydraulics", "inspection", "pedal"] {
        assert!(crates_with_keys.contains(name), "{name} names no source");
    }
}

/// Every file of printed numbers says in its first lines where they stand, and the table of the references lists it.
#[test]
fn printed_numbers_are_listed() {
    let references =
        fs::read_to_string(root().join("docs/references.md")).expect("the references can be read");
    let is_row = |line: &&str| line.starts_with("| `") && line.contains(".rs`");
    let rows: Vec<&str> = references.lines().filter(is_row).collect();
    let mut files = Vec::new();
    files_below(&root().join("tests/published"), &mut files);
    let names = files.iter().filter_map(|file| file.file_name());
    let names = names.map(|name| name.to_string_lossy().into_owned());
    let names: BTreeSet<String> = names.filter(|name| name != "mod.rs").collect();
    assert!(names.len() >= 10, "{names:?}");
    for name in &names {
        assert!(
            rows.iter().any(|row| row.contains(&format!("`{name}`"))),
            "{name} is not in the table of references.md"
        );
    }
    for row in rows {
        let known = row.rsplit('|').nth(1).unwrap_or_default().trim();
        assert!(
            ["read", "second-hand", "from memory"]
                .iter()
                .any(|mark| known.starts_with(mark)),
            "{row}"
        );
        let file = row.split('`').nth(1).unwrap_or_default();
        assert!(names.contains(file), "{file} is listed and not there");
    }
}
