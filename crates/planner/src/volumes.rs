//! What every line, part, run and circuit holds.

use crate::build::plan;
use crate::options::Options;
use crate::spread::Spread;
use bleedwright_network::{Bounds, CellKind, Element, LineKind, LinkKind, Network, Wheel};
use std::collections::BTreeMap;
use uom::si::f64::{Length, Volume};

/// The contents of a system.
#[derive(Clone, Debug)]
pub struct Volumes {
    /// The vehicle.
    pub vehicle: String,
    /// Lines in the order of the file.
    pub lines: Vec<LineVolume>,
    /// Chambers, passages and cavities in the order of the file.
    pub parts: Vec<PartVolume>,
    /// Runs, screw by screw.
    pub runs: Vec<RunVolume>,
    /// Circuits, cylinder chambers included.
    pub circuits: Vec<CircuitVolume>,
    /// Pipes and hoses by size: what to cut and fill.
    pub sizes: Vec<SizeTotal>,
    /// Reservoir compartments, which are not part of the total.
    pub compartments: Vec<CompartmentVolume>,
    /// All circuits together, without the reservoirs.
    pub total: Bounds<Volume>,
    /// Where the spread of the total comes from.
    pub spread: Spread,
    /// What renewing the fluid would push out, where it can be planned.
    pub renewal: Option<Renewal>,
}

/// What one line holds.
#[derive(Clone, Debug)]
pub struct LineVolume {
    /// Its name.
    pub id: String,
    /// Pipe, hose, direct joint or crossover, with its size.
    pub kind: String,
    /// Its circuit, when a chamber reaches it.
    pub circuit: Option<String>,
    /// Its length.
    pub length: Bounds<Length>,
    /// Its contents.
    pub contents: Bounds<Volume>,
}

/// What one chamber, passage or cavity holds.
#[derive(Clone, Debug)]
pub struct PartVolume {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: &'static str,
    /// Its circuit, when a chamber reaches it.
    pub circuit: Option<String>,
    /// Its wheel.
    pub wheel: Option<Wheel>,
    /// Its contents.
    pub contents: Bounds<Volume>,
}

/// What one run holds, from the chamber, which is left out, to the screw.
#[derive(Clone, Debug)]
pub struct RunVolume {
    /// The screw.
    pub screw: String,
    /// Its circuit.
    pub circuit: String,
    /// Length of its pipes and hoses.
    pub length: Bounds<Length>,
    /// Its contents.
    pub contents: Bounds<Volume>,
}

/// What one circuit holds.
#[derive(Clone, Debug)]
pub struct CircuitVolume {
    /// Its name.
    pub name: String,
    /// The cylinder chamber.
    pub chamber: Bounds<Volume>,
    /// Pipes, hoses and passages.
    pub lines: Bounds<Volume>,
    /// Brake cavities.
    pub cavities: Bounds<Volume>,
    /// All of it.
    pub total: Bounds<Volume>,
}

/// Pipes or hoses of one size.
#[derive(Clone, Debug)]
pub struct SizeTotal {
    /// The size in words.
    pub size: String,
    /// How many lines.
    pub count: usize,
    /// Their length.
    pub length: Bounds<Length>,
    /// Their contents.
    pub contents: Bounds<Volume>,
}

/// What a reservoir compartment holds at its marks.
#[derive(Clone, Debug)]
pub struct CompartmentVolume {
    /// Its name.
    pub name: String,
    /// At the maximum mark.
    pub max: Bounds<Volume>,
    /// At the minimum mark.
    pub min: Option<Bounds<Volume>>,
}

/// What renewal takes, with the default options.
#[derive(Clone, Copy, Debug)]
pub struct Renewal {
    /// New fluid drawn, at most.
    pub needed: Volume,
    /// Of it what stays in the system: the contents of what is flushed.
    pub stays: Volume,
    /// What goes into the catch jar and the syringe.
    pub wasted: Volume,
}

/// Adds up the contents of a sound layout.
pub fn volumes(network: &Network) -> Volumes {
    let layout = network.layout();
    let circuit_name = |circuit: Option<bleedwright_network::CircuitId>| {
        circuit.map(|circuit| network.circuit(circuit).name.clone())
    };
    let lines: Vec<LineVolume> = network
        .all_links()
        .map(|(id, link)| LineVolume {
            id: network.link_name(id),
            kind: kind_of(network, link.kind),
            circuit: circuit_name(network.circuit_of_link(id)),
            length: link.length,
            contents: link.contents,
        })
        .collect();
    let parts = network
        .all_cells()
        .map(|(id, cell)| PartVolume {
            name: network.cell_name(id),
            kind: network
                .part(cell.owner)
                .map_or("cylinder chamber", |part| part.kind.text()),
            circuit: circuit_name(network.circuit_of_cell(id)),
            wheel: network.part(cell.owner).and_then(|part| part.wheel),
            contents: cell.contents,
        })
        .collect();
    let runs = network
        .screws()
        .filter_map(|(id, place)| {
            Some(RunVolume {
                screw: network.screw(id).id.clone(),
                circuit: circuit_name(place.circuit)?,
                length: network.run_length(id),
                contents: network
                    .run(id)
                    .into_iter()
                    .map(|element| network.contents(element))
                    .sum(),
            })
        })
        .collect();
    let circuits = circuits(network);
    let total = circuits.iter().map(|circuit| circuit.total).sum();
    let everything = network
        .all_cells()
        .map(|(id, _)| Element::Cell(id))
        .chain(network.all_links().map(|(id, _)| Element::Link(id)));
    Volumes {
        vehicle: layout.name.clone(),
        sizes: sizes(&lines),
        lines,
        parts,
        runs,
        circuits,
        compartments: layout
            .reservoirs
            .iter()
            .flat_map(|reservoir| &reservoir.compartments)
            .map(|compartment| CompartmentVolume {
                name: compartment.id.clone(),
                max: compartment.max,
                min: compartment.min,
            })
            .collect(),
        total,
        spread: Spread::of(network, everything),
        renewal: renewal(network, total),
    }
}

fn circuits(network: &Network) -> Vec<CircuitVolume> {
    let zero = Bounds::exact(Volume::default());
    let mut circuits: Vec<CircuitVolume> = network
        .circuits()
        .map(|(_, circuit)| CircuitVolume {
            name: circuit.name.clone(),
            chamber: network.cell(circuit.chamber).contents,
            lines: zero,
            cavities: zero,
            total: zero,
        })
        .collect();
    for (id, cell) in network.all_cells() {
        let Some(circuit) = network.circuit_of_cell(id) else {
            continue;
        };
        let circuit = &mut circuits[circuit.index()];
        match cell.kind {
            CellKind::Chamber => {}
            CellKind::Cavity => circuit.cavities = circuit.cavities + cell.contents,
            CellKind::Passage => circuit.lines = circuit.lines + cell.contents,
        }
    }
    for (id, link) in network.all_links() {
        if let Some(circuit) = network.circuit_of_link(id) {
            let circuit = &mut circuits[circuit.index()];
            circuit.lines = circuit.lines + link.contents;
        }
    }
    for circuit in &mut circuits {
        circuit.total = circuit.chamber + circuit.lines + circuit.cavities;
    }
    circuits
}

fn kind_of(network: &Network, kind: LinkKind) -> String {
    use uom::si::length::millimeter;
    let LinkKind::Line(index) = kind else {
        return "crossover".to_owned();
    };
    match &network.layout().lines[index].kind {
        LineKind::Pipe {
            size: Some(size), ..
        } => format!("pipe {}", size.name),
        LineKind::Pipe { bore, .. } => {
            format!(
                "pipe, {:.2} mm bore",
                bore.bounds.nominal.get::<millimeter>()
            )
        }
        LineKind::Hose { bore, .. } => {
            format!(
                "hose, {:.2} mm bore",
                bore.bounds.nominal.get::<millimeter>()
            )
        }
        LineKind::Direct => "direct joint".to_owned(),
    }
}

fn sizes(lines: &[LineVolume]) -> Vec<SizeTotal> {
    let mut totals: BTreeMap<&str, SizeTotal> = BTreeMap::new();
    for line in lines {
        if line.length.high <= Length::default() {
            continue;
        }
        let total = totals.entry(&line.kind).or_insert_with(|| SizeTotal {
            size: line.kind.clone(),
            count: 0,
            length: Bounds::exact(Length::default()),
            contents: Bounds::exact(Volume::default()),
        });
        total.count += 1;
        total.length = total.length + line.length;
        total.contents = total.contents + line.contents;
    }
    totals.into_values().collect()
}

/// What renewal with the default options takes; stored pressure is taken for
/// released, since nothing is opened here.
fn renewal(network: &Network, total: Bounds<Volume>) -> Option<Renewal> {
    let options = Options {
        depressurised: true,
        ..Options::default()
    };
    let plan = plan(network, &options).plan?;
    Some(Renewal {
        needed: plan.buy.needed,
        stays: total.nominal,
        wasted: plan.buy.catch,
    })
}
