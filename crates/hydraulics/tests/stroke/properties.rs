//! What must hold for every network.

use crate::{air, pocket, press_hold_release, square_meters};
use bleedwright_hydraulics::stroke::{BranchId, BranchLaw, NodeId, StrokeNetwork, StrokeState};
use proptest::prelude::*;
use uom::si::f64::Pressure;
use uom::si::volume::milliliter;

/// A tree of lines behind a cylinder, with a screw at its last node.
#[derive(Debug, Clone)]
struct Tree {
    /// Per node after the first: which earlier node it hangs on, the line's resistance, and what the node stores.
    lines: Vec<(usize, f64, f64)>,
    /// Which of those nodes has a pocket, its volume in millilitres and its index.
    pockets: Vec<(usize, f64, f64)>,
    screw: BranchLaw,
}

struct Built {
    network: StrokeNetwork,
    nodes: Vec<NodeId>,
    lines: Vec<BranchId>,
    /// None where it is shut all the time.
    screw: Option<BranchId>,
}

/// The cylinder's piston.
const AREA_M2: f64 = 3e-4;
const PRESS_S: f64 = 0.5;
const HOLD_S: f64 = 0.3;

fn trees(most: usize) -> impl Strategy<Value = Tree> {
    let line = (0_usize..40, 9.0_f64..10.3, -15.0_f64..-12.5);
    let pocket = (0_usize..40, 0.05_f64..1.0, 1.0_f64..=1.4);
    (
        prop::collection::vec(line, 2..most),
        prop::collection::vec(pocket, 0..3),
        (8.5_f64..10.0, 0.0_f64..1e15),
    )
        .prop_map(|(lines, pockets, (linear, quadratic))| Tree {
            lines: lines
                .into_iter()
                .enumerate()
                .map(|(nth, (on, resistance, size))| {
                    (on % (nth + 1), 10_f64.powf(resistance), 10_f64.powf(size))
                })
                .collect(),
            pockets,
            screw: BranchLaw {
                linear_pa_s_per_m3: 10_f64.powf(linear),
                quadratic_pa_s2_per_m6: quadratic,
            },
        })
}

fn build(tree: &Tree, stroke_m: f64, is_open: bool) -> Built {
    let mut network = air();
    let master = network.add_node(1e-14, None).expect("sound");
    let mut nodes = vec![master];
    let mut lines = Vec::new();
    for (nth, &(on, resistance, size)) in tree.lines.iter().enumerate() {
        let gas = tree
            .pockets
            .iter()
            .find(|(at, _, _)| at % tree.lines.len() == nth)
            .map(|&(_, volume_ml, index)| pocket(volume_ml, index));
        nodes.push(network.add_node(size, gas).expect("sound"));
        let law = BranchLaw {
            linear_pa_s_per_m3: resistance,
            quadratic_pa_s2_per_m6: 0.0,
        };
        let line = network.add_branch(nodes[on], nodes[nth + 1], law);
        lines.push(line.expect("sound"));
    }
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let last = *nodes.last().expect("the master is a node");
    let screw = is_open.then(|| network.add_branch(last, outlet, tree.screw).expect("sound"));
    let motion = press_hold_release(stroke_m, PRESS_S, HOLD_S, 0.5);
    network
        .add_piston(master, square_meters(AREA_M2), motion)
        .expect("sound");
    Built {
        network,
        nodes,
        lines,
        screw,
    }
}

fn run(built: &Built, until_s: f64, relative: f64) -> StrokeState {
    crate::run(&built.network, until_s, relative)
}

fn delivered_ml(state: &StrokeState, branch: BranchId) -> f64 {
    state.delivered(branch).expect("known").get::<milliliter>()
}

/// What has left by the open screw.
fn out_ml(built: &Built, state: &StrokeState) -> f64 {
    delivered_ml(state, built.screw.expect("it is open"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Node by node: what came in and went out, against what its pressure and its pocket hold.
    #[test]
    fn the_volume_balance_closes(tree in trees(12), stroke_m in 1e-3_f64..0.02) {
        let built = build(&tree, stroke_m, true);
        // At this time the pedal is down.
        let state = run(&built, PRESS_S, 1e-4);
        let pushed_ml = AREA_M2 * stroke_m * 1e6;
        let mut came_ml = vec![0.0; built.nodes.len()];
        came_ml[0] = pushed_ml;
        for (nth, &line) in built.lines.iter().enumerate() {
            let through_ml = delivered_ml(&state, line);
            came_ml[tree.lines[nth].0] -= through_ml;
            came_ml[nth + 1] += through_ml;
        }
        came_ml[built.lines.len()] -= delivered_ml(&state, built.screw.expect("it is open"));
        for (nth, &node) in built.nodes.iter().enumerate() {
            let size = if nth == 0 { 1e-14 } else { tree.lines[nth - 1].2 };
            let mut held_ml = size * state.gauge(node).expect("known").value * 1e6;
            if let Some(gas) = state.pocket(node).expect("known") {
                let whole = tree.pockets.iter().find(|(at, _, _)| at % tree.lines.len() + 1 == nth);
                held_ml += whole.expect("the tree has it").1 - gas.get::<milliliter>();
            }
            let missing_ml = held_ml - came_ml[nth];
            prop_assert!(missing_ml.abs() < 1e-9 * pushed_ml, "node {nth}: {missing_ml} of {pushed_ml}");
        }
    }

    /// The screw is shut all the time, the pedal goes down and comes back, and then everything rests.
    #[test]
    fn a_pocket_behind_a_shut_screw_returns(tree in trees(6), stroke_m in 1e-3_f64..5e-3) {
        let built = build(&tree, stroke_m, false);
        let state = run(&built, 20.0, 1e-6);
        for (nth, &node) in built.nodes.iter().enumerate() {
            if let Some(gas) = state.pocket(node).expect("known") {
                let whole = tree.pockets.iter().find(|(at, _, _)| at % tree.lines.len() + 1 == nth);
                let whole_ml = whole.expect("the tree has it").1;
                prop_assert!((gas.get::<milliliter>() - whole_ml).abs() < 1e-5);
            }
        }
    }

    /// The only screw open until the end of the hold: more stroke never delivers less.
    #[test]
    fn more_stroke_never_delivers_less(
        tree in trees(8),
        stroke_m in 1e-3_f64..0.02,
        more in 0.0_f64..0.5,
    ) {
        let less = build(&tree, stroke_m, true);
        let more = build(&tree, stroke_m * (1.0 + more), true);
        let until_s = PRESS_S + HOLD_S;
        let (less_ml, more_ml) = (
            out_ml(&less, &run(&less, until_s, 1e-7)),
            out_ml(&more, &run(&more, until_s, 1e-7)),
        );
        prop_assert!(more_ml >= less_ml - 1e-6, "{less_ml} ml, {more_ml} ml");
        prop_assert!(less_ml <= AREA_M2 * stroke_m * 1e6 + 1e-6);
    }

    /// A coarse run stays close to a fine one.
    #[test]
    fn the_tolerance_is_a_knob(tree in trees(8), stroke_m in 1e-3_f64..0.02) {
        let built = build(&tree, stroke_m, true);
        let fine = out_ml(&built, &run(&built, 1.5, 1e-9));
        for relative in [1e-3, 1e-5, 1e-7] {
            let found = out_ml(&built, &run(&built, 1.5, relative));
            // The tolerance is that of one step, and a run takes some hundred.
            prop_assert!((found - fine).abs() < 100.0 * relative * (1.0 + AREA_M2 * stroke_m * 1e6));
        }
    }
}
