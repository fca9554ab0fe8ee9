//! The flow solver against general-purpose libraries: `fluids` for one pipe
//! and for several in series, EPANET for whole networks.
//!
//! `reference/flow/generate.py` draws pipes and networks and asks the
//! libraries about them; `reference/regenerate.sh` says whether the committed
//! values are still what it gives.

use crate::flow_case::{Case, Reference, law, ml_per_s, solve};
use bleedwright_hydraulics::FlowNetwork;
use serde::Deserialize;
use std::sync::LazyLock;
use uom::si::f64::{Length, Pressure};
use uom::si::length::meter;
use uom::si::pressure::pascal;

const PIPES: &str = include_str!("reference/flow/pipes.json");
const NETWORKS: &str = include_str!("reference/flow/networks.json");

/// fluids computes with the same formula; only rounding is between.
const AGAINST_FLUIDS: f64 = 1e-9;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Chain {
    density_kg_per_m3: f64,
    viscosity_mm2_per_s: f64,
    pieces: Vec<Piece>,
    flow_ml_per_s: f64,
    drop_pa: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Piece {
    length_m: f64,
    bore_mm: f64,
    loss: f64,
}

static REFERENCE: LazyLock<Reference> = LazyLock::new(|| Reference::read(NETWORKS));

#[test]
fn pipes_in_series_as_in_fluids() {
    let chains: Vec<Chain> =
        serde_json::from_str(PIPES).expect("generate.py writes what these structures hold");
    assert_eq!(chains.len(), 120, "the number of chains generate.py draws");
    let floor = Length::new::<meter>(0.0);
    for chain in &chains {
        let mut network = FlowNetwork::new();
        let mut before = network.add_end(floor, Pressure::new::<pascal>(chain.drop_pa));
        let mut first = None;
        for (nth, piece) in chain.pieces.iter().enumerate() {
            let is_last = nth + 1 == chain.pieces.len();
            let after = if is_last {
                network.add_end(floor, Pressure::new::<pascal>(0.0))
            } else {
                network.add_joint(floor)
            };
            let fluid = (chain.density_kg_per_m3, chain.viscosity_mm2_per_s);
            let law = law(fluid, piece.length_m, piece.bore_mm, piece.loss);
            let branch = network.add_branch(before, after, law);
            first.get_or_insert(branch);
            before = after;
        }
        let flows = solve(&network, chain.density_kg_per_m3);
        let found = ml_per_s(&flows, first.expect("every chain has a piece"));
        let difference = (found / chain.flow_ml_per_s - 1.0).abs();
        assert!(
            difference <= AGAINST_FLUIDS,
            "{found} ml/s, fluids {} ml/s: {difference:e}",
            chain.flow_ml_per_s
        );
    }
}

#[test]
fn networks_as_in_epanet() {
    let reference = &*REFERENCE;
    assert_eq!(
        reference.networks.len(),
        120,
        "as many as generate.py draws"
    );
    let cases = reference.networks.iter();
    let differences: Vec<String> = cases.flat_map(|case| case.differences(reference)).collect();
    assert!(
        differences.is_empty(),
        "{} differences:\n{}",
        differences.len(),
        differences.join("\n")
    );
}

/// What the networks are drawn for must be among them.
#[test]
fn the_networks_show_what_they_are_drawn_for() {
    let count = |is: fn(&Case) -> bool| REFERENCE.networks.iter().filter(|case| is(case)).count();
    let with_closed = count(|case| case.pipes.iter().any(|pipe| !pipe.is_open));
    let with_several_open = count(|case| {
        let open = case.pipes.iter().filter(|pipe| pipe.is_open);
        let to_air = open.filter(|pipe| case.nodes[pipe.end].end_pa.is_some());
        to_air.count() >= 2
    });
    let at_rest = count(|case| case.pipes.iter().all(|pipe| pipe.flow_ml_per_s == 0.0));
    let with_loops = count(|case| {
        let joints = case.nodes.iter().filter(|node| node.end_pa.is_none());
        let between = case.pipes.iter().filter(|pipe| {
            case.nodes[pipe.start].end_pa.is_none() && case.nodes[pipe.end].end_pa.is_none()
        });
        between.count() >= joints.count()
    });
    let with_losses = count(|case| case.pipes.iter().any(|p| p.is_open && p.loss > 0.0));
    for (what, found) in [
        ("closed screws", with_closed),
        ("several open screws", with_several_open),
        ("everything at rest", at_rest),
        ("loops", with_loops),
        ("losses", with_losses),
    ] {
        assert!(found >= 10, "only {found} networks with {what}");
    }
}
