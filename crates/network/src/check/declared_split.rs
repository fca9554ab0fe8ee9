//! The split that the file declares, held against the one that the pipework gives.

use crate::Element;
use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{LinkKind, Owner};
use crate::layout::{Cylinder, Split, Wheel, Works};
use crate::network::{Circuit, CircuitId, Network, pair_of};
use crate::place::{PathStep, Place};
use std::collections::{BTreeMap, BTreeSet};

pub(crate) fn split(network: &Network, findings: &mut Vec<Finding>) {
    let Some(declared) = network.layout.declared_split else {
        return;
    };
    let found = network.split();
    if declared == found {
        return;
    }
    let circuits: Vec<String> = network
        .circuits()
        .map(|(_, circuit)| {
            let wheels: Vec<&str> = circuit.wheels.iter().map(|wheel| wheel.text()).collect();
            format!("{}: {}", circuit.name, wheels.join(", "))
        })
        .collect();
    let stray = stray_line(network, declared);
    let help = match (loose_pair(network, found), stray) {
        (Some([a, b]), _) => format!(
            "two single cylinders are one brake only where a bar joins them: if one does, add `balance_bars: [(cylinders: [{a}, {b}])]`"
        ),
        (None, Some(line)) => format!(
            "with `{}` on the other circuit it would be {}: look on the vehicle where this line begins; correct it, or the declaration",
            network.layout.lines[line].id,
            declared.word()
        ),
        (None, None) => {
            "follow each pipe from the cylinder; correct the lines, the wheels, or the declaration"
                .to_owned()
        }
    };
    findings.push(
        Finding::new(
            Code::SplitContradicted,
            stray.map_or_else(
                || Place::Path(vec![PathStep::Field("split")]),
                |line| Place::item("lines", line).field(inner_end(network, line)),
            ),
            format!(
                "the split is declared {}, but the pipework gives {} ({})",
                declared.word(),
                found.word(),
                circuits.join("; ")
            ),
            help,
        )
        .allowing(
            Split::ALL
                .iter()
                .map(|split| split.word())
                .collect::<Vec<_>>()
                .join(", "),
        ),
    );
}

/// Two single cylinders of the brakes that no bar joins, by their names in quotes.
fn loose_pair(network: &Network, found: Split) -> Option<[String; 2]> {
    let layout = &network.layout;
    let brakes = network
        .circuits()
        .filter(|(_, circuit)| circuit.purpose == Works::Brake);
    let cylinders: Vec<&Cylinder> = brakes
        .map(|(_, circuit)| &layout.cylinders[circuit.cylinder])
        .collect();
    match cylinders[..] {
        [a, b] if found == Split::Single && layout.balance_bars.is_empty() && a.id != b.id => {
            Some([a, b].map(|it| crate::writing::quoted(&it.id)))
        }
        _ => None,
    }
}

/// The one line that makes the declared split if what is behind it hangs on the other circuit; none where there is no
/// such line, or another one that would change other wheels.
fn stray_line(network: &Network, declared: Split) -> Option<usize> {
    let brakes: Vec<(CircuitId, &Circuit)> = network
        .circuits()
        .filter(|(_, circuit)| circuit.purpose == Works::Brake)
        .collect();
    let [a, b] = brakes[..] else {
        return None;
    };
    let mut strays: BTreeMap<BTreeSet<Wheel>, (usize, usize)> = BTreeMap::new();
    for (from, to) in [(a, b), (b, a)] {
        for (line, (depth, behind)) in behind_lines(network, from.0) {
            let wheels = from.1.wheels.iter().copied();
            let left: Vec<Wheel> = wheels.filter(|wheel| !behind.contains(wheel)).collect();
            let right: BTreeSet<Wheel> =
                to.1.wheels.iter().copied().chain(behind.clone()).collect();
            let right: Vec<Wheel> = right.into_iter().collect();
            if pair_of(&left, &right) == declared {
                let nearest = strays.entry(behind).or_insert((depth, line));
                *nearest = (*nearest).min((depth, line));
            }
        }
    }
    match strays.len() {
        1 => strays.into_values().next().map(|(_, line)| line),
        _ => None,
    }
}

/// For every line of a circuit how many elements come before it, and the wheels behind it.
fn behind_lines(
    network: &Network,
    circuit: CircuitId,
) -> BTreeMap<usize, (usize, BTreeSet<Wheel>)> {
    let mut behind: BTreeMap<usize, (usize, BTreeSet<Wheel>)> = BTreeMap::new();
    for cell in network.cells_of(circuit) {
        let owner: Owner = network.cell(*cell).owner;
        let Some(wheel) = network.part(owner).and_then(|part| part.wheel) else {
            continue;
        };
        for (depth, element) in network.way_to(*cell).into_iter().enumerate() {
            if let Element::Link(link) = element
                && let LinkKind::Line(line) = network.link(link).kind
            {
                let (_, wheels) = behind.entry(line).or_insert((depth, BTreeSet::new()));
                wheels.insert(wheel);
            }
        }
    }
    behind
}

/// The field of the line's end that is nearer to the cylinder.
fn inner_end(network: &Network, line: usize) -> &'static str {
    let is_to_nearer = network.link_of_line(line).is_some_and(|link| {
        let [from, to] = network.link_ends(link).map(|end| network.depth(end));
        to < from
    });
    if is_to_nearer { "to" } else { "from" }
}
