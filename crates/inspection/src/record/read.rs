//! From the text of a record to the record, with everything that is wrong on the way.

use super::meant::guess;
use super::scan::{Spelling, scan};
use super::slot::{Given, Slots, Wrong};
use super::tree::{Field, Node, Shape};
use super::{Record, SECTIONS};
use bleedwright_network::{Code, DEFAULT_SIZE_LIMIT, Finding, Place, suggest};
use std::collections::BTreeMap;

/// The format number of records.
pub const RECORD_FORMAT: u32 = 1;

/// The field by which a record is known.
const MARK: &str = "readings_of";

/// What reading a record gave.
#[derive(Clone, Debug)]
pub struct ReadRecord {
    /// The record; none while any finding is an error.
    pub record: Option<Record>,
    /// Everything found, in the order of the file.
    pub findings: Vec<Finding>,
    /// How the file is written.
    pub spelling: Spelling,
}

/// Reads a record of at most 4 MiB, in RON or JSON.
///
/// ```
/// let text = r#"(format: 1, readings_of: (name: "Lapwing"), checks: (moisture: "0.5 %"))"#;
/// let read = bleedwright_inspection::read_record(text.as_bytes());
/// assert!(read.findings.is_empty());
/// let checks = read.record.unwrap().checks;
/// assert_eq!(checks.moisture.found().unwrap().text, "0.5 %");
/// assert!(checks.leak_found.found().is_none());
/// ```
pub fn read_record(bytes: &[u8]) -> ReadRecord {
    let failed = |finding| ReadRecord {
        record: None,
        findings: vec![finding],
        spelling: Spelling::Ron,
    };
    if bytes.len() > DEFAULT_SIZE_LIMIT {
        return failed(
            Finding::new(
                Code::TooLarge,
                Place::Bytes(0..0),
                format!("the file has more than {DEFAULT_SIZE_LIMIT} bytes"),
                "a record has some thousand bytes; this is another file",
            )
            .allowing(format!("up to {DEFAULT_SIZE_LIMIT} bytes")),
        );
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read_text(text),
        Err(error) => failed(Finding::new(
            Code::NotText,
            Place::Bytes(error.valid_up_to()..error.valid_up_to()),
            format!("byte {} is not UTF-8 text", error.valid_up_to()),
            "a record is a plain text file; fetch it from your copy",
        )),
    }
}

pub(crate) fn read_text(text: &str) -> ReadRecord {
    let scan = scan(text);
    let mut findings = scan.slips;
    if scan.root.is_none() && !text.contains(MARK) {
        // What is wrong with a file of another kind, read as a record, helps nobody.
        let start = text.len() - text.trim_start().len();
        let is_layout = text.contains("cylinders:") && text.contains("lines:");
        findings = vec![foreign(start..start, is_layout)];
    }
    let record = scan
        .root
        .and_then(|root| Reader::new(&mut findings).record(&root));
    findings.sort_by_key(|finding| match &finding.place {
        Place::Bytes(range) => range.start,
        _ => 0,
    });
    let has_errors = findings.iter().any(Finding::is_error);
    ReadRecord {
        record: record.filter(|_| !has_errors),
        findings,
        spelling: scan.spelling,
    }
}

struct Reader<'f> {
    findings: &'f mut Vec<Finding>,
}

impl<'f> Reader<'f> {
    fn new(findings: &'f mut Vec<Finding>) -> Self {
        Self { findings }
    }

    fn note(&mut self, code: Code, at: &Node, message: impl Into<String>, help: impl Into<String>) {
        let place = Place::Bytes(marked(at));
        self.findings.push(Finding::new(code, place, message, help));
    }

    fn record(mut self, root: &Node) -> Option<Record> {
        self.is_ours(root).then(|| {
            let known = SECTIONS.map(|section| section.field);
            self.only_known(root, &known, &["format"], &suggest);
            let mut record = Record::default();
            self.structure(root, "readings_of", &mut record.vehicle);
            self.structure(root, "work", &mut record.work);
            record.controls = self.items(root, "controls", &record.vehicle.controls);
            record.brakes = self.items(root, "brakes", &record.vehicle.brakes);
            record.screws = self.items(root, "screws", &record.vehicle.screws);
            record.compartments = self.items(root, "compartments", &record.vehicle.compartments);
            record.steps = self.items(root, "steps", &record.vehicle.steps);
            record.tasks = self.items(root, "tasks", &record.vehicle.tasks);
            self.structure(root, "checks", &mut record.checks);
            self.structure(root, "card", &mut record.card);
            self.contradictions(root, &record);
            record
        })
    }

    /// Whether the file is a record of this format. Nothing else is said about one that is not.
    fn is_ours(&mut self, root: &Node) -> bool {
        let format = root.field("format");
        if root.field(MARK).is_none() {
            let is_newer = format
                .and_then(number)
                .is_some_and(|found| found > RECORD_FORMAT);
            let is_layout = root.field("cylinders").is_some() || root.field("lines").is_some();
            if !is_newer || is_layout {
                self.findings.push(foreign(marked(root), is_layout));
                return false;
            }
        }
        let Some(format) = format else {
            self.note(
                Code::MissingField,
                root,
                "the field `format` is missing",
                format!("write `format: {RECORD_FORMAT}` at the top"),
            );
            return false;
        };
        if number(format) == Some(RECORD_FORMAT) {
            return true;
        }
        let found = match &format.shape {
            Shape::Bare(word) => word.as_str(),
            _ => "not a number",
        };
        let finding = Finding::new(
            Code::UnknownFormat,
            Place::Bytes(format.range.clone()),
            format!("the format number is {found}"),
            "a higher number was written by a newer version: use that one",
        );
        self.findings
            .push(finding.allowing(RECORD_FORMAT.to_string()));
        false
    }

    fn only_known(
        &mut self,
        node: &Node,
        known: &[&str],
        also: &[&str],
        meant: &dyn Fn(&str, &[&str]) -> String,
    ) {
        let Shape::Fields(fields) = &node.shape else {
            let help = "write its fields in brackets";
            self.note(Code::WrongType, node, "a structure is expected here", help);
            return;
        };
        let mut seen: BTreeMap<&str, &Field> = BTreeMap::new();
        for field in fields {
            let name = field.name.as_str();
            let place = Place::Bytes(field.name_range.clone());
            if !known.contains(&name) && !also.contains(&name) {
                let message = format!("a field `{name}` is not known here");
                let help = meant(name, known);
                self.findings
                    .push(Finding::new(Code::UnknownField, place, message, help));
            } else if let Some(first) = seen.get(name) {
                let message = format!("the field `{name}` is given twice");
                let finding = Finding::new(Code::RepeatedField, place, message, "keep one of them")
                    .also_at(Place::Bytes(first.name_range.clone()), "first given here");
                self.findings.push(finding);
            } else {
                seen.insert(name, field);
            }
        }
    }

    fn structure(&mut self, root: &Node, name: &'static str, into: &mut dyn Slots) {
        if let Some(node) = root.field(name) {
            self.fields(node, into);
        }
    }

    fn fields(&mut self, node: &Node, into: &mut dyn Slots) {
        let known: Vec<&str> = into.slots().iter().map(|(name, _)| *name).collect();
        let meant = |found: &str, known: &[&str]| {
            let fields: Vec<_> = known.iter().map(|field| (*field, *field)).collect();
            guess(found, &fields)
        };
        self.only_known(node, &known, &[], &meant);
        for (name, slot) in into.slots_mut() {
            let Some(value) = node.field(name) else {
                continue;
            };
            let names: Vec<String>;
            let given = match &value.shape {
                Shape::Text(text) => Given::Text(text),
                Shape::Bare(word) => Given::Bare(word),
                Shape::Fields(_) => Given::Other,
                Shape::Items(items) => {
                    names = items.iter().filter_map(text).collect();
                    if names.len() == items.len() {
                        Given::Names(&names)
                    } else {
                        Given::Other
                    }
                }
            };
            if let Err(wrong) = slot.take(name, given) {
                self.findings
                    .push(finding(wrong, Place::Bytes(marked(value))));
            }
        }
    }

    fn items<S: Slots + Default>(&mut self, root: &Node, list: &str, known: &[String]) -> Vec<S> {
        let Some(node) = root.field(list) else {
            return Vec::new();
        };
        let Shape::Items(nodes) = &node.shape else {
            let help = format!("write {list}: [(name: \"...\"), ...]");
            self.note(Code::WrongType, node, "a list is expected here", help);
            return Vec::new();
        };
        let mut seen: BTreeMap<String, &Node> = BTreeMap::new();
        let mut items = Vec::new();
        for node in nodes {
            let mut item = S::default();
            self.fields(node, &mut item);
            let name = item.name();
            let at = node.field("name").unwrap_or(node);
            if name.trim().is_empty() {
                let help = "write its name, as in the list of `readings_of`";
                self.note(Code::MissingField, at, "an item has no name", help);
            } else if let Some(first) = seen.insert(name.clone(), at) {
                let place = Place::Bytes(marked(at));
                let message = format!("`{name}` stands in `{list}` twice");
                let finding = Finding::new(Code::DuplicateName, place, message, "keep one of them")
                    .also_at(Place::Bytes(marked(first)), "first given here");
                self.findings.push(finding);
            } else if !known.contains(&name) {
                let names: Vec<&str> = known.iter().map(String::as_str).collect();
                let message = format!("`readings_of` has no `{name}` among its {list}");
                self.note(Code::NotOnTheVehicle, at, message, suggest(&name, &names));
            }
            items.push(item);
        }
        items
    }

    fn contradictions(&mut self, root: &Node, record: &Record) {
        let contradict = Code::ReadingsContradict;
        let nodes = root.field("controls").map_or(&[][..], Node::items);
        for (node, control) in nodes.iter().zip(&record.controls) {
            let both = control.free.found().zip(control.depressed.found());
            let (Some((free, depressed)), Some(at)) = (both, node.field("depressed")) else {
                continue;
            };
            if free.bounds.low <= uom::si::f64::Length::default() {
                let help = "A is measured from the free pedal to the floor: measure again";
                self.note(contradict, at, "the free pedal stands on the floor", help);
            } else if depressed.bounds.nominal > free.bounds.nominal {
                let message = format!(
                    "the depressed pedal is {} from the floor, farther than the free one at {}",
                    depressed.text, free.text
                );
                let help = "A is the free pedal, B the depressed one: look which is which";
                self.note(contradict, at, message, help);
            }
        }
        let nodes = root.field("brakes").map_or(&[][..], Node::items);
        for (node, brake) in nodes.iter().zip(&record.brakes) {
            let Some(kind) = brake.kind.found() else {
                let at = node.field("kind").unwrap_or(node);
                let help = "write `kind: disc` or `kind: drum`";
                self.note(Code::MissingField, at, "this brake has no `kind`", help);
                continue;
            };
            let others = match kind {
                super::BrakeType::Disc => {
                    [("drum", &brake.drum), ("drum_maximum", &brake.drum_maximum)]
                }
                super::BrakeType::Drum => {
                    [("disc", &brake.disc), ("disc_minimum", &brake.disc_minimum)]
                }
            };
            for (name, other) in others {
                if let (Some(other), Some(at)) = (other.found(), node.field(name)) {
                    let message = format!("a {} brake has `{name}: {}`", kind.word(), other.text);
                    let help = "correct `kind`, or move the figure to the field that is meant";
                    self.note(contradict, at, message, help);
                }
            }
        }
    }
}

/// The finding of a file of another kind.
fn foreign(at: std::ops::Range<usize>, is_layout: bool) -> Finding {
    let help = if is_layout {
        "this looks like a layout: `check` reads it; start a record with --for"
    } else {
        "a record has `format: 1` and `readings_of: (...)`; start one with --for LAYOUT"
    };
    let message = "this is not a record of readings";
    Finding::new(Code::NotARecord, Place::Bytes(at), message, help)
}

pub(crate) fn finding(wrong: Wrong, place: Place) -> Finding {
    let finding = Finding::new(wrong.code, place, wrong.message, wrong.help);
    match wrong.allowed {
        Some(allowed) => finding.allowing(allowed),
        None => finding,
    }
}

/// What is marked in the file: a value, or the bracket that opens a structure.
fn marked(node: &Node) -> std::ops::Range<usize> {
    match node.shape {
        Shape::Text(_) | Shape::Bare(_) => node.range.clone(),
        Shape::Fields(_) | Shape::Items(_) => node.range.start..node.range.start + 1,
    }
}

fn number(node: &Node) -> Option<u32> {
    match &node.shape {
        Shape::Bare(word) => word.parse().ok(),
        _ => None,
    }
}

fn text(node: &Node) -> Option<String> {
    match &node.shape {
        Shape::Text(text) => Some(text.clone()),
        _ => None,
    }
}
