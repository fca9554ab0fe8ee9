//! What is noted while a file is read: its mistakes, or every value it holds or could hold.

use crate::code::Code;
use crate::finding::Finding;
use crate::outline::{Entry, EntryKind, Gap, Presence};
use crate::place::{PathStep, Place};
use crate::syntax::{Shape, Slip, SlipKind, Value};
use crate::writing::unquoted;
use std::cell::RefCell;

/// More structural mistakes than this are not listed.
const MOST_FINDINGS: usize = 1000;

/// What stands where a value belongs.
#[derive(Clone)]
pub(super) enum At<'t> {
    Here(&'t Value),
    /// Nothing; these fields are missing in the structure.
    Absent {
        structure: &'t Value,
        fields: Vec<&'static str>,
    },
    /// Nothing, and the mistake that it follows from was noted.
    Nowhere,
}

/// Where it is noted while several readers are at work.
pub(super) struct Notes<'t> {
    pub(super) text: &'t str,
    pub(super) findings: RefCell<Vec<Finding>>,
    pub(super) entries: RefCell<Vec<Entry>>,
    /// Whether every value is noted. Mistakes are then nobody's concern.
    pub(super) is_outline: bool,
}

impl Notes<'_> {
    pub(super) fn add(&self, finding: Finding) {
        let mut findings = self.findings.borrow_mut();
        if findings.len() < MOST_FINDINGS {
            findings.push(finding);
            if findings.len() == MOST_FINDINGS {
                let slip = Slip {
                    kind: SlipKind::TooMany,
                    at: self.text.len()..self.text.len(),
                    began: None,
                };
                findings.push(slip.finding());
            }
        }
    }

    /// Whether so much is wrong that reading on makes no sense.
    pub(super) fn is_full(&self) -> bool {
        !self.is_outline && self.findings.borrow().len() > MOST_FINDINGS
    }

    /// Notes that something else stands where one kind of value is expected.
    pub(super) fn expected(&self, value: &Value, expected: &str, help: &str) {
        // A slip was noted already where nothing could be read.
        if let Some(found) = shape_words(&value.shape) {
            self.add(Finding::new(
                Code::WrongType,
                Place::Bytes(value.range.clone()),
                format!("{found} stands where {expected} is expected"),
                help,
            ));
        }
    }

    /// Notes a value of the outline.
    pub(super) fn enter(&self, kind: EntryKind, path: &[PathStep], at: &At<'_>) {
        if !self.is_outline {
            return;
        }
        let (kind, standing) = match at {
            At::Nowhere => return,
            At::Here(value) => {
                let written = &self.text[value.range.clone()];
                let (kind, value_read) = match value.shape {
                    Shape::List(_) => (EntryKind::List, None),
                    Shape::Structure { .. } | Shape::Tuple { .. } | Shape::Map => {
                        (EntryKind::Brackets, None)
                    }
                    Shape::Text => (kind, unquoted(written)),
                    Shape::Word if written == "None" => (kind, None),
                    Shape::Word | Shape::Number | Shape::Character | Shape::Unread => {
                        (kind, Some(written.to_owned()))
                    }
                };
                let standing = Presence::Written {
                    range: value.range.clone(),
                    value: value_read,
                };
                (kind, standing)
            }
            At::Absent { structure, fields } => {
                let last = match &structure.shape {
                    Shape::Structure { fields, .. } => fields.last(),
                    _ => None,
                };
                let gap = Gap {
                    structure: structure.range.clone(),
                    last: last.map(|last| last.name.start..last.value.range.end),
                    fields: fields.clone(),
                };
                (kind, Presence::Absent(gap))
            }
        };
        self.entries.borrow_mut().push(Entry {
            path: path.to_vec(),
            kind,
            standing,
        });
    }
}

fn shape_words(shape: &Shape) -> Option<&'static str> {
    match shape {
        Shape::Text => Some("a text in quotes"),
        Shape::Number => Some("a number"),
        Shape::Word => Some("a bare word"),
        Shape::Character => Some("a character in single quotes"),
        Shape::Structure { .. } => Some("a round bracket"),
        Shape::Tuple { .. } => Some("a round bracket without names of fields"),
        Shape::List(_) => Some("a list"),
        Shape::Map => Some("a curly bracket"),
        Shape::Unread => None,
    }
}
