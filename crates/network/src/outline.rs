//! Every value that a layout file holds or could hold: its way, its kind, its
//! bytes.
//!
//! The structures of the format are asked for their own fields, so that an
//! outline has every field there is, and none besides.

use crate::parse::entries;
use crate::place::PathStep;
use crate::syntax::scan;
use std::ops::Range;

/// What a field of a layout takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum EntryKind {
    /// A number with its unit, in quotes; a ratio also as a bare number.
    Quantity,
    /// A name or a remark, in quotes.
    Text,
    /// One of these words, without quotes.
    Word(&'static [&'static str]),
    /// A whole number.
    Count,
    /// `true` or `false`.
    YesNo,
    /// A list.
    List,
    /// Fields in round brackets, with the word of a kind before them or not.
    Brackets,
}

/// One value, written or not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The way to it from the outermost brackets.
    pub path: Vec<PathStep>,
    /// What it takes; [`EntryKind::List`] or [`EntryKind::Brackets`] where
    /// such a thing stands, whatever belongs there.
    pub kind: EntryKind,
    /// Where and how it stands.
    pub standing: Presence,
}

/// Where and how a value stands in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Presence {
    /// The value is written.
    Written {
        /// Its bytes, comments around it left out.
        range: Range<usize>,
        /// The value without quotes and escapes; none for `None`, and where
        /// more than one plain value stands.
        value: Option<String>,
    },
    /// The field is not written.
    Absent(Gap),
}

/// Where a field that is not written belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The bytes of the innermost structure around it that is written.
    pub structure: Range<usize>,
    /// The bytes of the last field of that structure, from its name on.
    pub last: Option<Range<usize>>,
    /// The fields from there on, of which the last takes the value.
    pub fields: Vec<&'static str>,
}

impl Entry {
    /// The value as it stands, if it is written and plain.
    pub fn value(&self) -> Option<&str> {
        match &self.standing {
            Presence::Written { value, .. } => value.as_deref(),
            Presence::Absent(_) => None,
        }
    }
}

/// The outline of a layout's text, in the order of the file, and in each
/// structure the fields that are not written behind those that are. None when
/// brackets, commas or quotes are amiss, which [`load`](crate::load) explains.
///
/// ```
/// let entries = bleedwright_network::outline("(format: 1, steering: /* ! */ left)").unwrap();
/// assert_eq!(entries[1].value(), Some("left"));
/// assert!(entries.iter().any(|entry| entry.value().is_none())); // such as `fluid`
/// ```
pub fn outline(text: &str) -> Option<Vec<Entry>> {
    let scan = scan(text);
    if !scan.slips.is_empty() {
        return None;
    }
    entries(text, &scan.root?)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "(
    format: 1, name: \"a \\\"b\\\"\", notes: Some(/* x */ r#\"c\"#), split: None,
    reservoirs: [(id: \"r\", compartments: [(id: \"p\", max: \"1 l\", feeds: [\"m\", \"n\"])])],
    cylinders: [(id: \"m\", kind: single(bore: \"1 in\", stroke: \"1 in\"), pedal_ratio: 4.5)],
    parts: [(id: \"t\", kind: tee), (id: \"v\", kind: metering())],
)";

    fn names(entry: &Entry) -> String {
        crate::Place::Path(entry.path.clone()).to_string()
    }

    fn entry(path: &str) -> Entry {
        let entries = outline(TEXT).expect("the text has no slips");
        let mut found = entries.into_iter().filter(|entry| names(entry) == path);
        let entry = found.next().unwrap_or_else(|| panic!("no {path}"));
        assert!(found.next().is_none(), "{path} twice");
        entry
    }

    #[test]
    fn written_values_have_their_bytes_and_are_read() {
        for (path, written, value) in [
            ("format", "1", Some("1")),
            ("name", "\"a \\\"b\\\"\"", Some("a \"b\"")),
            ("notes", "r#\"c\"#", Some("c")),
            ("split", "None", None),
            ("reservoirs[0].compartments[0].max", "\"1 l\"", Some("1 l")),
            (
                "reservoirs[0].compartments[0].feeds",
                "[\"m\", \"n\"]",
                None,
            ),
            ("reservoirs[0].compartments[0].feeds[1]", "\"n\"", Some("n")),
            ("cylinders[0].kind.bore", "\"1 in\"", Some("1 in")),
            ("cylinders[0].pedal_ratio", "4.5", Some("4.5")),
            ("parts[0].kind", "tee", Some("tee")),
            ("parts[1].kind", "metering()", None),
        ] {
            let entry = entry(path);
            let Presence::Written { range, .. } = &entry.standing else {
                panic!("{path} is written");
            };
            assert_eq!(&TEXT[range.clone()], written, "{path}");
            assert_eq!(entry.value(), value, "{path}");
        }
    }

    #[test]
    fn fields_that_are_not_written_have_their_place() {
        let gap = |path: &str| match entry(path).standing {
            Presence::Absent(gap) => gap,
            Presence::Written { .. } => panic!("{path} is not written"),
        };
        let ratio = gap("cylinders[0].booster.ratio");
        assert_eq!(ratio.fields, ["booster", "ratio"]);
        assert_eq!(&TEXT[ratio.last.expect("a field")], "pedal_ratio: 4.5");
        let hold_off = gap("parts[1].kind.hold_off");
        assert_eq!(&TEXT[hold_off.structure], "metering()");
        assert_eq!(hold_off.last, None);
    }

    #[test]
    fn kinds_follow_from_the_format() {
        let words = |path: &str| match entry(path).kind {
            EntryKind::Word(words) => words,
            other => panic!("{path}: {other:?}"),
        };
        assert_eq!(words("steering"), ["left", "right", "centre"]);
        assert_eq!(words("cylinders[0].booster.kind").len(), 3);
        for (path, kind) in [
            ("reservoirs[0].height", EntryKind::Quantity),
            ("cylinders[0].pedal_ratio", EntryKind::Quantity),
            ("cylinders[0].kind.circuit", EntryKind::Text),
            ("reservoirs[0].compartments[0].feeds", EntryKind::List),
            ("parts[1].kind", EntryKind::Brackets),
            ("parts[1].electric_parking_brake", EntryKind::YesNo),
            ("maker_order", EntryKind::List),
        ] {
            assert_eq!(entry(path).kind, kind, "{path}");
        }
    }

    #[test]
    fn a_text_with_slips_has_no_outline() {
        for text in ["", "(format: 1 name: \"x\")", "(format: 0.9 m)", "(a: \"x"] {
            assert_eq!(outline(text), None, "{text}");
        }
    }
}
