//! Pedal strokes against `SciPy`: the stroke into three lines with a pocket, and networks drawn from seeds.
//!
//! `reference/stroke/generate.py` integrates pressures with the Radau method of `solve_ivp`; the crate integrates
//! stored volumes with a Rosenbrock method. `reference/regenerate.sh` says whether the committed values are still what
//! `SciPy` gives. The first of the cases are committed.

use crate::reference;
use bleedwright_hydraulics::gas::standard_atmosphere;
use bleedwright_hydraulics::stroke::{
    BranchId, BranchLaw, Motion, NodeId, Pocket, StrokeNetwork, StrokeState,
};
use serde::Deserialize;
use std::sync::LazyLock;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, Time, Volume};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// The printed values have eight digits after the point; this is what the two methods must agree to.
const AGREEMENT_ML: f64 = 1e-6;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    nodes: Vec<NodeCase>,
    ends_pa: Vec<f64>,
    branches: Vec<BranchCase>,
    /// Stands at the first node.
    piston: PistonCase,
    samples: Vec<SampleCase>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NodeCase {
    compliance_m3_per_pa: f64,
    pocket_ml: Option<f64>,
    index: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BranchCase {
    /// The number of a node, or -1 minus the number of an end.
    from: i64,
    to: i64,
    linear_pa_s_per_m3: f64,
    quadratic_pa_s2_per_m6: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PistonCase {
    area_m2: f64,
    stroke_m: f64,
    press_s: f64,
    hold_s: f64,
    release_s: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SampleCase {
    time_s: f64,
    /// Of the nodes with a pocket, in their order.
    gas_ml: Vec<f64>,
    delivered_ml: Vec<f64>,
}

static CASES: LazyLock<reference::Cases> = LazyLock::new(|| reference::cases("stroke/cases.json"));
static ALL: LazyLock<Vec<Case>> =
    LazyLock::new(|| serde_json::from_str(&CASES.json).expect("the script writes this format"));

struct Built {
    network: StrokeNetwork,
    nodes: Vec<NodeId>,
    branches: Vec<BranchId>,
}

fn seconds(time_s: f64) -> Time {
    Time::new::<second>(time_s)
}

fn motion(piston: &PistonCase) -> Motion {
    let meters = Length::new::<meter>;
    Motion::default()
        .then_move(meters(piston.stroke_m), seconds(piston.press_s))
        .and_then(|motion| motion.then_hold(seconds(piston.hold_s)))
        .and_then(|motion| motion.then_move(meters(0.0), seconds(piston.release_s)))
        .expect("the motion is sound")
}

fn pocket(node: &NodeCase) -> Option<Pocket> {
    let (volume_ml, index) = (node.pocket_ml?, node.index?);
    let pocket = Pocket::new(
        Volume::new::<milliliter>(volume_ml),
        standard_atmosphere(),
        Ratio::new::<ratio>(index),
    );
    Some(pocket.expect("the pocket is sound"))
}

fn build(case: &Case) -> Built {
    let mut network = StrokeNetwork::new(standard_atmosphere()).expect("sound");
    let nodes: Vec<_> = case
        .nodes
        .iter()
        .map(|node| {
            network
                .add_node(node.compliance_m3_per_pa, pocket(node))
                .expect("the node is sound")
        })
        .collect();
    let ends: Vec<_> = case
        .ends_pa
        .iter()
        .map(|&gauge_pa| {
            network
                .add_end(Pressure::new::<pascal>(gauge_pa))
                .expect("the end is sound")
        })
        .collect();
    let place = |number: i64| match usize::try_from(number) {
        Ok(node) => nodes[node],
        Err(_) => ends[usize::try_from(-1 - number).expect("an end has a number")],
    };
    let mut branches = Vec::new();
    for branch in &case.branches {
        let law = BranchLaw {
            linear_pa_s_per_m3: branch.linear_pa_s_per_m3,
            quadratic_pa_s2_per_m6: branch.quadratic_pa_s2_per_m6,
        };
        let id = network
            .add_branch(place(branch.from), place(branch.to), law)
            .expect("the branch is sound");
        branches.push(id);
    }
    let area = Area::new::<square_meter>(case.piston.area_m2);
    network
        .add_piston(nodes[0], area, motion(&case.piston))
        .expect("the piston is sound");
    Built {
        network,
        nodes,
        branches,
    }
}

fn run(built: &Built, until_s: f64, relative: f64) -> StrokeState {
    let (until, relative) = (seconds(until_s), Ratio::new::<ratio>(relative));
    built.network.run(until, relative).expect("the run ends")
}

/// The largest difference from `SciPy` in any pocket and any delivered volume.
fn difference_ml(case: &Case, relative: f64) -> f64 {
    let built = build(case);
    let mut largest_ml = 0.0_f64;
    for sample in &case.samples {
        let ours = run(&built, sample.time_s, relative);
        let gas_ml: Vec<f64> = built
            .nodes
            .iter()
            .filter_map(|&node| ours.pocket(node).expect("the node is known"))
            .map(|gas| gas.get::<milliliter>())
            .collect();
        assert_eq!(gas_ml.len(), sample.gas_ml.len());
        for (ours_ml, theirs_ml) in gas_ml.iter().zip(&sample.gas_ml) {
            largest_ml = largest_ml.max((ours_ml - theirs_ml).abs());
        }
        assert_eq!(built.branches.len(), sample.delivered_ml.len());
        for (&branch, theirs_ml) in built.branches.iter().zip(&sample.delivered_ml) {
            let ours = ours.delivered(branch).expect("the branch is known");
            largest_ml = largest_ml.max((ours.get::<milliliter>() - theirs_ml).abs());
        }
    }
    largest_ml
}

/// The cases whose largest difference is not below what is allowed.
fn differing(relative: f64, allowed_ml: f64) -> String {
    let differences = ALL.iter().map(|case| (case, difference_ml(case, relative)));
    let found = differences.filter(|(_, it)| it.is_nan() || *it >= allowed_ml);
    let found = found.map(|(case, it)| format!("{}: {it:e} ml", case.name));
    found.collect::<Vec<_>>().join(", ")
}

/// `SciPy` 1.16.3, `solve_ivp` with Radau at 1e-11.
#[test]
fn pockets_and_delivered_volumes_agree() {
    assert_eq!(differing(1e-8, AGREEMENT_ML), "");
}

/// What a simulated bleed asks for: 1e-5 relative must be good to a thousandth of a millilitre.
#[test]
fn a_coarse_tolerance_is_good_for_volumes() {
    assert_eq!(differing(1e-5, 1e-3), "");
}

/// The cases must show what they are drawn for.
#[test]
fn the_cases_show_everything() {
    // Of the few that are committed, and of all.
    let least = |few, all| if CASES.is_long { all } else { few };
    assert_eq!(ALL.len(), least(9, 22));
    let count = |shows: &dyn Fn(&Case) -> bool| ALL.iter().filter(|case| shows(case)).count();
    let pockets = |case: &Case| {
        case.nodes
            .iter()
            .filter(|node| node.pocket_ml.is_some())
            .count()
    };
    let is_screw = |branch: &&BranchCase| branch.quadratic_pa_s2_per_m6 > 0.0;
    assert!(count(&|case| pockets(case) == 2) >= least(2, 4));
    assert!(count(&|case| pockets(case) == 1) >= least(5, 8));
    let screws = |case: &Case| case.branches.iter().filter(is_screw).count();
    assert!(count(&|case| screws(case) == 2) >= least(3, 8));
    for nodes in 3..=8 {
        assert!(count(&|case| case.nodes.len() == nodes) >= least(1, 3));
    }
    let inner = |case: &Case| {
        case.branches
            .iter()
            .filter(|b| b.from >= 0 && b.to >= 0)
            .count()
    };
    assert!(
        count(&|case| inner(case) >= case.nodes.len()) >= least(1, 3),
        "loops"
    );
}
