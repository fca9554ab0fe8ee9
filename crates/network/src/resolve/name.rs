//! Names: usable, and given once. Remarks: fit to be printed.

use crate::code::Code;
use crate::file::{
    AccumulatorFile, ChamberFile, CylinderFile, CylinderKindFile, LayoutFile, Name, PartFile,
    PartKindFile, ScrewFile, known,
};
use crate::finding::Finding;
use crate::look::{is_invisible, look};
use crate::place::{Place, Walk};
use std::borrow::Cow;
use std::collections::hash_map::Entry;
use std::collections::{HashMap, HashSet};

/// The longest name that is accepted; longer ones are a paste gone wrong.
const LONGEST_NAME: usize = 300;

/// The names that a line end can mean.
pub(crate) fn line_ends(file: &LayoutFile) -> HashSet<&str> {
    let parts = file.parts.iter().map(|part| &part.id);
    let cylinders = file.cylinders.iter().map(|cylinder| &cylinder.id);
    let names = parts.chain(cylinders).filter_map(Name::value);
    names.map(|name| name.trim()).collect()
}

/// Parts, cylinders and reservoirs share one set of names because line ends
/// and options name them; lines, screws and compartments have sets of their
/// own.
pub(crate) fn check_names(file: &LayoutFile, findings: &mut Vec<Finding>) {
    let mut names = Names {
        parts: Known::new("a part or cylinder", true, file.parts.len()),
        compartments: Known::new("a reservoir compartment", false, 0),
        screws: Known::new("a screw", false, file.parts.len()),
        lines: Known::new("a line", false, file.lines.len()),
        findings,
    };
    let root = Walk::ROOT;
    names.label(&file.name, &root.field("name"));
    names.remark(&file.notes, &root.field("notes"));
    for (walk, reservoir) in root.field("reservoirs").items(&file.reservoirs) {
        names
            .parts
            .add(&reservoir.id, &walk.field("id"), names.findings);
        let compartments = reservoir.compartments.value().into_iter().flatten();
        for (walk, compartment) in walk.field("compartments").items(compartments) {
            names
                .compartments
                .add(&compartment.id, &walk.field("id"), names.findings);
        }
    }
    for (walk, cylinder) in root.field("cylinders").items(&file.cylinders) {
        names.cylinder(cylinder, &walk);
    }
    for (walk, part) in root.field("parts").items(&file.parts) {
        names.part(part, &walk);
    }
    for (walk, line) in root.field("lines").items(&file.lines) {
        names.lines.add(&line.id, &walk.field("id"), names.findings);
    }
}

struct Names<'f> {
    parts: Known<'f>,
    compartments: Known<'f>,
    screws: Known<'f>,
    lines: Known<'f>,
    findings: &'f mut Vec<Finding>,
}

impl<'f> Names<'f> {
    fn cylinder(&mut self, file: &'f CylinderFile, walk: &Walk<'_>) {
        self.parts.add(&file.id, &walk.field("id"), self.findings);
        self.screws(&file.screws, &walk.field("screws"));
        let kind = walk.field("kind");
        let mut label = |chamber: Option<&ChamberFile>, walk: &Walk<'_>| {
            if let Some(label) = chamber.and_then(|chamber| chamber.circuit.as_ref()) {
                self.label(label, &walk.field("circuit"));
            }
        };
        match file.kind.value() {
            Some(CylinderKindFile::Single(chamber)) => label(Some(chamber), &kind),
            Some(CylinderKindFile::Tandem(tandem)) => {
                label(tandem.primary.value(), &kind.field("primary"));
                label(tandem.secondary.value(), &kind.field("secondary"));
            }
            None => {}
        }
        if let Some(booster) = &file.booster {
            let walk = walk.field("booster");
            self.accumulator(&booster.accumulator, &walk.field("accumulator"));
        }
    }

    fn part(&mut self, file: &'f PartFile, walk: &Walk<'_>) {
        self.parts.add(&file.id, &walk.field("id"), self.findings);
        self.screws(&file.screws, &walk.field("screws"));
        self.accumulator(&file.accumulator, &walk.field("accumulator"));
        for (walk, section) in walk.field("sections").items(file.sections.iter().flatten()) {
            self.label(section, &walk);
        }
        let kind = walk.field("kind");
        match file.kind.value() {
            Some(PartKindFile::AntiLock(unit)) => {
                self.remark(&unit.routine, &kind.field("routine"));
                let mut ports = Known::new("a port of this unit", false, 0);
                let circuits = unit.circuits.value().into_iter().flatten();
                for (walk, circuit) in kind.field("circuits").items(circuits) {
                    ports.add(&circuit.inlet, &walk.field("inlet"), self.findings);
                    let outlets = circuit.outlets.value().into_iter().flatten();
                    for (walk, outlet) in walk.field("outlets").items(outlets) {
                        ports.add(outlet, &walk, self.findings);
                    }
                }
            }
            Some(PartKindFile::Caliper(caliper)) => {
                let chambers = caliper.chambers.iter().flatten();
                for (walk, chamber) in kind.field("chambers").items(chambers) {
                    self.remark(&chamber.id, &walk.field("id"));
                }
            }
            Some(PartKindFile::Metering(valve)) => {
                self.remark(&valve.held_open_by, &kind.field("held_open_by"));
            }
            _ => {}
        }
    }

    fn screws(&mut self, files: &'f [ScrewFile], walk: &Walk<'_>) {
        for (walk, screw) in walk.items(files) {
            self.screws.add(&screw.id, &walk.field("id"), self.findings);
        }
    }

    fn accumulator<'a>(&mut self, file: impl Into<Option<&'a AccumulatorFile>>, walk: &Walk<'_>) {
        if let Some(file) = file.into() {
            self.remark(&file.routine, &walk.field("routine"));
        }
    }

    /// A name that need not differ from others.
    fn label(&mut self, name: &Name, walk: &Walk<'_>) {
        usable(name, walk, false, self.findings);
    }

    /// Text that is only printed. It may run over several lines.
    fn remark<'a>(&mut self, remark: impl Into<Option<&'a Name>>, walk: &Walk<'_>) {
        let Some(remark) = known(remark) else {
            return;
        };
        let is_hidden = |c: char| is_invisible(c) && !matches!(c, '\n' | '\r' | '\t');
        if remark.chars().any(is_hidden) {
            self.findings.push(Finding::new(
                Code::BadName,
                walk.place(),
                "the text holds a character that cannot be seen",
                HIDDEN_HELP,
            ));
        }
    }
}

/// The names of one set, and where each was given first.
struct Known<'f> {
    what: &'static str,
    /// Whether a line end may carry the name, so that a dot would be taken
    /// for the start of a port.
    is_line_end: bool,
    /// By their looks: which of two that print alike a sheet means, nobody
    /// could tell.
    seen: HashMap<Cow<'f, str>, (&'f str, Place)>,
}

impl<'f> Known<'f> {
    /// A set of about so many names.
    fn new(what: &'static str, is_line_end: bool, names: usize) -> Self {
        Self {
            what,
            is_line_end,
            seen: HashMap::with_capacity(names),
        }
    }

    fn add(&mut self, name: &'f Name, walk: &Walk<'_>, findings: &mut Vec<Finding>) {
        let Some(name) = usable(name, walk, self.is_line_end, findings) else {
            return;
        };
        let first = match self.seen.entry(look(name)) {
            Entry::Vacant(new) => {
                new.insert((name, walk.place()));
                return;
            }
            Entry::Occupied(first) => first,
        };
        let (first, place) = first.get();
        let (message, help) = if *first == name {
            (
                format!("`{name}` already names {}", self.what),
                "give each its own name, such as the place where it sits",
            )
        } else {
            (
                format!(
                    "`{name}` looks like `{first}`, which already names {}",
                    self.what
                ),
                "give each a name that differs in more than capitals, spaces or the way an accent \
                 is typed: sheets print the two alike",
            )
        };
        findings.push(
            Finding::new(Code::DuplicateName, walk.place(), message, help)
                .also_at(place.clone(), "the first one is here"),
        );
    }
}

/// The name, unless it could not be read or something is wrong with it.
fn usable<'f>(
    name: &'f Name,
    walk: &Walk<'_>,
    is_line_end: bool,
    findings: &mut Vec<Finding>,
) -> Option<&'f str> {
    let name = name.value()?.as_str();
    // Most names are plain, and are asked nothing more.
    let is_plain = name.bytes().all(|byte| (b' '..=b'~').contains(&byte));
    let (message, help) = if !is_plain && name.chars().any(is_invisible) {
        (
            "the name holds a character that cannot be seen".to_owned(),
            HIDDEN_HELP,
        )
    } else if name.trim().is_empty() {
        (
            "the name is empty".to_owned(),
            "write what the part is called in the workshop",
        )
    } else if name.trim() != name {
        (
            format!("the name `{name}` begins or ends with a space"),
            "take the space away; names must match to the letter",
        )
    } else if is_line_end && name.contains('.') {
        (
            format!("the name `{name}` holds a dot"),
            "leave the dot out: it separates a part from its port",
        )
    } else if name.chars().count() > LONGEST_NAME {
        (
            format!("the name has {} characters", name.chars().count()),
            "use a short name and put the rest into `notes`",
        )
    } else {
        return Some(name);
    };
    findings.push(
        Finding::new(Code::BadName, walk.place(), message, help)
            .allowing(format!("1 to {LONGEST_NAME} printable characters")),
    );
    None
}

const HIDDEN_HELP: &str = "type it anew with letters, digits, spaces and ordinary marks only; \
                           text copied from elsewhere may carry hidden characters along";
