//! Networks that EPANET solved, as `reference/flow/generate.py` writes them.

use bleedwright_hydraulics::{BranchId, BranchLaw, FlowNetwork, Flows, NodeId};
use serde::Deserialize;
use std::f64::consts::PI;
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::milliliter_per_second;

/// Of the network's largest flow, of which nine digits are printed: half a unit
/// of the last is up to 5e-9.
const AGAINST_EPANET: f64 = 1e-8;

/// Half a unit of the last digit that is printed of a pressure.
const PRINTED_PA: f64 = 5e-4;

/// The standard acceleration of gravity, the solver's.
const GRAVITY_M_PER_S2: f64 = 9.80665;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Reference {
    /// EPANET's gravity: its heads are scaled by it.
    gravity_m_per_s2: f64,
    pub(crate) networks: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Case {
    pub(crate) name: String,
    density_kg_per_m3: f64,
    viscosity_mm2_per_s: f64,
    pub(crate) nodes: Vec<Node>,
    pub(crate) pipes: Vec<Pipe>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Node {
    height_m: f64,
    /// Given at an end.
    pub(crate) end_pa: Option<f64>,
    /// Found at a joint.
    gauge_pa: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Pipe {
    pub(crate) start: usize,
    pub(crate) end: usize,
    length_m: f64,
    bore_mm: f64,
    pub(crate) loss: f64,
    pub(crate) is_open: bool,
    pub(crate) flow_ml_per_s: f64,
}

/// A case as the solver takes it.
pub(crate) struct Built {
    pub(crate) network: FlowNetwork,
    nodes: Vec<NodeId>,
    branches: Vec<BranchId>,
}

/// Laminar friction with a loss in velocity heads; density in kg/m3 and
/// viscosity in mm2/s.
pub(crate) fn law(
    (density_kg_per_m3, viscosity_mm2_per_s): (f64, f64),
    length_m: f64,
    bore_mm: f64,
    loss: f64,
) -> BranchLaw {
    let bore_m = bore_mm * 1e-3;
    let viscosity_pa_s = viscosity_mm2_per_s * 1e-6 * density_kg_per_m3;
    let area_m2 = PI / 4.0 * bore_m.powi(2);
    BranchLaw {
        linear_pa_s_per_m3: 128.0 * viscosity_pa_s * length_m / (PI * bore_m.powi(4)),
        quadratic_pa_s2_per_m6: loss * density_kg_per_m3 / (2.0 * area_m2.powi(2)),
    }
}

pub(crate) fn solve(network: &FlowNetwork, density_kg_per_m3: f64) -> Flows {
    let density = MassDensity::new::<kilogram_per_cubic_meter>(density_kg_per_m3);
    network.solve(density).expect("the network is sound")
}

pub(crate) fn ml_per_s(flows: &Flows, branch: BranchId) -> f64 {
    flows.through(branch).get::<milliliter_per_second>()
}

impl Reference {
    pub(crate) fn read(text: &str) -> Self {
        serde_json::from_str(text).expect("generate.py writes what these structures hold")
    }
}

impl Case {
    /// The network with heights that weigh as much under the solver's gravity
    /// as they do under EPANET's.
    pub(crate) fn build(&self, reference: &Reference) -> Built {
        let mut network = FlowNetwork::new();
        let scale = reference.gravity_m_per_s2 / GRAVITY_M_PER_S2;
        let nodes: Vec<NodeId> = self
            .nodes
            .iter()
            .map(|node| {
                let height = Length::new::<meter>(node.height_m * scale);
                match node.end_pa {
                    Some(end_pa) => network.add_end(height, Pressure::new::<pascal>(end_pa)),
                    None => network.add_joint(height),
                }
            })
            .collect();
        let fluid = (self.density_kg_per_m3, self.viscosity_mm2_per_s);
        let branches = self
            .pipes
            .iter()
            .map(|pipe| {
                let law = if pipe.is_open {
                    law(fluid, pipe.length_m, pipe.bore_mm, pipe.loss)
                } else {
                    BranchLaw::closed()
                };
                network.add_branch(nodes[pipe.start], nodes[pipe.end], law)
            })
            .collect();
        Built {
            network,
            nodes,
            branches,
        }
    }

    pub(crate) fn solve(&self, network: &FlowNetwork) -> Flows {
        solve(network, self.density_kg_per_m3)
    }

    /// Where the solver and EPANET differ.
    pub(crate) fn differences(&self, reference: &Reference) -> Vec<String> {
        let built = self.build(reference);
        let flows = self.solve(&built.network);
        let mut differences = Vec::new();
        let largest = self.pipes.iter().map(|pipe| pipe.flow_ml_per_s.abs());
        let largest = largest.fold(0.0, f64::max);
        for (number, (pipe, branch)) in self.pipes.iter().zip(&built.branches).enumerate() {
            let found = ml_per_s(&flows, *branch);
            let is_near = (found - pipe.flow_ml_per_s).abs() <= AGAINST_EPANET * largest;
            let leaks = !pipe.is_open && found.abs() > 0.0;
            if leaks || !is_near {
                differences.push(format!(
                    "{}: pipe {number} {found} ml/s, EPANET {} ml/s of {largest}",
                    self.name, pipe.flow_ml_per_s
                ));
            }
        }
        // Pressures agree as flows do, against the widest difference between ends.
        let weight_pa_per_m = self.density_kg_per_m3 * reference.gravity_m_per_s2;
        let ends = self.nodes.iter();
        let ends = ends.filter_map(|node| Some(node.end_pa? + weight_pa_per_m * node.height_m));
        let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), end| {
            (end.min(low), end.max(high))
        });
        for (number, (node, id)) in self.nodes.iter().zip(&built.nodes).enumerate() {
            let Some(expected_pa) = node.gauge_pa else {
                continue;
            };
            let found = flows.gauge_pressure(*id);
            let found_pa = found.map_or(f64::NAN, |found| found.get::<pascal>());
            let tolerance_pa = AGAINST_EPANET * (high - low) + PRINTED_PA;
            let is_near = (found_pa - expected_pa).abs() <= tolerance_pa;
            if !is_near {
                differences.push(format!(
                    "{}: node {number} {found_pa} Pa, EPANET {expected_pa} Pa",
                    self.name
                ));
            }
        }
        differences
    }
}
