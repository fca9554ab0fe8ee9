//! Single values of a layout's text set anew; every other byte stays: order, comments and blanks are the writer's own.

mod compare;
mod error;
mod name;
mod splice;
mod token;

pub use error::{EditError, Structural};

use bleedwright_network::{
    Entry, EntryKind, Finding, Loaded, PathStep, Presence, load, outline, ticked,
};
use compare::{has_changed_only, news};
use name::{Names, single};
use splice::Splices;
use token::{Meant, meant};

/// A value that can be set, and how it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedValue {
    /// Its name in words, such as `rear pipe length`. It means nothing else in this layout, unless two things of one class
    /// have one name.
    pub name: String,
    /// What the field takes.
    pub kind: EntryKind,
    /// The value as it stands, without quotes; none where the field is not written or cannot be read.
    pub value: Option<String>,
    /// Whether the field is written.
    pub is_written: bool,
}

/// What was done to one value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The name of the value.
    pub name: String,
    /// The value before; none where the field was not written.
    pub before: Option<String>,
    /// The value now.
    pub after: String,
}

/// A layout with values set anew.
#[derive(Clone, Debug)]
pub struct Edited {
    /// The text that came out. It is the same as before where every value stood there already.
    pub text: String,
    /// The values asked for, in the order in which they were given.
    pub changes: Vec<Change>,
    /// The new text, loaded.
    pub loaded: Loaded,
    /// Warnings and advice that the layout did not bring before.
    pub news: Vec<Finding>,
}

/// The values that can be set in a layout, in the order of the file, those that are not written behind the others of the
/// same thing. None when brackets, commas or quotes are amiss.
///
/// A field that is not written is listed wherever the notation has it. Whether it fits the kind of part, as `holds` fits a
/// residual valve only, is seen when it is set.
pub fn named_values(text: &str) -> Option<Vec<NamedValue>> {
    let entries = outline(text)?;
    let listed = Names::of(&entries).for_listing().into_iter();
    let listed = listed.map(|(entry, name)| NamedValue {
        name,
        kind: entry.kind,
        value: entry.value().map(str::to_owned),
        is_written: matches!(entry.standing, Presence::Written { .. }),
    });
    Some(listed.collect())
}

/// Sets values, each a name and a value, in the text of a layout. All are set or none.
///
/// A value is replaced where it stands. A field that is not written is put behind the last one of its structure. Values
/// may stand with or without quotes. The text that comes out was loaded again: it has no error that was not there
/// before, and no value but those named differs. A layout with errors is changed only when that leaves fewer of them.
///
/// ```
/// let text = include_str!("../../../layouts/curlew.ron");
/// let set = [("front cylinder free_play", "3/16 in"), ("Fluid", "dot4")];
/// let edited = bleedwright_drafting::set_values(text, &set).unwrap();
/// assert!(edited.text.contains(r#"free_play: "3/16 in","#) && edited.text.contains("fluid: dot4,"));
/// assert_eq!(edited.changes[1].before.as_deref(), Some("dot5_1"));
/// ```
pub fn set_values(text: &str, settings: &[(&str, &str)]) -> Result<Edited, EditError> {
    let before = load(text.as_bytes());
    let Some(entries) = outline(text) else {
        return Err(EditError::Unreadable {
            findings: errors(&before),
        });
    };
    let named = named(&entries, settings)?;
    refuse_one_step(&entries, &named)?;
    let mut changed = text.to_owned();
    let mut now = entries.clone();
    let mut splices = Splices::default();
    let mut changes: Vec<Change> = Vec::new();
    for ((path, name), (_, given)) in named.iter().zip(settings) {
        let entry = at(&now, path).ok_or_else(|| spread(&named))?;
        let Meant { token, value } = meant(&changed, entry, name, given)?;
        let before = entry.value().map(str::to_owned);
        if before.as_deref() != Some(value.as_str()) {
            splices.put(&mut changed, entry, &token);
            // Bytes move with every value that is set; the way to a value does not.
            now = outline(&changed).ok_or_else(|| spread(&named))?;
        }
        changes.push(Change {
            name: name.clone(),
            before,
            after: value,
        });
    }
    let loaded = if changed == text {
        before.clone()
    } else {
        load(changed.as_bytes())
    };
    let (errors_now, news): (Vec<Finding>, Vec<Finding>) =
        news(text, &before, &changed, &loaded, &splices)
            .into_iter()
            .partition(Finding::is_error);
    if !errors_now.is_empty() {
        return Err(EditError::Breaks {
            names: list(&named),
            findings: errors_now,
            text: changed,
        });
    }
    if before.has_errors() && errors(&loaded).len() >= errors(&before).len() {
        return Err(EditError::StillUnsound {
            findings: errors(&before),
        });
    }
    if !has_changed_only(&entries, &now, &named, &changes) {
        return Err(spread(&named));
    }
    Ok(Edited {
        text: changed,
        changes,
        loaded,
        news,
    })
}

/// Whether a bore for one piston alone is asked for where both have one bore: a stepped cylinder is meant by both bores.
fn refuse_one_step(entries: &[Entry], named: &[(Vec<PathStep>, String)]) -> Result<(), EditError> {
    for (path, name) in named {
        let [
            cylinder @ ..,
            PathStep::Field(half @ ("primary" | "secondary")),
            PathStep::Field("bore"),
        ] = &path[..]
        else {
            continue;
        };
        let other = if *half == "primary" {
            "secondary"
        } else {
            "primary"
        };
        let way = |steps: &[PathStep]| [cylinder, steps].concat();
        let is_written = |path: &Vec<PathStep>| {
            let entry = entries.iter().find(|entry| entry.path == *path);
            entry.is_some_and(|entry| matches!(entry.standing, Presence::Written { .. }))
        };
        let others = way(&[PathStep::Field(other), PathStep::Field("bore")]);
        let is_asked = named.iter().any(|(path, _)| *path == others);
        if !is_asked && !is_written(path) && !is_written(&others) {
            return Err(EditError::Stepped {
                name: name.clone(),
                whole: name.replace(&format!("{half} "), ""),
            });
        }
    }
    Ok(())
}

/// The way to every value asked for, and its name.
fn named(
    entries: &[Entry],
    settings: &[(&str, &str)],
) -> Result<Vec<(Vec<PathStep>, String)>, EditError> {
    let names = Names::of(entries);
    let mut named: Vec<(Vec<PathStep>, String)> = Vec::new();
    for (found, _) in settings {
        let (entry, name) = names.find(found)?;
        single(entry).map_err(|why| EditError::NotSingle {
            name: name.clone(),
            why,
        })?;
        if named.iter().any(|(path, _)| *path == entry.path) {
            return Err(EditError::SetTwice { name });
        }
        named.push((entry.path.clone(), name));
    }
    Ok(named)
}

fn at<'e>(entries: &'e [Entry], path: &[PathStep]) -> Option<&'e Entry> {
    entries.iter().find(|entry| entry.path == path)
}

fn errors(loaded: &Loaded) -> Vec<Finding> {
    let errors = loaded.findings.iter().filter(|finding| finding.is_error());
    errors.cloned().collect()
}

fn list(named: &[(Vec<PathStep>, String)]) -> String {
    ticked(named.iter().map(|(_, name)| name.as_str()), ", ")
}

fn spread(named: &[(Vec<PathStep>, String)]) -> EditError {
    EditError::Spreads { names: list(named) }
}
