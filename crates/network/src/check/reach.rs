//! Parts without lines, screws without pressure, brakes without screws.

use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{CellId, CellKind, Owner};
use crate::layout::PartKind;
use crate::network::{Element, Network};
use crate::place::{PathStep, Place};
use crate::port::OR_A_CROSSOVER;
use petgraph::graph::NodeIndex;
use std::collections::HashSet;

/// A layout without any cylinder: nothing would move the fluid.
pub(crate) fn cylinders(network: &Network, findings: &mut Vec<Finding>) {
    if network.layout.cylinders.is_empty() {
        findings.push(Finding::new(
            Code::MissingField,
            Place::Path(vec![PathStep::Field("cylinders")]),
            "the layout has no master cylinder",
            "add `cylinders: [...]` with at least one cylinder",
        ));
    }
}

pub(crate) fn loose_parts(network: &Network, findings: &mut Vec<Finding>) {
    let has_line = |id: CellId| {
        let graph = &network.cells.graph;
        graph.neighbors(NodeIndex::new(id.index())).next().is_some()
    };
    for (id, cell) in network.all_cells() {
        let place = || cell.owner.place().field("id");
        if !has_line(id) {
            let help = if is_separate_chamber(network, cell.owner) {
                format!("add the line to this chamber{OR_A_CROSSOVER}")
            } else {
                "add the line, or take the part out; parts screwed together are joined by a line \
                 of kind `direct`"
                    .to_owned()
            };
            findings.push(Finding::new(
                Code::LooseEnd,
                place(),
                format!("no line is connected to `{}`", network.cell_name(id)),
                help,
            ));
        } else if network.circuit_of_cell(id).is_none() {
            let what = if network.screws_on(id).next().is_some() {
                "the screw of "
            } else {
                ""
            };
            let name = network.cell_name(id);
            findings.push(Finding::new(
                Code::Unreached,
                place(),
                format!("no cylinder chamber reaches {what}`{name}`"),
                "follow its lines back toward the cylinder and add the one that is missing",
            ));
        }
    }
}

/// Whether it is one of several chambers that nothing joins.
fn is_separate_chamber(network: &Network, owner: Owner) -> bool {
    let Owner::Part(index, _) = owner else {
        return false;
    };
    match &network.layout.parts[index].kind {
        PartKind::Brake(brake) => brake.cavities.len() > 1 && brake.crossover.is_none(),
        _ => false,
    }
}

/// Brakes whose air has no way out, and second screws on one cavity.
pub(crate) fn unbleedable_brakes(network: &Network, findings: &mut Vec<Finding>) {
    // A screw that does not say which cavity it opens was reported; any of
    // its part's cavities may be the one.
    let unclear: HashSet<usize> = network
        .screws()
        .filter(|(_, screw)| !screw.is_certain)
        .filter_map(|(_, screw)| match screw.owner {
            Owner::Part(index, _) => Some(index),
            Owner::Cylinder(..) => None,
        })
        .collect();
    for (id, cell) in network.all_cells() {
        if cell.kind != CellKind::Cavity || network.circuit_of_cell(id).is_none() {
            continue;
        }
        let Owner::Part(index, _) = cell.owner else {
            continue;
        };
        if unclear.contains(&index) {
            continue;
        }
        if network.screws_behind(Element::Cell(id)) == 0 {
            let name = network.cell_name(id);
            findings.push(Finding::new(
                Code::NoScrew,
                Place::item("parts", index),
                format!("`{name}` has no bleed screw, nor has a cylinder fed through it"),
                "add its `screws`; air in a cavity without one cannot be got out",
            ));
        }
        if network.screws_on(id).nth(1).is_some() {
            let top = network.top_screw(network.screws_on(id));
            for screw in network.screws_on(id).filter(|screw| Some(*screw) != top) {
                findings.push(Finding::new(
                    Code::ScrewStaysShut,
                    network.place_of_screw(screw),
                    format!(
                        "the screw `{}` stays shut: another one is the top of the same cavity",
                        network.screw(screw).id
                    ),
                    "if the two open different cavities, give the caliper `chambers` and a \
                     `crossover`, and each screw its `chamber`",
                ));
            }
        }
    }
}

/// Brakes that the sheet could not send anybody to.
pub(crate) fn brakes_without_wheel(network: &Network, findings: &mut Vec<Finding>) {
    for (index, part) in network.layout.parts.iter().enumerate() {
        if part.kind.is_wheel_brake() && part.wheel.is_none() {
            findings.push(Finding::new(
                Code::NoWheel,
                Place::item("parts", index),
                format!("`{}` belongs to no wheel", part.id),
                "add `wheel: front_left` or the like; the split cannot be told without it",
            ));
        }
    }
}
