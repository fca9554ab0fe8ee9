//! The flows of a network in which pressures and flows are of the order of one.
//!
//! The flows always balance; what is driven to zero is the pressure that is left over around each loop, where two
//! ends count as a loop as well. That is Newton's method for the least of a convex function of the flows, so that a
//! step which overshoots is seen by the slope at its end, and shortened.

use super::elimination::{Elimination, Room};
use super::error::FlowError;
use super::graph::Graph;
use super::law::Law;
use super::tree::Tree;

/// The last change of a flow against the largest flow. What is left after it is of second order, but at a quadratic
/// branch that comes to rest as much again: so two ways to one solution agree to 1e-12.
///
/// The change is asked for and not the pressure left over: that of a poor conductor can drive a flow through good
/// ones that is far larger than its own.
const TOLERANCE: f64 = 2.5e-13;
/// A Newton step for a purely quadratic branch that comes to rest halves its flow; forty of them are enough.
const MOST_ITERATIONS: u32 = 100;
const MOST_HALVINGS: u32 = 40;
/// The least flow against the largest at which a slope is taken: a quadratic law at rest has none.
const LEAST_SHARE: f64 = 1e-13;
/// How much better a chord may conduct than when the tree was grown; it costs that share of the digits to spare.
const MOST_GROWTH: f64 = 30.0;

pub(super) struct Solution {
    pub(super) flow: Vec<f64>,
    /// None where no root is reached.
    pub(super) potential: Vec<Option<f64>>,
    pub(super) iterations: u32,
}

/// Solves for the flows of all edges; `known` are the potentials of the roots.
pub(super) fn solve(
    graph: &Graph,
    laws: &[Law],
    known: &[Option<f64>],
) -> Result<Solution, FlowError> {
    let is_root: Vec<bool> = known.iter().map(Option::is_some).collect();
    let mut conductance: Vec<f64> = laws.iter().map(Law::flow_under_one).collect();
    let mut tree = Tree::grow(graph, &is_root, &conductance);
    let mut grown_with = conductance.clone();
    let mut elimination = None;
    let mut room = Room::default();

    let mut potential: Vec<Potential> = known.iter().map(|p| Potential::exact(*p)).collect();
    let mut left_over = vec![0.0; laws.len()];
    let mut flow = vec![0.0; laws.len()];
    let mut change = vec![0.0; laws.len()];
    let mut lift = vec![0.0; graph.nodes()];
    let mut node_sum = vec![0.0; graph.nodes()];

    let mut iterations = 0;
    let mut is_settled = false;
    loop {
        let largest = largest(&flow);
        if iterations > 0 {
            for (conductance, (law, flow)) in conductance.iter_mut().zip(laws.iter().zip(&flow)) {
                *conductance = 1.0 / law.slope(flow.abs().max(LEAST_SHARE * largest));
            }
            // A quadratic branch that comes to rest conducts ever better, and must not stay a chord: its flow would
            // be a huge conductance times the rounding of a potential.
            let mut chords = tree.chords.iter();
            if chords.any(|&chord| conductance[chord] > MOST_GROWTH * grown_with[chord]) {
                tree = Tree::grow(graph, &is_root, &conductance);
                grown_with.clone_from(&conductance);
            }
        }
        walk(&tree, laws, &flow, &mut potential);
        let mut worst = 0.0_f64;
        for &chord in &tree.chords {
            let (from, to) = graph.edges()[chord];
            let fall = potential[from].above(potential[to]);
            left_over[chord] = fall - laws[chord].drop(flow[chord]);
            worst = worst.max((conductance[chord] * left_over[chord]).abs());
            if left_over[chord].is_nan() {
                worst = f64::NAN;
                break;
            }
        }
        let is_done = is_settled || worst <= 0.0;
        if !worst.is_finite() || (iterations == MOST_ITERATIONS && !is_done) {
            return Err(FlowError::NotConverged {
                iterations,
                remaining: worst / largest,
            });
        }
        if is_done {
            break;
        }
        iterations += 1;

        node_sum.fill(0.0);
        for &chord in &tree.chords {
            let (from, to) = graph.edges()[chord];
            let fed = conductance[chord] * left_over[chord];
            node_sum[from] -= fed;
            node_sum[to] += fed;
        }
        elimination
            .get_or_insert_with(|| plan(graph, &tree, &is_root))
            .solve(&conductance, &mut node_sum, &mut lift, &mut room);
        for &chord in &tree.chords {
            let (from, to) = graph.edges()[chord];
            change[chord] = conductance[chord] * (lift[from] - lift[to] + left_over[chord]);
        }
        node_sum.fill(0.0);
        tree.balance(graph, &mut change, &mut node_sum);

        is_settled = self::largest(&change) <= TOLERANCE * largest;
        let share = if is_settled {
            1.0
        } else {
            step(laws, &tree.chords, &flow, &change, &left_over)
        };
        for &chord in &tree.chords {
            flow[chord] += share * change[chord];
        }
        node_sum.fill(0.0);
        tree.balance(graph, &mut flow, &mut node_sum);
    }
    let reached = potential.iter().zip(&tree.is_reached);
    let potential = reached
        .map(|(potential, is_reached)| is_reached.then_some(potential.high))
        .collect();
    Ok(Solution {
        flow,
        potential,
        iterations,
    })
}

fn plan(graph: &Graph, tree: &Tree, is_root: &[bool]) -> Elimination {
    let nodes = tree.is_reached.iter().zip(is_root);
    let is_unknown: Vec<bool> = nodes
        .map(|(is_reached, is_root)| *is_reached && !is_root)
        .collect();
    Elimination::plan(graph, &is_unknown)
}

fn largest(flow: &[f64]) -> f64 {
    flow.iter()
        .fold(0.0, |largest, flow| flow.abs().max(largest))
}

/// Gives every node of the tree its potential, from the roots on.
fn walk(tree: &Tree, laws: &[Law], flow: &[f64], potential: &mut [Potential]) {
    for twig in &tree.twigs {
        let drop = twig.sign * laws[twig.edge].drop(flow[twig.edge]);
        potential[twig.node] = potential[twig.parent].plus(-drop);
    }
}

/// The share of a change of the flows to be made: all of it, or so much that the function that is least at the
/// solution is no steeper at the end than it was at the start.
fn step(laws: &[Law], chords: &[usize], flow: &[f64], change: &[f64], left_over: &[f64]) -> f64 {
    let gain: f64 = chords.iter().map(|&c| change[c] * left_over[c]).sum();
    let mut share = 1.0;
    for _ in 0..MOST_HALVINGS {
        let branches = laws.iter().zip(flow.iter().zip(change));
        let rise: f64 = branches
            .map(|(law, (flow, change))| {
                change * (law.drop(flow + share * change) - law.drop(*flow))
            })
            .sum();
        if rise - gain <= 0.9 * gain {
            break;
        }
        share *= 0.5;
    }
    share
}

/// A potential to twice the digits of a double.
///
/// In a loop far behind a nearly closed screw all potentials are almost the same; the flow around it follows from
/// their last digits.
#[derive(Clone, Copy)]
struct Potential {
    high: f64,
    low: f64,
}

impl Potential {
    fn exact(known: Option<f64>) -> Self {
        Self {
            high: known.unwrap_or(0.0),
            low: 0.0,
        }
    }

    /// The sum with what rounding cuts off, [Knuth1997].
    fn plus(self, value: f64) -> Self {
        let high = self.high + value;
        let of_value = high - self.high;
        let cut = (self.high - (high - of_value)) + (value - of_value);
        Self {
            high,
            low: self.low + cut,
        }
    }

    /// How much higher this is than another.
    fn above(self, other: Self) -> f64 {
        let difference = self.plus(-other.high);
        difference.high + (difference.low - other.low)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A main resistance of one, and behind it a loop of resistances of 1e-8: its flow is in the last digits of
    /// the potentials. The loop is fed at one corner and drained at the opposite one, over 2 + 1 and 1.
    #[test]
    fn a_loop_behind_a_large_resistance_keeps_its_digits() {
        let graph = Graph::new(5, vec![(0, 1), (1, 2), (2, 3), (1, 3), (3, 4)]);
        let laws = [1.0, 2e-8, 1e-8, 1e-8, 1e-8].map(|linear| Law {
            linear,
            quadratic: 0.0,
        });
        let known = [Some(1.0), None, None, None, Some(0.0)];
        let solution = solve(&graph, &laws, &known).expect("the network is sound");
        let total = solution.flow[0];
        assert!((solution.flow[1] / total - 0.25).abs() < 1e-15);
        assert!((solution.flow[3] / total - 0.75).abs() < 1e-15);
    }

    /// Two equal branches of a purely quadratic bridge: the one across carries nothing, and its law has no slope
    /// there.
    #[test]
    fn a_quadratic_branch_comes_to_rest() {
        let graph = Graph::new(4, vec![(0, 1), (1, 3), (0, 2), (2, 3), (1, 2)]);
        let law = Law {
            linear: 0.0,
            quadratic: 1.0,
        };
        let known = [Some(1.0), None, None, Some(0.0)];
        let solution = solve(&graph, &[law; 5], &known).expect("the network is sound");
        assert!(solution.flow[4].abs() < 1e-12);
        assert!((solution.flow[0] - 0.5_f64.sqrt()).abs() < 1e-12);
    }
}
