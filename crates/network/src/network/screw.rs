//! Screws: where each opens the network.

use super::{CircuitId, Network, ScrewId};
use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{CellId, Cells, Owner};
use crate::guess::{suggest, ticked};
use crate::layout::{Chamber, Layout, Part, PartKind, Screw};
use crate::place::Place;
use crate::port::position;
use crate::tree::Forest;

/// A screw and where it opens the network.
#[derive(Clone, Debug)]
pub struct ScrewPlace {
    /// The cell it opens.
    pub cell: CellId,
    /// Cylinder or part, by its place in the layout.
    pub owner: Owner,
    /// The screw's place in its part's list.
    pub nth: usize,
    /// The circuit that reaches it.
    pub circuit: Option<CircuitId>,
    /// Whether the file says which of the part's cells it opens.
    pub(crate) is_certain: bool,
}

impl Network {
    /// The screws, in the order of the file: cylinders first.
    pub fn screws(&self) -> impl Iterator<Item = (ScrewId, &ScrewPlace)> {
        (0..).map(ScrewId).zip(&self.screws)
    }

    /// Where a screw is.
    pub fn screw_place(&self, id: ScrewId) -> &ScrewPlace {
        &self.screws[id.index()]
    }

    /// The screw itself.
    pub fn screw(&self, id: ScrewId) -> &Screw {
        let place = self.screw_place(id);
        match place.owner {
            Owner::Cylinder(index, _) => &self.layout.cylinders[index].screws[place.nth],
            Owner::Part(index, _) => &self.layout.parts[index].screws[place.nth],
        }
    }

    /// Finds a screw by its name.
    pub fn find_screw(&self, name: &str) -> Option<ScrewId> {
        self.screws()
            .map(|(id, _)| id)
            .find(|id| self.screw(*id).id == name)
    }

    /// The screws that open a cell, in the order of the file.
    pub fn screws_on(&self, cell: CellId) -> impl Iterator<Item = ScrewId> + '_ {
        let start = self
            .screws_by_cell
            .partition_point(|(other, _)| *other < cell);
        self.screws_by_cell[start..]
            .iter()
            .take_while(move |(other, _)| *other == cell)
            .map(|(_, id)| *id)
    }

    /// The place of a screw in the layout file.
    pub fn place_of_screw(&self, id: ScrewId) -> Place {
        let screw = self.screw_place(id);
        screw.owner.place().field("screws").nth(screw.nth)
    }
}

/// What carries screws: a cylinder or a part.
struct Carrier<'l> {
    name: &'l str,
    place: Place,
    screws: &'l [Screw],
    /// The names by which a screw can choose among the carrier's cells, and
    /// the cell that each means.
    ports: Vec<(&'l str, CellId, Owner)>,
}

pub(super) fn place_screws(
    layout: &Layout,
    cells: &Cells,
    forest: &Forest,
    findings: &mut Vec<Finding>,
) -> Vec<ScrewPlace> {
    let cylinders = layout
        .cylinders
        .iter()
        .enumerate()
        .map(|(index, cylinder)| {
            let chambers = cylinder.chambers.iter().enumerate();
            let port = |(nth, chamber): (usize, &Chamber)| {
                (
                    chamber.port,
                    cells.chamber(index, nth),
                    Owner::Cylinder(index, nth),
                )
            };
            Carrier {
                name: &cylinder.id,
                place: Place::item("cylinders", index).field("screws"),
                screws: &cylinder.screws,
                ports: chambers.map(port).collect(),
            }
        });
    let parts = layout.parts.iter().enumerate();
    let parts = parts.filter(|(_, part)| !part.screws.is_empty());
    let parts = parts.map(|(index, part)| {
        let port = |(name, nth)| (name, cells.part(index, nth), Owner::Part(index, nth));
        Carrier {
            name: &part.id,
            place: Place::item("parts", index).field("screws"),
            screws: &part.screws,
            ports: screw_ports(part).into_iter().map(port).collect(),
        }
    });
    let mut places = Vec::new();
    for carrier in cylinders.chain(parts) {
        for (nth, screw) in carrier.screws.iter().enumerate() {
            let chosen = carrier.choose(screw, nth, findings);
            // Where the choice is unclear the first cell holds the screw, so
            // that it can still be named in an order.
            let Some((_, cell, owner)) = carrier.ports.get(chosen.unwrap_or(0)) else {
                continue;
            };
            places.push(ScrewPlace {
                cell: *cell,
                owner: *owner,
                nth,
                circuit: forest.circuit[cell.index()].map(CircuitId),
                is_certain: chosen.is_some(),
            });
        }
    }
    places
}

impl Carrier<'_> {
    /// Which of the ports a screw means; none when that is a finding.
    fn choose(&self, screw: &Screw, nth: usize, findings: &mut Vec<Finding>) -> Option<usize> {
        let names: Vec<&str> = self.ports.iter().map(|port| port.0).collect();
        let named: Vec<&str> = names.iter().copied().filter(|n| !n.is_empty()).collect();
        let place = self.place.clone().nth(nth);
        let (place, message, help) = match &screw.chamber {
            None if names.len() < 2 => return Some(0),
            None => (
                place,
                format!(
                    "the screw `{}` does not say what it opens in `{}`",
                    screw.id, self.name
                ),
                format!(
                    "add `chamber: ...` with one of {}",
                    ticked(named.iter().copied(), ", ")
                ),
            ),
            Some(chamber) => match position(chamber, &names) {
                Some(chosen) => return Some(chosen),
                None if named.is_empty() => (
                    place.field("chamber"),
                    format!("`{}` has one chamber, and it has no name", self.name),
                    "leave `chamber` out".to_owned(),
                ),
                None => (
                    place.field("chamber"),
                    format!("`{}` has no chamber `{chamber}`", self.name),
                    suggest(chamber, &named),
                ),
            },
        };
        findings.push(Finding::new(Code::UnknownPort, place, message, help));
        None
    }
}

/// The names by which a screw can choose among a part's cells, and the place
/// of the cell that each name means.
fn screw_ports(part: &Part) -> Vec<(&str, usize)> {
    match &part.kind {
        PartKind::AntiLock { circuits, .. } => circuits
            .iter()
            .enumerate()
            .flat_map(|(nth, circuit)| {
                std::iter::once(&circuit.inlet)
                    .chain(&circuit.outlets)
                    .map(move |port| (port.as_str(), nth))
            })
            .collect(),
        PartKind::Brake(brake) => {
            let names = brake.cavities.iter().map(|cavity| cavity.id.as_str());
            names.zip(0..).collect()
        }
        PartKind::Valve(_) if !part.sections.is_empty() => {
            part.sections.iter().map(String::as_str).zip(0..).collect()
        }
        PartKind::Valve(_) | PartKind::Junction { .. } => vec![("", 0)],
    }
}

/// Counts the screws behind every cell, children before parents.
pub(super) fn count_screws(forest: &Forest, screws: &[ScrewPlace], cells: usize) -> Vec<u32> {
    let mut behind = vec![0; cells];
    for screw in screws {
        behind[screw.cell.index()] += 1;
    }
    for order in &forest.order {
        for cell in order.iter().rev() {
            if let Some(step) = forest.step[cell.index()] {
                behind[step.parent.index()] += behind[cell.index()];
            }
        }
    }
    behind
}
