//! Circuits: what they are called, what feeds them, which wheels they brake.

use super::ScrewId;
use crate::code::Code;
use crate::finding::Finding;
use crate::graph::{self, CellId, Cells, Owner};
use crate::guess::Guesses;
use crate::layout::{Layout, Wheel, Works};
use crate::place::Place;
use std::collections::{BTreeSet, HashMap};

/// Everything that one chamber reaches.
#[derive(Clone, Debug)]
pub struct Circuit {
    /// The label of the layout, else the name of the feeding chamber.
    pub name: String,
    /// The chamber's cell.
    pub chamber: CellId,
    /// The cylinder, by its place in the layout.
    pub cylinder: usize,
    /// The chamber's place in the cylinder.
    pub chamber_index: usize,
    /// What the cylinder works.
    pub purpose: Works,
    /// The compartment that feeds the chamber: reservoir and compartment by
    /// their places in the layout.
    pub compartment: Option<(usize, usize)>,
    /// Its screws, in the order of the file.
    pub screws: Vec<ScrewId>,
    /// The wheels it brakes.
    pub wheels: Vec<Wheel>,
}

/// A circuit for every chamber, without what the pipework adds.
pub(super) fn circuits_of(layout: &Layout, cells: &Cells) -> Vec<Circuit> {
    let cylinders = layout.cylinders.iter().enumerate();
    cylinders
        .flat_map(|(index, cylinder)| {
            (0..cylinder.chambers.len()).map(move |nth| Circuit {
                name: String::new(),
                chamber: cells.chamber(index, nth),
                cylinder: index,
                chamber_index: nth,
                purpose: cylinder.purpose,
                compartment: None,
                screws: Vec::new(),
                wheels: Vec::new(),
            })
        })
        .collect()
}

/// Names the circuits by their labels, else by their chambers.
pub(super) fn name_circuits(layout: &Layout, circuits: &mut [Circuit]) {
    let plain: Vec<String> = circuits
        .iter()
        .map(|circuit| {
            let cylinder = &layout.cylinders[circuit.cylinder];
            let chamber = &cylinder.chambers[circuit.chamber_index];
            match (&chamber.circuit_label, chamber.port) {
                (Some(label), _) => label.clone(),
                (None, "") => cylinder.id.clone(),
                (None, port) => port.to_owned(),
            }
        })
        .collect();
    let mut uses: HashMap<&str, u32> = HashMap::new();
    for name in &plain {
        *uses.entry(name).or_default() += 1;
    }
    for (index, circuit) in circuits.iter_mut().enumerate() {
        // Two tandem cylinders would give two circuits called `primary`.
        circuit.name = if uses[plain[index].as_str()] > 1 {
            let cylinder = &layout.cylinders[circuit.cylinder];
            format!(
                "{} {}",
                cylinder.id, cylinder.chambers[circuit.chamber_index].port
            )
            .trim()
            .to_owned()
        } else {
            plain[index].clone()
        };
    }
}

/// Finds the compartment that feeds each chamber.
pub(super) fn feed_circuits(
    layout: &Layout,
    circuits: &mut [Circuit],
    findings: &mut Vec<Finding>,
) {
    let chamber_name = |circuit: &Circuit| {
        graph::cell_name(
            layout,
            Owner::Cylinder(circuit.cylinder, circuit.chamber_index),
        )
    };
    let names: HashMap<String, usize> = circuits
        .iter()
        .enumerate()
        .map(|(index, circuit)| (chamber_name(circuit), index))
        .collect();
    let mut guesses = Guesses::new();
    for (r, reservoir) in layout.reservoirs.iter().enumerate() {
        for (c, compartment) in reservoir.compartments.iter().enumerate() {
            let at = Place::item("reservoirs", r)
                .field("compartments")
                .nth(c)
                .field("feeds");
            if compartment.feeds.is_empty() {
                findings.push(Finding::new(
                    Code::FeedsNothing,
                    at,
                    format!("the compartment `{}` feeds nothing", compartment.id),
                    "name the chamber it feeds, such as \"master.primary\"",
                ));
                continue;
            }
            for (nth, feed) in compartment.feeds.iter().enumerate() {
                let at = at.clone().nth(nth);
                let Some(&index) = names.get(feed.trim()) else {
                    findings.push(Finding::new(
                        Code::UnknownPart,
                        at,
                        format!("no cylinder chamber is named `{feed}`"),
                        guesses.suggest(feed, || names.keys().map(String::as_str).collect()),
                    ));
                    continue;
                };
                let circuit = &mut circuits[index];
                if let Some((first_r, first_c)) = circuit.compartment {
                    let message = if (first_r, first_c) == (r, c) {
                        format!("the compartment feeds the chamber `{feed}` twice")
                    } else {
                        format!("the chamber `{feed}` is fed by two compartments")
                    };
                    let first = Place::item("reservoirs", first_r)
                        .field("compartments")
                        .nth(first_c)
                        .field("feeds");
                    let help = "a chamber has one port to the reservoir: remove one of the two";
                    findings.push(
                        Finding::new(Code::NotFed, at, message, help)
                            .also_at(first, "it is fed here too"),
                    );
                } else {
                    circuit.compartment = Some((r, c));
                }
            }
        }
    }
    for circuit in circuits
        .iter()
        .filter(|circuit| circuit.compartment.is_none())
    {
        findings.push(Finding::new(
            Code::NotFed,
            Place::item("cylinders", circuit.cylinder).field("id"),
            format!(
                "no reservoir compartment feeds the chamber `{}`",
                chamber_name(circuit)
            ),
            "add the chamber to the `feeds` of a compartment",
        ));
    }
}

/// The wheels that the cells of a circuit brake.
pub(super) fn wheels_of(layout: &Layout, cells: &Cells, order: &[CellId]) -> Vec<Wheel> {
    let mut wheels = BTreeSet::new();
    for cell in order {
        if let Owner::Part(index, _) = cells.cell(*cell).owner
            && layout.parts[index].kind.is_wheel_brake()
        {
            wheels.extend(layout.parts[index].wheel);
        }
    }
    wheels.into_iter().collect()
}
