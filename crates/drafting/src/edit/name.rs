//! Values by names in words: `rear pipe length`, `master primary stroke`, `fluid`.

use super::error::{EditError, Structural};
use bleedwright_network::{Entry, EntryKind, PathStep, did_you_mean, is_near, suggest};
use std::collections::BTreeMap;

/// Lists whose items are called by their own names alone, and what one item is called where that is not enough.
const CLASSES: [(&str, &str); 6] = [
    ("reservoirs", "reservoir"),
    ("compartments", "compartment"),
    ("cylinders", "cylinder"),
    ("parts", "part"),
    ("lines", "line"),
    ("screws", "screw"),
];

/// So many names are offered for one that is unknown.
const MOST_OFFERED: usize = 3;

/// The entries of one layout with their names.
pub(super) struct Names<'e>(Vec<(&'e Entry, Name)>);

/// The name of one entry, and the same with the class of its item before it.
struct Name {
    short: String,
    long: String,
}

impl<'e> Names<'e> {
    pub(super) fn of(entries: &'e [Entry]) -> Self {
        let items = Items::of(entries);
        // A cavity has an `id` only among several; that of a clutch slave, which has one, names nothing.
        let is_idle = |entry: &Entry| {
            matches!(
                entry.path[..],
                [.., PathStep::Field("kind"), PathStep::Field("id")]
            )
        };
        let entries = entries.iter().filter(|entry| !is_idle(entry));
        Self(
            entries
                .map(|entry| (entry, items.name(&entry.path)))
                .collect(),
        )
    }

    /// The single values with names that mean one each, as far as there are any: short ones where they do.
    pub(super) fn for_listing(&self) -> Vec<(&'e Entry, String)> {
        let mut uses: BTreeMap<String, usize> = BTreeMap::new();
        for (_, name) in &self.0 {
            *uses.entry(plain(&name.short)).or_default() += 1;
            if name.long != name.short {
                *uses.entry(plain(&name.long)).or_default() += 1;
            }
        }
        let is_unique = |name: &str| uses.get(&plain(name)) == Some(&1);
        let values = self.0.iter().filter(|(entry, _)| single(entry).is_ok());
        let listed = values.map(|(entry, name)| {
            let is_short_enough = is_unique(&name.short);
            let name = if is_short_enough {
                &name.short
            } else {
                &name.long
            };
            (*entry, name.clone())
        });
        listed.collect()
    }

    /// The one entry that is meant, and its name as written in the file.
    pub(super) fn find(&self, found: &str) -> Result<(&'e Entry, String), EditError> {
        let wanted = plain(found);
        let mut meant: Vec<&(&'e Entry, Name)> = self
            .0
            .iter()
            .filter(|(_, name)| plain(&name.short) == wanted || plain(&name.long) == wanted)
            .collect();
        // Two things may differ in their capitals alone.
        let exact = blanks_evened(found);
        let is_exact =
            |name: &Name| [&name.short, &name.long].map(|name| blanks_evened(name) == exact);
        let exactly: Vec<&(&'e Entry, Name)> = meant
            .iter()
            .copied()
            .filter(|(_, name)| is_exact(name).contains(&true))
            .collect();
        if exactly.len() == 1 {
            meant = exactly;
        }
        match meant[..] {
            [(entry, name)] => Ok((*entry, name.called(&wanted))),
            [] => Err(self.unknown(found)),
            _ => Err(self.ambiguous(found, &meant)),
        }
    }

    fn unknown(&self, found: &str) -> EditError {
        let listed = self.for_listing();
        let settable: Vec<&str> = listed.iter().map(|(_, name)| name.as_str()).collect();
        let wanted = plain(found);
        let keeping = self.keeping(&wanted, &listed);
        EditError::UnknownName {
            found: found.to_owned(),
            help: if keeping.is_empty() {
                suggest(&wanted, &settable)
            } else {
                did_you_mean(keeping)
            },
        }
    }

    /// The names that keep every word, misspelt ones too, and add the fewest of their own: what is called otherwise may be
    /// another thing.
    fn keeping<'l>(&self, wanted: &str, listed: &'l [(&'e Entry, String)]) -> Vec<&'l str> {
        let kept = listed.iter().filter_map(|(entry, listed)| {
            let (_, name) = self.0.iter().find(|(it, _)| std::ptr::eq(*it, *entry))?;
            let long = plain(&name.long);
            let mut left: Vec<&str> = long.split(' ').collect();
            for word in wanted.split(' ') {
                let same = left.iter().position(|it| *it == word);
                let found = same.or_else(|| left.iter().position(|it| is_near(word, it)))?;
                left.remove(found);
            }
            // The class of a thing says nothing that its name does not.
            let added = left
                .iter()
                .filter(|word| !CLASSES.iter().any(|(_, class)| class == *word));
            Some((added.count(), listed.as_str()))
        });
        let kept: Vec<(usize, &str)> = kept.collect();
        let fewest = kept.iter().map(|(added, _)| *added).min();
        let of_fewest = kept
            .into_iter()
            .filter(|(added, _)| Some(*added) == fewest)
            .map(|(_, name)| name);
        of_fewest.take(MOST_OFFERED).collect()
    }

    fn ambiguous(&self, found: &str, meant: &[&(&Entry, Name)]) -> EditError {
        let is_plain_enough = |name: &Name| {
            let long = plain(&name.long);
            let called = |other: &Name| plain(&other.short) == long || plain(&other.long) == long;
            self.0.iter().filter(|(_, other)| called(other)).count() == 1
        };
        let names = meant.iter().map(|(_, name)| name);
        let telling = names.clone().all(is_plain_enough);
        EditError::Ambiguous {
            found: found.to_owned(),
            names: if telling {
                names.map(|name| name.long.clone()).collect()
            } else {
                Vec::new()
            },
        }
    }
}

impl Name {
    /// As it was called: with its class or without.
    fn called(&self, wanted: &str) -> String {
        if plain(&self.short) == wanted {
            self.short.clone()
        } else {
            self.long.clone()
        }
    }
}

/// Whether an entry is a single value, or what it is instead.
pub(super) fn single(entry: &Entry) -> Result<(), Structural> {
    let path = &entry.path;
    if path[..] == [PathStep::Field("format")] {
        return Err(Structural::Format);
    }
    if path.contains(&PathStep::Field("via")) {
        return Err(Structural::Via);
    }
    match (path.last(), entry.kind) {
        (Some(PathStep::Item(_)), _) | (_, EntryKind::List) => Err(Structural::List),
        (_, EntryKind::Brackets) => Err(Structural::Brackets),
        _ => Ok(()),
    }
}

/// What the items of lists are called, and how many a list has.
struct Items<'e> {
    own_names: BTreeMap<&'e [PathStep], &'e str>,
    counts: BTreeMap<&'e [PathStep], usize>,
}

impl<'e> Items<'e> {
    fn of(entries: &'e [Entry]) -> Self {
        let mut own_names = BTreeMap::new();
        let mut counts: BTreeMap<&[PathStep], usize> = BTreeMap::new();
        for entry in entries {
            for (at, step) in entry.path.iter().enumerate() {
                if let PathStep::Item(index) = step {
                    let count = counts.entry(&entry.path[..at]).or_default();
                    *count = (*count).max(index + 1);
                }
            }
            // A passage of an anti-lock unit goes by the name of its inlet.
            if let [item @ .., PathStep::Field("id" | "inlet")] = &entry.path[..]
                && let Some(name) = entry.value().filter(|name| !name.trim().is_empty())
            {
                own_names.insert(item, name);
            }
        }
        Self { own_names, counts }
    }

    fn name(&self, path: &[PathStep]) -> Name {
        let mut words: Vec<String> = Vec::new();
        let mut class = None;
        for (at, step) in path.iter().enumerate() {
            let is_last = at + 1 == path.len();
            match (step, path.get(at + 1)) {
                (PathStep::Field("kind"), _) if !is_last => {}
                (PathStep::Field(list), Some(PathStep::Item(index))) => {
                    let item = &path[..at + 2];
                    let of_class = CLASSES.iter().find(|(name, _)| name == list);
                    match (self.own_names.get(item), of_class) {
                        (Some(name), Some((_, word))) => {
                            words = vec![(*name).to_owned()];
                            class = Some(*word);
                        }
                        (Some(name), None) => words.push((*name).to_owned()),
                        (None, _) => {
                            let count = self.counts.get(&path[..=at]).copied().unwrap_or_default();
                            words.extend(nameless(list, *index, count));
                        }
                    }
                }
                (PathStep::Field(name), _) => words.push(name.replace('_', " ")),
                (PathStep::Item(_), _) => {}
            }
        }
        let short = words.join(" ");
        let long = class.map_or_else(|| short.clone(), |class| format!("{class} {short}"));
        Name { short, long }
    }
}

/// An item without a name of its own, counted from one where it has neighbours. Pistons of one size need no mention.
fn nameless(list: &str, index: usize, count: usize) -> Option<String> {
    let one = list.strip_suffix('s').unwrap_or(list).replace('_', " ");
    match (list, count) {
        ("pistons", 1) => None,
        (_, 1) => Some(one),
        _ => Some(format!("{one} {}", index + 1)),
    }
}

/// A name without what does not matter: case, underscores, the number of blanks.
fn plain(name: &str) -> String {
    blanks_evened(name).to_lowercase()
}

fn blanks_evened(name: &str) -> String {
    let name = name.replace('_', " ");
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}
