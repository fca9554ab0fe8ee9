//! What DEVELOPERS.md and the maps at the head of the crates say of the tree.

use crate::binary::root;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// So many words are read before the first change.
const MOST_WORDS: usize = 2000;

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn developers() -> String {
    read(&root().join("DEVELOPERS.md"))
}

/// What stands between backticks.
fn quoted(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

/// The folders of the crates, by name.
fn crates() -> BTreeMap<String, PathBuf> {
    let entries = fs::read_dir(root().join("crates")).expect("the crates can be read");
    let folders = entries.map(|entry| entry.expect("the entry can be read").path());
    folders
        .map(|folder| {
            let name = folder.file_name().expect("a folder has a name");
            (name.to_string_lossy().into_owned(), folder)
        })
        .collect()
}

#[test]
fn is_short() {
    let words = developers().split_whitespace().count();
    assert!(
        words <= MOST_WORDS,
        "DEVELOPERS.md has {words} words, {MOST_WORDS} are allowed: say it at the head of the module, or shorter"
    );
}

/// The crates of this workspace that a manifest names.
fn used(manifest: &str) -> BTreeSet<&str> {
    let names = manifest.lines().filter_map(|line| {
        let line = line.trim_start_matches("[dependencies.");
        line.strip_prefix("bleedwright-")
    });
    names
        .filter_map(|rest| rest.split(['.', ' ', '=', ']']).next())
        .collect()
}

#[test]
fn arrows_are_those_of_the_manifests() {
    let text = developers();
    let table = text
        .split_once("| crate |")
        .expect("DEVELOPERS.md has a table of crates")
        .1;
    let mut above = BTreeSet::new();
    for row in table.lines().skip(2).take_while(|row| row.starts_with('|')) {
        let cells: Vec<&str> = row.split('|').collect();
        let name = quoted(cells[1])[0];
        let drawn: BTreeSet<&str> = quoted(cells[3]).into_iter().collect();
        let manifest = read(&root().join("crates").join(name).join("Cargo.toml"));
        assert_eq!(
            drawn,
            used(&manifest),
            "{name}: left what DEVELOPERS.md draws, right what its Cargo.toml names"
        );
        assert!(
            drawn.is_subset(&above),
            "{name} stands above a crate that it uses"
        );
        assert!(above.insert(name), "{name} has two rows");
    }
    let there = crates();
    let there: BTreeSet<&str> = there.keys().map(String::as_str).collect();
    assert_eq!(
        above, there,
        "left the rows of DEVELOPERS.md, right the folders"
    );
}

#[test]
fn paths_are_there() {
    let text = developers();
    let prose: String = text.split("```").step_by(2).collect();
    let is_path = |word: &&str| word.contains('/') && !word.contains(' ');
    let paths: BTreeSet<&str> = quoted(&prose).into_iter().filter(is_path).collect();
    assert!(paths.len() >= 20, "{paths:?}");
    for path in paths {
        assert!(
            root().join(path).exists(),
            "DEVELOPERS.md names {path}, which is not there"
        );
    }
}

/// The items under `# Map` of a crate's documentation: what stands before the first colon, and behind it.
fn map(front: &str) -> Vec<(String, String)> {
    let mut items: Vec<String> = Vec::new();
    let lines = front.lines().map_while(|line| line.strip_prefix("//!"));
    let section = lines
        .skip_while(|line| line.trim() != "# Map")
        .skip(1)
        .take_while(|line| !line.starts_with(" # "));
    for line in section {
        if let Some(item) = line.strip_prefix(" - ") {
            items.push(item.to_owned());
        } else if let (Some(item), true) = (items.last_mut(), line.starts_with("   ")) {
            item.push_str(&line[2..]);
        }
    }
    let split = |item: String| {
        let (names, job) = item
            .split_once(": ")
            .unwrap_or_else(|| panic!("`{item}` says nothing of its module"));
        (names.to_owned(), job.to_owned())
    };
    items.into_iter().map(split).collect()
}

fn modules_below(folder: &Path) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for entry in fs::read_dir(folder).into_iter().flatten() {
        let path = entry.expect("the entry can be read").path();
        let name = path.file_stem().expect("an entry has a name");
        names.insert(name.to_string_lossy().into_owned());
        if path.is_dir() {
            names.extend(modules_below(&path));
        }
    }
    names
}

#[test]
fn maps_name_the_modules_that_are_there() {
    for (name, folder) in crates() {
        let source = folder.join("src");
        let entrance = ["lib.rs", "main.rs"].map(|file| source.join(file));
        let entrance = entrance.iter().find(|file| file.exists());
        let front = read(entrance.expect("a crate has an entrance"));
        let declared: Vec<&str> = front
            .lines()
            .filter_map(|line| line.trim_start_matches("pub ").strip_prefix("mod "))
            .filter_map(|rest| rest.strip_suffix(';'))
            .collect();
        let map = map(&front);
        let mut named: Vec<&str> = map.iter().flat_map(|(names, _)| quoted(names)).collect();
        named.sort_unstable();
        assert_eq!(
            named, declared,
            "{name}: left what its map names, each once, right its modules"
        );
        for (names, job) in &map {
            let names = quoted(names);
            let below: BTreeSet<String> = (names.iter())
                .flat_map(|module| modules_below(&source.join(module)))
                .collect();
            let is_name = |word: &&str| {
                word.chars()
                    .all(|sign| sign.is_ascii_lowercase() || sign == '_')
            };
            for word in quoted(job).into_iter().filter(is_name) {
                assert!(
                    below.contains(word) || declared.contains(&word),
                    "{name}: the map names {word} at {names:?}, and there is no such module"
                );
            }
        }
    }
}
