//! What must hold for every network.

use super::{
    BranchId, BranchLaw, DENSITY_KG_PER_M3, FlowNetwork, Flows, NodeId, end, gauge_pa, joint,
    ml_per_s, solve,
};
use proptest::prelude::*;

/// A branch drawn: its nodes, and the exponents of its coefficients.
#[derive(Debug, Clone, Copy)]
struct Drawn {
    from: usize,
    to: usize,
    law: BranchLaw,
}

/// Ends come first among the nodes.
#[derive(Debug, Clone)]
struct Plan {
    /// Height in metres and gauge pressure in pascals.
    ends: Vec<(f64, f64)>,
    joints_m: Vec<f64>,
    branches: Vec<Drawn>,
}

struct Built {
    network: FlowNetwork,
    nodes: Vec<NodeId>,
    branches: Vec<BranchId>,
}

impl Plan {
    fn build(&self) -> Built {
        let mut network = FlowNetwork::new();
        let mut nodes = Vec::new();
        for (height_m, gauge_pa) in &self.ends {
            nodes.push(end(&mut network, *height_m, *gauge_pa));
        }
        for height_m in &self.joints_m {
            nodes.push(joint(&mut network, *height_m));
        }
        let branches = self.branches.iter();
        let branches = branches.map(|b| network.add_branch(nodes[b.from], nodes[b.to], b.law));
        let branches = branches.collect();
        Built {
            network,
            nodes,
            branches,
        }
    }

    /// Flows in ml/s, one for each branch.
    fn flows(&self) -> Vec<f64> {
        let built = self.build();
        all_ml_per_s(&solve(&built.network), &built.branches)
    }

    /// What leaves through the end at `place`.
    fn out_of(&self, place: usize) -> f64 {
        let branches = self.branches.iter().zip(self.flows());
        branches
            .map(|(b, flow)| {
                flow * (f64::from(u8::from(b.to == place)) - f64::from(u8::from(b.from == place)))
            })
            .sum()
    }
}

fn all_ml_per_s(flows: &Flows, branches: &[BranchId]) -> Vec<f64> {
    branches.iter().map(|b| ml_per_s(flows, *b)).collect()
}

fn largest(flows: &[f64]) -> f64 {
    flows
        .iter()
        .fold(0.0, |largest, flow| flow.abs().max(largest))
}

/// From an open hose to a screw just cracked, purely linear, purely quadratic and mixed.
fn resisting() -> impl Strategy<Value = BranchLaw> {
    let linear = (8.0_f64..13.0).prop_map(|exponent| 10.0_f64.powf(exponent));
    let quadratic = (13.0_f64..20.0).prop_map(|exponent| 10.0_f64.powf(exponent));
    prop_oneof![
        4 => (linear.clone(), Just(0.0)),
        1 => (Just(0.0), quadratic.clone()),
        4 => (linear, quadratic),
    ]
    .prop_map(|(linear_pa_s_per_m3, quadratic_pa_s2_per_m6)| BranchLaw {
        linear_pa_s_per_m3,
        quadratic_pa_s2_per_m6,
    })
}

fn any_law() -> impl Strategy<Value = BranchLaw> {
    prop_oneof![
        8 => resisting(),
        1 => Just(BranchLaw::closed()),
        1 => Just(BranchLaw::direct()),
    ]
}

/// A network of any shape; direct joints are kept away from ends, which they could short.
fn plans(ends: std::ops::Range<usize>) -> impl Strategy<Value = Plan> {
    let ends = prop::collection::vec((-1.0_f64..2.0, -8e4_f64..2e5), ends);
    let joints = prop::collection::vec(-1.0_f64..2.0, 1..12);
    (ends, joints).prop_flat_map(|(ends, joints_m)| {
        let count = ends.len();
        let node = 0..count + joints_m.len();
        let branches = (node.clone(), node, any_law(), resisting());
        let branches = branches.prop_map(move |(from, to, law, instead)| {
            let is_short = law == BranchLaw::direct() && from.min(to) < count;
            let law = if is_short { instead } else { law };
            Drawn { from, to, law }
        });
        let branches = prop::collection::vec(branches, 1..30);
        branches.prop_map(move |branches| Plan {
            ends: ends.clone(),
            joints_m: joints_m.clone(),
            branches,
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn flows_balance_at_every_joint(plan in plans(1..5)) {
        let flows = plan.flows();
        for place in plan.ends.len()..plan.ends.len() + plan.joints_m.len() {
            let sum = plan.out_of(place);
            prop_assert!(sum.abs() <= 1e-14 * largest(&flows), "{sum} at {place}");
        }
    }

    /// The equations themselves, from what is reported. The largest terms are some 3e5 Pa.
    #[test]
    fn every_branch_takes_the_pressure_of_its_law(plan in plans(1..5)) {
        let built = plan.build();
        let flows = solve(&built.network);
        let all = all_ml_per_s(&flows, &built.branches);
        let heights: Vec<f64> = plan.ends.iter().map(|end| end.0).chain(plan.joints_m.clone()).collect();
        let potential_pa = |node: usize| {
            let weight_pa = DENSITY_KG_PER_M3 * 9.80665 * heights[node];
            gauge_pa(&flows, built.nodes[node]).map(|gauge_pa| gauge_pa + weight_pa)
        };
        for (branch, flow) in plan.branches.iter().zip(&all) {
            if branch.law.is_closed() {
                continue;
            }
            let (from, to) = (potential_pa(branch.from), potential_pa(branch.to));
            prop_assert_eq!(from.is_some(), to.is_some());
            let (Some(from), Some(to)) = (from, to) else {
                prop_assert!(flow.abs() <= 0.0);
                continue;
            };
            let flow = flow * 1e-6;
            let quadratic = branch.law.quadratic_pa_s2_per_m6 * flow.abs();
            let drop = (branch.law.linear_pa_s_per_m3 + quadratic) * flow;
            // What the tolerance of 1e-12 of the largest flow is worth in this branch.
            let slope = branch.law.linear_pa_s_per_m3 + 2.0 * quadratic;
            let tolerance_pa = 1e-9 + 1e-12 * largest(&all) * 1e-6 * slope;
            prop_assert!((from - to - drop).abs() <= tolerance_pa, "{} for {drop}", from - to);
        }
    }

    #[test]
    fn mirrored_pressures_and_heights_turn_every_flow(plan in plans(1..5)) {
        let mut mirrored = plan.clone();
        for (height_m, gauge_pa) in &mut mirrored.ends {
            (*height_m, *gauge_pa) = (-*height_m, -*gauge_pa);
        }
        let flows = plan.flows();
        for (flow, turned) in flows.iter().zip(mirrored.flows()) {
            prop_assert!((flow + turned).abs() <= 1e-12 * largest(&flows), "{flow} {turned}");
        }
    }

    /// The only open screw is the end that comes last; all others supply.
    #[test]
    fn more_pressure_never_gives_less(
        plan in plans(2..5), supply in 0_usize..3, more_pa in 0.0_f64..2e5,
    ) {
        let screw = plan.ends.len() - 1;
        let mut pressed = plan.clone();
        pressed.ends[supply % screw].1 += more_pa;
        let (before, after) = (plan.out_of(screw), pressed.out_of(screw));
        let rounding = 1e-12 * largest(&plan.flows()).max(largest(&pressed.flows()));
        prop_assert!(after >= before - rounding, "{before} -> {after}");
    }

    /// One supply, one open end.
    #[test]
    fn thicker_fluid_never_flows_faster(plan in plans(2..3), factor in 1.0_f64..100.0) {
        let mut thicker = plan.clone();
        for branch in &mut thicker.branches {
            branch.law.linear_pa_s_per_m3 *= factor;
        }
        let (before, after) = (plan.out_of(1).abs(), thicker.out_of(1).abs());
        prop_assert!(after <= before * (1.0 + 1e-12), "{before} -> {after}");
    }

    /// And the others flow as if it were not there.
    #[test]
    fn a_closed_branch_passes_nothing(plan in plans(1..5), shut in 0_usize..30) {
        let mut plan = plan;
        let shut = shut % plan.branches.len();
        plan.branches[shut].law = BranchLaw::closed();
        let mut flows = plan.flows();
        prop_assert!(flows.remove(shut).abs() <= 0.0);
        plan.branches.remove(shut);
        for (flow, without) in flows.iter().zip(plan.flows()) {
            prop_assert!((flow - without).abs() <= 1e-12 * largest(&flows));
        }
    }

    #[test]
    fn the_order_of_branches_does_not_matter(
        (plan, order) in plans(1..5).prop_flat_map(|plan| {
            let order: Vec<usize> = (0..plan.branches.len()).collect();
            (Just(plan), Just(order).prop_shuffle())
        })
    ) {
        let mut shuffled = plan.clone();
        shuffled.branches = order.iter().map(|&nth| plan.branches[nth]).collect();
        let flows = plan.flows();
        for (nth, flow) in order.iter().zip(shuffled.flows()) {
            let difference = (flows[*nth] - flow).abs();
            prop_assert!(difference <= 1e-12 * largest(&flows), "{} {flow}", flows[*nth]);
        }
    }
}
