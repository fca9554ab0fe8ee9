//! What must hold for every network.

use crate::{air, pocket, press_hold_release, seconds, square_meters, tolerance};
use bleedwright_hydraulics::stroke::{BranchId, BranchLaw, NodeId, StrokeNetwork, Trace};
use proptest::prelude::*;
use uom::si::f64::Pressure;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// A tree of lines behind a cylinder, with a screw at its last node.
#[derive(Debug, Clone)]
struct Tree {
    /// Per node after the first: which earlier node it hangs on, the line's resistance, and what the node stores.
    lines: Vec<(usize, f64, f64)>,
    /// Which of those nodes has a pocket, its volume in millilitres and its index.
    pockets: Vec<(usize, f64, f64)>,
    has_inertance: bool,
    screw: BranchLaw,
}

struct Built {
    network: StrokeNetwork,
    nodes: Vec<NodeId>,
    lines: Vec<BranchId>,
    screw: BranchId,
}

/// The cylinder's piston.
const AREA_M2: f64 = 3e-4;
const PRESS_S: f64 = 0.5;
const HOLD_S: f64 = 0.3;

fn trees(most: usize, has_inertance: impl Strategy<Value = bool>) -> impl Strategy<Value = Tree> {
    let line = (0_usize..40, 9.0_f64..10.3, -15.0_f64..-12.5);
    let pocket = (0_usize..40, 0.05_f64..1.0, 1.0_f64..=1.4);
    (
        prop::collection::vec(line, 2..most),
        prop::collection::vec(pocket, 0..3),
        has_inertance,
        (8.5_f64..10.0, 0.0_f64..1e15),
    )
        .prop_map(
            |(lines, pockets, has_inertance, (linear, quadratic))| Tree {
                lines: lines
                    .into_iter()
                    .enumerate()
                    .map(|(nth, (on, resistance, size))| {
                        (on % (nth + 1), 10_f64.powf(resistance), 10_f64.powf(size))
                    })
                    .collect(),
                pockets,
                has_inertance,
                screw: BranchLaw {
                    linear_pa_s_per_m3: 10_f64.powf(linear),
                    quadratic_pa_s2_per_m6: quadratic,
                },
            },
        )
}

fn build(tree: &Tree, stroke_m: f64) -> Built {
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
        let inertance = tree.has_inertance.then_some(1e8);
        let line = network.add_branch(nodes[on], nodes[nth + 1], law, inertance);
        lines.push(line.expect("sound"));
    }
    let outlet = network.add_end(Pressure::default()).expect("sound");
    let last = *nodes.last().expect("the master is a node");
    let screw = network
        .add_branch(last, outlet, tree.screw, None)
        .expect("sound");
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

fn run(built: &Built, until_s: f64, relative: f64) -> Trace {
    let asked = [0.2, 0.5, 0.9]
        .into_iter()
        .filter(|&asked_s| asked_s < until_s)
        .map(seconds)
        .collect::<Vec<_>>();
    built
        .network
        .run(
            &built.network.rest(),
            seconds(until_s),
            &asked,
            &tolerance(relative),
        )
        .expect("the run ends")
}

fn out_ml(trace: &Trace, branch: BranchId) -> f64 {
    let out = trace.end().delivered(branch).expect("known");
    out.get::<milliliter>()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_volume_balance_closes(tree in trees(12, any::<bool>()), stroke_m in 1e-3_f64..0.02) {
        let built = build(&tree, stroke_m);
        let trace = run(&built, 1.5, 1e-4);
        prop_assert!(trace.relative_balance_residual().get::<ratio>() < 1e-9);
        // Once more by hand, over the whole network: pushed in, stored, let out.
        let sample = trace.samples()[2].clone();
        let pushed_ml = AREA_M2 * stroke_m * 1e6;
        let mut found_ml = sample.delivered(built.screw).expect("known").get::<milliliter>();
        for (nth, &node) in built.nodes.iter().enumerate() {
            let size = if nth == 0 { 1e-14 } else { tree.lines[nth - 1].2 };
            found_ml += size * sample.gauge(node).expect("known").value * 1e6;
            if let Some(gas) = sample.pocket(node).expect("known") {
                let whole = tree.pockets.iter().find(|(at, _, _)| at % tree.lines.len() + 1 == nth);
                found_ml += whole.expect("the tree has it").1 - gas.get::<milliliter>();
            }
        }
        prop_assert!((found_ml - pushed_ml).abs() < 1e-9 * pushed_ml, "{found_ml} {pushed_ml}");
    }

    /// The screw is shut all the time, the pedal goes down and comes back, and then everything rests.
    #[test]
    fn a_pocket_behind_a_shut_screw_returns(tree in trees(6, Just(false)), stroke_m in 1e-3_f64..5e-3) {
        let mut built = build(&tree, stroke_m);
        built.network.shut_at(built.screw, seconds(0.0)).expect("known");
        let trace = run(&built, 20.0, 1e-6);
        prop_assert!(out_ml(&trace, built.screw).abs() < f64::EPSILON);
        for (nth, &node) in built.nodes.iter().enumerate() {
            if let Some(gas) = trace.end().pocket(node).expect("known") {
                let whole = tree.pockets.iter().find(|(at, _, _)| at % tree.lines.len() + 1 == nth);
                let whole_ml = whole.expect("the tree has it").1;
                prop_assert!((gas.get::<milliliter>() - whole_ml).abs() < 1e-5);
            }
        }
    }

    /// The only screw open until the end of the hold: more stroke never delivers less.
    #[test]
    fn more_stroke_never_delivers_less(
        tree in trees(8, Just(false)),
        stroke_m in 1e-3_f64..0.02,
        more in 0.0_f64..0.5,
    ) {
        let less = build(&tree, stroke_m);
        let more = build(&tree, stroke_m * (1.0 + more));
        let until_s = PRESS_S + HOLD_S;
        let (less_ml, more_ml) = (
            out_ml(&run(&less, until_s, 1e-7), less.screw),
            out_ml(&run(&more, until_s, 1e-7), more.screw),
        );
        prop_assert!(more_ml >= less_ml - 1e-6, "{less_ml} ml, {more_ml} ml");
        prop_assert!(less_ml <= AREA_M2 * stroke_m * 1e6 + 1e-6);
    }

    /// One line is shut all the time.
    #[test]
    fn a_shut_branch_delivers_nothing(tree in trees(10, any::<bool>()), shut in 0_usize..10, stroke_m in 1e-3_f64..5e-3) {
        let mut built = build(&tree, stroke_m);
        let line = built.lines[shut % built.lines.len()];
        built.network.shut_at(line, seconds(0.0)).expect("known");
        let trace = run(&built, 1.0, 1e-5);
        for sample in trace.samples() {
            prop_assert!(sample.delivered(line).expect("known").value.abs() <= 0.0);
            prop_assert!(sample.flow(line).expect("known").value.abs() <= 0.0);
        }
    }

    /// A coarse run stays close to a fine one.
    #[test]
    fn the_tolerance_is_a_knob(tree in trees(8, Just(false)), stroke_m in 1e-3_f64..0.02) {
        let built = build(&tree, stroke_m);
        let fine = out_ml(&run(&built, 1.5, 1e-9), built.screw);
        for relative in [1e-3, 1e-5, 1e-7] {
            let found = out_ml(&run(&built, 1.5, relative), built.screw);
            // The tolerance is that of one step, and a run takes some hundred.
            prop_assert!((found - fine).abs() < 100.0 * relative * (1.0 + AREA_M2 * stroke_m * 1e6));
        }
    }
}
