//! Names: usable, and given once. Remarks: fit to be printed.

use crate::code::Code;
use crate::file::{AccumulatorFile, CylinderFile, CylinderKindFile, LayoutFile, Name, PartFile};
use crate::file::{PartKindFile, ScrewFile};
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
    names.remark(file.notes.as_ref(), &root.field("notes"));
    let list = root.field("reservoirs");
    for (index, reservoir) in file.reservoirs.iter().enumerate() {
        let walk = list.item(index);
        names
            .parts
            .add(&reservoir.id, &walk.field("id"), names.findings);
        let compartments = walk.field("compartments");
        for (nth, compartment) in reservoir
            .compartments
            .value()
            .into_iter()
            .flatten()
            .enumerate()
        {
            let walk = compartments.item(nth);
            names
                .compartments
                .add(&compartment.id, &walk.field("id"), names.findings);
        }
    }
    let list = root.field("cylinders");
    for (index, cylinder) in file.cylinders.iter().enumerate() {
        names.cylinder(cylinder, &list.item(index));
    }
    let list = root.field("parts");
    for (index, part) in file.parts.iter().enumerate() {
        names.part(part, &list.item(index));
    }
    let list = root.field("lines");
    for (index, line) in file.lines.iter().enumerate() {
        names
            .lines
            .add(&line.id, &list.item(index).field("id"), names.findings);
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
        let mut label = |label: Option<&Name>, walk: &Walk<'_>| {
            if let Some(label) = label {
                self.label(label, &walk.field("circuit"));
            }
        };
        match file.kind.value() {
            Some(CylinderKindFile::Single(chamber)) => label(chamber.circuit.as_ref(), &kind),
            Some(CylinderKindFile::Tandem(tandem)) => {
                for (chamber, port) in [
                    (&tandem.primary, "primary"),
                    (&tandem.secondary, "secondary"),
                ] {
                    let chamber = chamber.value();
                    label(
                        chamber.and_then(|chamber| chamber.circuit.as_ref()),
                        &kind.field(port),
                    );
                }
            }
            None => {}
        }
        if let Some(booster) = &file.booster {
            let walk = walk.field("booster");
            self.accumulator(booster.accumulator.as_ref(), &walk.field("accumulator"));
        }
    }

    fn part(&mut self, file: &'f PartFile, walk: &Walk<'_>) {
        self.parts.add(&file.id, &walk.field("id"), self.findings);
        self.screws(&file.screws, &walk.field("screws"));
        self.accumulator(file.accumulator.as_ref(), &walk.field("accumulator"));
        let sections = walk.field("sections");
        for (nth, section) in file.sections.iter().flatten().enumerate() {
            self.label(section, &sections.item(nth));
        }
        let kind = walk.field("kind");
        match file.kind.value() {
            Some(PartKindFile::AntiLock(unit)) => {
                self.remark(unit.routine.as_ref(), &kind.field("routine"));
                let mut ports = Known::new("a port of this unit", false, 0);
                let circuits = kind.field("circuits");
                for (nth, circuit) in unit.circuits.value().into_iter().flatten().enumerate() {
                    let walk = circuits.item(nth);
                    ports.add(&circuit.inlet, &walk.field("inlet"), self.findings);
                    let outlets = walk.field("outlets");
                    for (nth, outlet) in circuit.outlets.value().into_iter().flatten().enumerate() {
                        ports.add(outlet, &outlets.item(nth), self.findings);
                    }
                }
            }
            Some(PartKindFile::Caliper(caliper)) => {
                let chambers = kind.field("chambers");
                for (nth, chamber) in caliper.chambers.iter().flatten().enumerate() {
                    let walk = chambers.item(nth);
                    self.remark(chamber.id.as_ref(), &walk.field("id"));
                }
            }
            Some(PartKindFile::Metering(valve)) => {
                self.remark(valve.held_open_by.as_ref(), &kind.field("held_open_by"));
            }
            _ => {}
        }
    }

    fn screws(&mut self, files: &'f [ScrewFile], walk: &Walk<'_>) {
        for (nth, screw) in files.iter().enumerate() {
            self.screws
                .add(&screw.id, &walk.item(nth).field("id"), self.findings);
        }
    }

    fn accumulator(&mut self, file: Option<&AccumulatorFile>, walk: &Walk<'_>) {
        if let Some(file) = file {
            self.remark(file.routine.as_ref(), &walk.field("routine"));
        }
    }

    /// A name that need not differ from others.
    fn label(&mut self, name: &Name, walk: &Walk<'_>) {
        usable(name, walk, false, self.findings);
    }

    /// Text that is only printed. It may run over several lines.
    fn remark(&mut self, remark: Option<&Name>, walk: &Walk<'_>) {
        let Some(remark) = remark.and_then(Name::value) else {
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
