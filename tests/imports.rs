//! Which files of a crate import each other in a circle.

use crate::binary::root;
use petgraph::algo::tarjan_scc;
use petgraph::graph::DiGraph;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// A module by its path below the crate's root, which has none.
type Module = Vec<String>;

/// So many circles there are in the whole workspace: the graph of a layout and the names of its ends, the reader of a
/// value and that of what is inside, marks on a page and the picture that is one of them.
const KNOWN: usize = 3;

/// The text of every module below a folder, without its tests and comments.
fn modules(folder: &Path, above: &[String], into: &mut BTreeMap<Module, String>) {
    for entry in fs::read_dir(folder).expect("the sources are there") {
        let path = entry.expect("it can be read").path();
        let stem = path.file_stem().expect("it has a name").to_string_lossy();
        let mut module = above.to_vec();
        if !["lib", "main", "mod"].contains(&&*stem) {
            module.push(stem.into_owned());
        }
        if path.is_dir() {
            modules(&path, &module, into);
        } else if path.extension().is_some_and(|end| end == "rs") {
            let text = fs::read_to_string(&path).expect("a source is text");
            let text = text
                .split("#[cfg(test)]\nmod tests {")
                .next()
                .unwrap_or_default();
            let lines = text.lines().map(|line| line.split("//").next());
            into.insert(module, lines.flatten().collect::<Vec<_>>().join("\n"));
        }
    }
}

/// The paths that a text names from `crate`, `self` or `super`, those in braces one by one.
fn named_paths(text: &str) -> Vec<Module> {
    let is_part = |c: char| c.is_alphanumeric() || c == '_' || c == ':';
    let mut paths = Vec::new();
    for first in ["crate::", "self::", "super::"] {
        for (at, _) in text.match_indices(first) {
            // `pub(in super::super)` says who may look in, and imports nothing.
            if text[..at].ends_with(is_part) || text[..at].ends_with("(in ") {
                continue;
            }
            let end = text[at..].find(|c| !is_part(c)).unwrap_or(0);
            let stem = &text[at..at + end];
            let rest = text[at + end..].trim_start();
            let inside = rest.strip_prefix('{').filter(|_| stem.ends_with("::"));
            let inside = inside.map_or("", |rest| &rest[..rest.find(';').unwrap_or(0)]);
            let tails = inside
                .split(|c| !is_part(c))
                .filter(|tail| !tail.is_empty());
            let tails: Vec<&str> = tails.collect();
            for tail in if tails.is_empty() { vec![""] } else { tails } {
                let whole = format!("{stem}{tail}");
                let parts = whole.split("::").filter(|part| !part.is_empty());
                paths.push(parts.map(str::to_owned).collect());
            }
        }
    }
    paths
}

/// The module of a crate that a path means when it stands in `here`: the deepest file on its way.
fn meant(path: &[String], here: &[String], all: &BTreeMap<Module, String>) -> Module {
    let mut full = match path[0].as_str() {
        "crate" => Vec::new(),
        _ => here.to_vec(),
    };
    for part in path {
        match part.as_str() {
            "crate" | "self" => {}
            "super" => {
                full.pop();
            }
            _ => full.push(part.clone()),
        }
    }
    while !all.contains_key(&full) {
        full.pop();
    }
    full
}

/// The groups of modules of a crate each of which leads back to itself through the others. A crate's root, which hands
/// on what is below it, is left out, and so is what a module takes from its own children by their bare names.
fn circles(name: &str) -> Vec<Vec<String>> {
    let mut all = BTreeMap::new();
    modules(&root().join("crates").join(name).join("src"), &[], &mut all);
    let mut graph = DiGraph::<&Module, ()>::new();
    let nodes: BTreeMap<&Module, _> = all
        .keys()
        .map(|module| (module, graph.add_node(module)))
        .collect();
    for (module, text) in &all {
        for path in named_paths(text) {
            let other = meant(&path, module, &all);
            if !other.is_empty() && other != *module {
                graph.update_edge(nodes[module], nodes[&other], ());
            }
        }
    }
    assert!(graph.edge_count() > 5, "{name}: {graph:?}");
    let groups = tarjan_scc(&graph).into_iter();
    let circles = groups.filter(|group| group.len() > 1);
    circles
        .map(|group| {
            group
                .into_iter()
                .map(|node| graph[node].join("::"))
                .collect()
        })
        .collect()
}

#[test]
fn few_files_import_each_other() {
    let crates = fs::read_dir(root().join("crates")).expect("the crates are there");
    let names = crates.map(|entry| entry.expect("it can be read").file_name());
    let found: BTreeMap<String, Vec<Vec<String>>> = names
        .map(|name| name.to_string_lossy().into_owned())
        .map(|name| (name.clone(), circles(&name)))
        .collect();
    let count: usize = found.values().map(Vec::len).sum();
    assert_eq!(count, KNOWN, "{found:#?}");
    for name in ["cli", "drafting"] {
        assert!(found[name].is_empty(), "{name}: {:?}", found[name]);
    }
}
