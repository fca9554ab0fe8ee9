//! Circuits that must not meet, loops, valves against the flow.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{CellId, LinkId, LinkKind, Owner, Side};
use crate::layout::PartKind;
use crate::network::{Element, Network};
use crate::place::Place;
use std::collections::BTreeMap;

/// Lines labelled in one finding.
const MOST_LABELS: usize = 6;

/// Names shown of one path; a longer one is cut in the middle.
const MOST_NAMES: usize = 40;

/// The elements of a path, named from one end to the other.
fn path_text<T>(elements: &[T], name: impl Fn(&T) -> String) -> String {
    let named = |elements: &[T]| elements.iter().map(&name).collect::<Vec<_>>().join(" - ");
    if elements.len() <= MOST_NAMES {
        return named(elements);
    }
    let (head, tail) = (MOST_NAMES / 2, elements.len() - MOST_NAMES / 2);
    format!(
        "{} - ({} more) - {}",
        named(&elements[..head]),
        tail - head,
        named(&elements[tail..])
    )
}

/// The safety case: a path from one chamber to another. One finding for each
/// pair of circuits, whatever the number of joints between them.
pub(crate) fn joined_circuits(network: &Network, findings: &mut Vec<Finding>) {
    let mut pairs: BTreeMap<[usize; 2], LinkId> = BTreeMap::new();
    for joint in &network.forest.joining {
        let circuits = network.cells.ends(*joint).map(|cell| {
            network
                .circuit_of_cell(cell)
                .expect("a joining link has a circuit at both ends")
                .index()
        });
        let mut pair = circuits;
        pair.sort_unstable();
        pairs.entry(pair).or_insert(*joint);
    }
    for joint in pairs.into_values() {
        let [a, b] = network.cells.ends(joint);
        let mut path: Vec<Element> = Vec::new();
        for step in network.forest.way_to(a) {
            path.extend([Element::Cell(step.parent), Element::Link(step.link)]);
        }
        path.extend([Element::Cell(a), Element::Link(joint), Element::Cell(b)]);
        for step in network.forest.way_to(b).into_iter().rev() {
            path.extend([Element::Link(step.link), Element::Cell(step.parent)]);
        }
        let end = |element: Option<&Element>| {
            element.map_or(String::new(), |element| network.element_name(*element))
        };
        let mut finding = Finding::new(
            Code::CircuitsJoined,
            place_of_link(network, joint),
            format!(
                "the circuits of `{}` and `{}` are joined: {}",
                end(path.first()),
                end(path.last()),
                path_text(&path, |element| network.element_name(*element))
            ),
            "one leak would empty both circuits: separate them, or correct the line end that is \
             wrong in the file",
        );
        let links = path.iter().filter_map(|element| match element {
            Element::Link(link) => Some(*link),
            Element::Cell(_) => None,
        });
        for link in links.filter(|link| *link != joint).take(MOST_LABELS) {
            let text = format!("`{}` is on the path", network.link_name(link));
            finding = finding.also_at(place_of_link(network, link), text);
        }
        findings.push(finding);
    }
}

/// Loops inside one circuit: they can be bled, but air may take the other way.
pub(crate) fn loops(network: &Network, findings: &mut Vec<Finding>) {
    for closing in &network.forest.closing {
        let links = network
            .forest
            .loop_of(*closing, network.cells.ends(*closing));
        let mut finding = Finding::new(
            Code::Loop,
            place_of_link(network, *closing),
            format!(
                "these lines form a loop: {}",
                path_text(&links, |link| network.link_name(*link))
            ),
            "check that it is really there; if it is, bleed the screws behind it twice, since \
             fluid takes the shorter way and air may stay in the longer one",
        );
        for link in links
            .into_iter()
            .filter(|link| link != closing)
            .take(MOST_LABELS)
        {
            let text = format!("`{}` is part of the loop", network.link_name(link));
            finding = finding.also_at(place_of_link(network, link), text);
        }
        findings.push(finding);
    }
}

/// A valve or anti-lock unit that the fluid would enter by an outlet or leave
/// by an inlet. A valve turned round does both and is reported once.
pub(crate) fn backward_valves(network: &Network, findings: &mut Vec<Finding>) {
    let mut backward: BTreeMap<CellId, (LinkId, &str)> = BTreeMap::new();
    for (id, _) in network.all_cells() {
        let Some((parent, link)) = network.step_to(id) else {
            continue;
        };
        if is_directed(network, id) && side_at(network, link, id) == Side::Outlet {
            backward.insert(id, (link, "has its outlet toward the cylinder"));
        }
        if is_directed(network, parent) && side_at(network, link, parent) == Side::Inlet {
            backward
                .entry(parent)
                .or_insert((link, "feeds a line from its inlet"));
        }
    }
    for (cell, (link, what)) in backward {
        let Owner::Part(part, _) = network.cell(cell).owner else {
            continue;
        };
        let kind = network.layout.parts[part].kind.text();
        findings.push(
            Finding::new(
                Code::FittedBackwards,
                place_of_link(network, link),
                format!("the {kind} `{}` {what}", network.cell_name(cell)),
                "write the line so that it leads `to` the valve on the cylinder's side and \
                 `from` it on the brake's side, or turn the valve on the vehicle",
            )
            .also_at(Place::item("parts", part), "the valve"),
        );
    }
}

/// A tee with fewer lines than it has ports; a bleed screw takes the place of one.
pub(crate) fn tees(network: &Network, findings: &mut Vec<Finding>) {
    for (index, part) in network.layout.parts.iter().enumerate() {
        if !matches!(part.kind, PartKind::Junction { word: "tee" }) {
            continue;
        }
        let lines: usize = network
            .cells_of_part(index)
            .map(|cell| network.links_at(cell).count())
            .sum();
        if lines + part.screws.len() < 3 {
            let lines = if lines == 1 {
                "1 line".to_owned()
            } else {
                format!("{lines} lines")
            };
            findings.push(
                Finding::new(
                    Code::TeeOfTwo,
                    Place::item("parts", index).field("kind"),
                    format!("the tee `{}` joins {lines}", part.id),
                    "add the line that is missing with its brake; if its third port holds a switch or a plug, or it has \
                     two, write `kind: union`",
                )
                .allowing("three lines, or two and a bleed screw"),
            );
        }
    }
}

fn is_directed(network: &Network, cell: CellId) -> bool {
    network
        .part(network.cell(cell).owner)
        .is_some_and(|part| match &part.kind {
            PartKind::Valve(valve) => valve.kind.is_directed(),
            PartKind::AntiLock { .. } => true,
            PartKind::Junction { .. } | PartKind::Brake(_) => false,
        })
}

fn side_at(network: &Network, link: LinkId, cell: CellId) -> Side {
    let is_first = network.cells.ends(link)[0] == cell;
    network.link(link).sides[usize::from(!is_first)]
}

pub(crate) fn place_of_link(network: &Network, link: LinkId) -> Place {
    match network.link(link).kind {
        LinkKind::Line(index) => Place::item("lines", index),
        LinkKind::Crossover(part) => Place::item("parts", part).field("kind").field("crossover"),
    }
}
