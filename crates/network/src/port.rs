//! Ends of lines: which cell, and which side of it, a name means.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{CellId, Cells, Side};
use crate::guess::{Guesses, is_near, suggest};
use crate::layout::{Layout, LineEnd, PartKind};
use crate::place::Place;
use std::collections::{HashMap, HashSet};

/// Finds parts and cylinders by name.
pub(crate) struct Names<'l> {
    owners: HashMap<&'l str, NameOf>,
    lines: HashSet<&'l str>,
    guesses: Guesses<'l>,
    are_clear: bool,
}

#[derive(Clone, Copy)]
enum NameOf {
    Cylinder(usize),
    Part(usize),
    Reservoir,
}

/// Why a name leads to no cell.
pub(crate) struct PortProblem {
    code: Code,
    message: String,
    help: String,
}

/// The other repair of a caliper whose chambers are not joined in the file.
pub(crate) const OR_A_CROSSOVER: &str =
    "; if a drilling or a pipe joins the chambers, give the caliper a `crossover` instead";

impl PortProblem {
    fn or_a_crossover(mut self) -> Self {
        self.help.push_str(OR_A_CROSSOVER);
        self
    }

    pub(crate) fn finding(self, place: Place) -> Finding {
        Finding::new(self.code, place, self.message, self.help)
    }
}

impl<'l> Names<'l> {
    pub(crate) fn new(layout: &'l Layout) -> Self {
        let cylinders = layout.cylinders.iter().map(|cylinder| &cylinder.id);
        let parts = layout.parts.iter().map(|part| &part.id);
        let reservoirs = layout.reservoirs.iter().map(|reservoir| &reservoir.id);
        let named = (cylinders
            .enumerate()
            .map(|(n, id)| (id, NameOf::Cylinder(n))))
        .chain(parts.enumerate().map(|(n, id)| (id, NameOf::Part(n))))
        .chain(reservoirs.map(|id| (id, NameOf::Reservoir)));
        let mut owners = HashMap::with_capacity(layout.parts.len() + layout.cylinders.len());
        let mut are_clear = true;
        for (name, owner) in named {
            // The first of two with one name is the one that is found.
            are_clear &= !owners.contains_key(name.as_str());
            owners.entry(name.as_str()).or_insert(owner);
        }
        Self {
            owners,
            lines: layout.lines.iter().map(|line| line.id.as_str()).collect(),
            guesses: Guesses::new(),
            are_clear,
        }
    }

    /// Whether every name means one thing only.
    pub(crate) fn are_clear(&self) -> bool {
        self.are_clear
    }

    /// The cell that an end means, and the side of the part.
    pub(crate) fn port(
        &mut self,
        layout: &Layout,
        cells: &Cells,
        end: &LineEnd,
        side: Side,
    ) -> Result<(CellId, Side), PortProblem> {
        match self.owners.get(end.part.as_str()) {
            Some(NameOf::Cylinder(index)) => {
                let cylinder = &layout.cylinders[*index];
                let ports: Vec<&str> = cylinder.chambers.iter().map(|c| c.port).collect();
                Ok((
                    cells.chamber(*index, choose(end, end.port.as_deref(), &ports)?),
                    Side::Any,
                ))
            }
            Some(NameOf::Part(index)) => part_port(layout, cells, *index, end, side),
            Some(NameOf::Reservoir) => Err(PortProblem {
                code: Code::UnknownPort,
                message: format!("a line is connected to the reservoir `{}`", end.part),
                help: "lines start at a cylinder; a reservoir's compartment says what it `feeds`, \
                       and has a `hose` when it is remote"
                    .to_owned(),
            }),
            None => Err(self.unknown(end)),
        }
    }

    /// What is wrong with an end whose name no part and no cylinder has.
    fn unknown(&mut self, end: &LineEnd) -> PortProblem {
        if self.lines.contains(end.part.as_str()) {
            return PortProblem {
                code: Code::UnknownPart,
                message: format!("`{}` is a line, not a part", end.part),
                help: "lines join parts: put a `union` between two lines and lead both to it"
                    .to_owned(),
            };
        }
        let can_hold_a_line = |owner: &NameOf| !matches!(owner, NameOf::Reservoir);
        let known = self
            .owners
            .iter()
            .filter(|(_, owner)| can_hold_a_line(owner));
        PortProblem {
            code: Code::UnknownPart,
            message: format!("no part or cylinder is named `{}`", end.part),
            help: {
                let known: Vec<&str> = known.map(|(name, _)| *name).collect();
                let is_alike = known.iter().any(|name| is_near(&end.part, name));
                let help = self.guesses.suggest(&end.part, || known);
                if is_alike {
                    help
                } else {
                    format!("{help}; or add the part `{}` to `parts`", end.part)
                }
            },
        }
    }
}

/// Reports ends that name nothing, in a file of which not every value could be
/// read. Where a name itself could not be read, an end may mean that one, and
/// nothing is said. Ports belong to a kind that may be unreadable: they wait.
pub(crate) fn check_ends(layout: &Layout, findings: &mut Vec<Finding>) {
    let mut names = Names::new(layout);
    if names.owners.contains_key("") {
        return;
    }
    for (index, line) in layout.lines.iter().enumerate() {
        for (end, field) in [(&line.from, "from"), (&line.to, "to")] {
            if !end.part.is_empty() && !names.owners.contains_key(end.part.as_str()) {
                let place = Place::item("lines", index).field(field);
                findings.push(names.unknown(end).finding(place));
            }
        }
    }
    for (r, reservoir) in layout.reservoirs.iter().enumerate() {
        for (c, compartment) in reservoir.compartments.iter().enumerate() {
            for (nth, feed) in compartment.feeds.iter().enumerate() {
                let feed = feed.trim();
                let cylinder = feed.split_once('.').map_or(feed, |(cylinder, _)| cylinder);
                if feed.is_empty()
                    || [feed, cylinder]
                        .iter()
                        .any(|it| names.owners.contains_key(it))
                {
                    continue;
                }
                let place = Place::item("reservoirs", r).field("compartments").nth(c);
                let cylinders: Vec<&str> =
                    layout.cylinders.iter().map(|it| it.id.as_str()).collect();
                findings.push(Finding::new(
                    Code::UnknownPart,
                    place.field("feeds").nth(nth),
                    format!("no cylinder is named `{cylinder}`"),
                    suggest(cylinder, &cylinders),
                ));
            }
        }
    }
}

fn part_port(
    layout: &Layout,
    cells: &Cells,
    index: usize,
    end: &LineEnd,
    side: Side,
) -> Result<(CellId, Side), PortProblem> {
    let part = &layout.parts[index];
    let cell = |nth| cells.part(index, nth);
    match &part.kind {
        PartKind::Junction { .. } => Ok((cell(0), Side::Any)),
        PartKind::Valve(_) => {
            let (section, side) = match end.port.as_deref() {
                Some(port) => split_side(port, side),
                None => (None, side),
            };
            if part.sections.is_empty() {
                return match section {
                    None => Ok((cell(0), side)),
                    Some(port) => Err(no_port(end, port, &["in", "out"])),
                };
            }
            let sections: Vec<&str> = part.sections.iter().map(String::as_str).collect();
            Ok((cell(choose(end, section, &sections)?), side))
        }
        PartKind::AntiLock { circuits, .. } => {
            let mut ports = Vec::new();
            for (nth, circuit) in circuits.iter().enumerate() {
                ports.push((circuit.inlet.as_str(), nth, Side::Inlet));
                let outlets = circuit.outlets.iter();
                ports.extend(outlets.map(|outlet| (outlet.as_str(), nth, Side::Outlet)));
            }
            let names: Vec<&str> = ports.iter().map(|port| port.0).collect();
            let (_, nth, side) = ports[choose(end, end.port.as_deref(), &names)?];
            Ok((cell(nth), side))
        }
        PartKind::Brake(brake) => {
            let names: Vec<&str> = brake.cavities.iter().map(|c| c.id.as_str()).collect();
            let nth = match end.port.as_deref() {
                None if brake.crossover.is_some() => 0,
                None => choose(end, None, &names).map_err(PortProblem::or_a_crossover)?,
                port => choose(end, port, &names)?,
            };
            Ok((cell(nth), Side::Any))
        }
    }
}

/// Splits `section.in`; a bare `in` or `out` names no section.
fn split_side(port: &str, side: Side) -> (Option<&str>, Side) {
    match port {
        "in" => (None, Side::Inlet),
        "out" => (None, Side::Outlet),
        _ => {
            if let Some(section) = port.strip_suffix(".in") {
                (Some(section), Side::Inlet)
            } else if let Some(section) = port.strip_suffix(".out") {
                (Some(section), Side::Outlet)
            } else {
                (Some(port), side)
            }
        }
    }
}

/// Which of a part's ports an end means; a part with one needs no port.
fn choose(end: &LineEnd, port: Option<&str>, ports: &[&str]) -> Result<usize, PortProblem> {
    let Some(port) = port else {
        return match ports {
            [_] => Ok(0),
            [] => Err(PortProblem {
                code: Code::UnknownPort,
                message: format!("`{}` has no port that a line could lead to", end.part),
                help: NO_PASSAGES.to_owned(),
            }),
            _ => Err(PortProblem {
                code: Code::UnknownPort,
                message: format!("`{}` has several ports and none is named", end.part),
                help: format!("write {}", joined_by_or(&end.part, ports)),
            }),
        };
    };
    position(port, ports).ok_or_else(|| no_port(end, port, ports))
}

/// What may be written for an end: ``write `master.primary` or `master.secondary` ``.
fn joined_by_or(part: &str, ports: &[&str]) -> String {
    let ends: Vec<String> = ports
        .iter()
        .map(|port| format!("`{part}.{port}`"))
        .collect();
    match ends.as_slice() {
        [first @ .., last] if !first.is_empty() => format!("{} or {last}", first.join(", ")),
        _ => ends.join(", "),
    }
}

const NO_PASSAGES: &str = "describe the passages of the part first";

/// Where a name stands among the ports; an unnamed port has no name to match.
pub(crate) fn position(port: &str, ports: &[&str]) -> Option<usize> {
    ports
        .iter()
        .position(|name| *name == port && !name.is_empty())
}

fn no_port(end: &LineEnd, port: &str, ports: &[&str]) -> PortProblem {
    let named: Vec<&str> = ports.iter().copied().filter(|p| !p.is_empty()).collect();
    PortProblem {
        code: Code::UnknownPort,
        message: format!("`{}` has no port `{port}`", end.part),
        help: if ports.is_empty() {
            NO_PASSAGES.to_owned()
        } else if named.is_empty() {
            format!("write `{}` alone: it has one port", end.part)
        } else {
            suggest(port, &named)
        },
    }
}

#[cfg(test)]
mod tests {
    use crate::code::Code;
    use crate::load::load;

    /// What is found about a caliper in halves whose hose ends so.
    fn found(end: &str, crossover: &str) -> Vec<(Code, String)> {
        let text = format!(
            r#"(
                format: 1, name: "Knot", fluid: dot4,
                reservoirs: [(id: "cup", compartments: [(id: "cup", max: "40 ml", feeds: "master")])],
                cylinders: [(id: "master", kind: single(bore: "14 mm", stroke: "13 mm"))],
                parts: [(
                    id: "caliper",
                    kind: caliper(
                        chambers: [
                            (id: "inner", pistons: [(bore: "38 mm")]),
                            (id: "outer", pistons: [(bore: "38 mm")]),
                        ],
                        {crossover}
                    ),
                    wheel: front,
                    screws: [(id: "inner", chamber: "inner"), (id: "outer", chamber: "outer")],
                )],
                lines: [(id: "hose", from: "master", to: "{end}", kind: hose(length: "1 m"))],
            )"#
        );
        let findings = load(text.as_bytes()).findings.into_iter();
        let errors = findings.filter(crate::Finding::is_error);
        errors.map(|found| (found.code, found.help)).collect()
    }

    #[test]
    fn chambers_that_nothing_joins_may_lack_a_crossover() {
        for (end, code) in [
            ("caliper", Code::UnknownPort),
            ("caliper.inner", Code::LooseEnd),
        ] {
            let found = found(end, "");
            assert_eq!(found.len(), 1, "{found:?}");
            assert_eq!(found[0].0, code);
            assert!(found[0].1.contains("`crossover`"), "{}", found[0].1);
        }
    }

    #[test]
    fn a_crossover_that_cannot_be_read_joins_all_the_same() {
        assert_eq!(found("caliper", "crossover: \"0.5 ml\""), []);
        let found = found("caliper", "crossover: \"0.5 mil\"");
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].0, Code::UnknownUnit);
    }
}
