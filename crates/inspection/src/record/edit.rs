//! One value of a record's text set anew; every other byte stays: order, comments and blanks are the writer's own.

use super::meant::guess;
use super::read::read_text;
use super::scan::{Spelling, scan};
use super::slot::{Given, Slots, Wrong, is_of_the_other_kind};
use super::tree::Node;
use super::write::{name, token};
use super::{Record, SECTIONS, Section};
use bleedwright_network::{Finding, behind_last_field};
use thiserror::Error;

/// Why a reading was not set. Nothing was changed.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum SetError {
    /// The text is no sound record.
    #[error("the record has errors, so nothing is entered")]
    Unsound {
        /// What is wrong with it.
        findings: Vec<Finding>,
    },
    /// No reading has this name.
    #[error("no reading is called `{found}`; {help}")]
    UnknownName {
        /// The name found.
        found: String,
        /// The nearest names.
        help: String,
    },
    /// Two readings have this name.
    #[error("`{found}` means two readings of this record; give one of the items another name")]
    TwoMeanings {
        /// The name found.
        found: String,
    },
    /// The value cannot stand there.
    #[error("`{name}`: {}{}; {}", wrong.message, allowed_text(wrong), wrong.help)]
    WrongValue {
        /// The name of the reading.
        name: String,
        /// What is wrong with the value.
        wrong: Wrong,
    },
    /// One call sets the same reading twice.
    #[error("`{name}` is set twice; leave one out")]
    SetTwice {
        /// The name of the reading.
        name: String,
    },
    /// The values read well and contradict each other or what the record has.
    #[error("{names} cannot be set: {}; {}", finding.message, finding.help)]
    Contradicts {
        /// The names of the readings.
        names: String,
        /// The contradiction.
        finding: Box<Finding>,
    },
}

fn allowed_text(wrong: &Wrong) -> String {
    wrong
        .allowed
        .as_ref()
        .map_or_else(String::new, |allowed| format!(" (allowed: {allowed})"))
}

/// Where a reading stands: its part of the record, the item there, the field.
#[derive(Clone, Copy)]
pub(super) struct Address {
    pub(super) section: usize,
    pub(super) item: Option<usize>,
    pub(super) field: &'static str,
}

/// The names of all readings of a record, in the order of the file: `pedal free`, `front left disc`.
pub fn reading_names(record: &Record) -> Vec<String> {
    addresses(record)
        .into_iter()
        .map(|(name, _)| name)
        .collect()
}

/// What stands in an item from its layout or its plan.
const GIVEN: [&str; 4] = ["name", "kind", "wanted", "give_up"];

pub(super) fn addresses(record: &Record) -> Vec<(String, Address)> {
    let mut all = Vec::new();
    for (section, part) in record.sections().into_iter().enumerate() {
        let Some(word) = SECTIONS[section].word else {
            continue;
        };
        let mut add = |item: Option<usize>, slots: &dyn Slots| {
            let owner = item.map_or_else(String::new, |_| slots.name());
            for (field, slot) in slots.slots() {
                let is_given = item.is_some() && GIVEN.contains(&field);
                if slot.is_settable() && !is_given && !is_of_the_other_kind(slots, field) {
                    let parts = [owner.as_str(), word, &field.replace('_', " ")].join(" ");
                    all.push((
                        plain(&parts),
                        Address {
                            section,
                            item,
                            field,
                        },
                    ));
                }
            }
        };
        match part {
            Section::One(slots) => add(None, slots),
            Section::Many(items) => {
                for (index, slots) in items.into_iter().enumerate() {
                    add(Some(index), slots);
                }
            }
        }
    }
    all
}

/// A name without what does not matter: case, underscores, the number of blanks.
fn plain(name: &str) -> String {
    let name = name.replace('_', " ").to_lowercase();
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Sets readings, each a name and a value, and gives the new text and the full names of what was set.
///
/// A value is replaced where it stands; a field that the record leaves out is put behind the last one. The text that
/// comes out was read again. All are set or none.
///
/// ```
/// let text = "(format: 1, readings_of: (name: \"Lapwing\"), /* cold */ checks: (moisture: not_checked))";
/// let set = [("moisture", "0.5 %"), ("Leak_Found", "no")];
/// let (text, names) = bleedwright_inspection::set_readings(text, &set).unwrap();
/// assert!(text.ends_with("/* cold */ checks: (moisture: \"0.5 %\", leak_found: no))"));
/// assert_eq!(names, ["moisture", "leak found"]);
/// ```
pub fn set_readings(
    text: &str,
    settings: &[(&str, &str)],
) -> Result<(String, Vec<String>), SetError> {
    let before = sound(text)?;
    let all = addresses(&before);
    let mut changed = text.to_owned();
    let mut set: Vec<String> = Vec::new();
    for (found, value) in settings {
        let (full_name, address) = find(&all, found)?;
        if set.contains(full_name) {
            return Err(SetError::SetTwice {
                name: full_name.clone(),
            });
        }
        let scan = scan(&changed);
        let root = scan.root.as_ref().expect("a sound record has a root");
        let token = value_token(&before, *address, full_name, value, scan.spelling)?;
        changed = put(&changed, root, *address, &token, scan.spelling);
        set.push(full_name.clone());
    }
    // Only now may one reading contradict another: two that fit together are set one after the other.
    match read_text(&changed).findings.into_iter().next() {
        None => Ok((changed, set)),
        Some(finding) => Err(SetError::Contradicts {
            names: set.join(", "),
            finding: Box::new(finding),
        }),
    }
}

fn find<'a>(all: &'a [(String, Address)], found: &str) -> Result<&'a (String, Address), SetError> {
    let wanted = plain(found);
    let mut meant = all.iter().filter(|(name, _)| *name == wanted);
    let Some(first) = meant.next() else {
        let known: Vec<(&str, &str)> = all
            .iter()
            .map(|(name, address)| (name.as_str(), address.field))
            .collect();
        return Err(SetError::UnknownName {
            found: found.to_owned(),
            help: guess(&wanted, &known),
        });
    };
    if meant.next().is_some() {
        return Err(SetError::TwoMeanings {
            found: found.to_owned(),
        });
    }
    Ok(first)
}

fn sound(text: &str) -> Result<Record, SetError> {
    let read = read_text(text);
    read.record.ok_or(SetError::Unsound {
        findings: read.findings,
    })
}

/// The value as the file is to have it, once the field has taken it.
fn value_token(
    record: &Record,
    address: Address,
    full_name: &str,
    value: &str,
    spelling: Spelling,
) -> Result<String, SetError> {
    let mut copy = record.clone();
    let slots: &mut dyn Slots = match (SECTIONS[address.section].field, address.item) {
        ("controls", Some(item)) => &mut copy.controls[item],
        ("brakes", Some(item)) => &mut copy.brakes[item],
        ("screws", Some(item)) => &mut copy.screws[item],
        ("compartments", Some(item)) => &mut copy.compartments[item],
        ("steps", Some(item)) => &mut copy.steps[item],
        ("tasks", Some(item)) => &mut copy.tasks[item],
        ("readings_of", _) => &mut copy.vehicle,
        ("work", _) => &mut copy.work,
        _ => &mut copy.checks,
    };
    let mut slots = slots.slots_mut();
    let (_, slot) = slots
        .iter_mut()
        .find(|(field, _)| *field == address.field)
        .expect("the address was made from these fields");
    slot.take(address.field, Given::Command(value))
        .map_err(|wrong| SetError::WrongValue {
            name: full_name.to_owned(),
            wrong,
        })?;
    Ok(token(&slot.written(), spelling))
}

fn put(text: &str, root: &Node, address: Address, token: &str, spelling: Spelling) -> String {
    let section = SECTIONS[address.section].field;
    let field = name(spelling, address.field) + token;
    let Some(node) = root.field(section) else {
        let whole = match spelling {
            Spelling::Ron => format!("{}({field})", name(spelling, section)),
            Spelling::Json => format!("{}{{{field}}}", name(spelling, section)),
        };
        return behind_last(text, root, &whole);
    };
    let owner = match address.item {
        Some(index) => &node.items()[index],
        None => node,
    };
    match owner.field(address.field) {
        Some(value) => {
            let mut changed = text.to_owned();
            changed.replace_range(value.range.clone(), token);
            changed
        }
        None => behind_last(text, owner, &field),
    }
}

/// A field put behind the last one of a structure, in its line or indented like it.
fn behind_last(text: &str, owner: &Node, field: &str) -> String {
    let last = owner.fields().last();
    let last = last.map(|last| last.name_range.start..last.value.range.end);
    let mut changed = text.to_owned();
    let inserted = behind_last_field(text, &owner.range, last.as_ref(), field);
    for (at, piece) in inserted.into_iter().rev() {
        changed.insert_str(at, &piece);
    }
    changed
}
