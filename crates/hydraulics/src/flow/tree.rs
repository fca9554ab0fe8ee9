//! A spanning tree: the flows of all other edges, the chords, settle the flows in it.

use super::graph::Graph;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// The edge that joins a node to the tree.
#[derive(Clone, Copy)]
pub(super) struct Twig {
    pub(super) node: usize,
    pub(super) parent: usize,
    pub(super) edge: usize,
    /// 1 where the edge points away from the root, else -1.
    pub(super) sign: f64,
}

pub(super) struct Tree {
    /// Parents come before their children.
    pub(super) twigs: Vec<Twig>,
    pub(super) chords: Vec<usize>,
    pub(super) is_reached: Vec<bool>,
}

impl Tree {
    /// Grows from the roots along the edges that conduct best, by Prim's algorithm.
    ///
    /// So every chord is the worst conductor of the loop that it closes. Flow in a good conductor is the quotient
    /// of two small differences; here it comes from the balance of its joint instead.
    pub(super) fn grow(graph: &Graph, is_root: &[bool], conductance: &[f64]) -> Self {
        let mut is_reached = is_root.to_vec();
        let mut is_twig = vec![false; graph.edges().len()];
        let mut twigs = Vec::with_capacity(graph.nodes());
        let mut offers = BinaryHeap::with_capacity(graph.edges().len());
        for root in (0..graph.nodes()).filter(|&node| is_root[node]) {
            offer(graph, root, conductance, &is_reached, &mut offers);
        }
        while let Some((_, Reverse(edge), parent)) = offers.pop() {
            let node = graph.across(edge, parent);
            if is_reached[node] {
                continue;
            }
            is_reached[node] = true;
            is_twig[edge] = true;
            let sign = if graph.edges()[edge].0 == parent {
                1.0
            } else {
                -1.0
            };
            twigs.push(Twig {
                node,
                parent,
                edge,
                sign,
            });
            offer(graph, node, conductance, &is_reached, &mut offers);
        }
        let chords = graph.edges().iter().enumerate();
        let chords = chords
            .filter(|&(edge, &(from, to))| from != to && is_reached[from] && !is_twig[edge])
            .map(|(edge, _)| edge)
            .collect();
        Self {
            twigs,
            chords,
            is_reached,
        }
    }

    /// Gives the edges of the tree the flows with which every node balances.
    ///
    /// `drawn` holds what each node gives off besides, and what it needs through its twig afterwards.
    pub(super) fn balance(&self, graph: &Graph, flow: &mut [f64], drawn: &mut [f64]) {
        for &chord in &self.chords {
            let (from, to) = graph.edges()[chord];
            drawn[from] += flow[chord];
            drawn[to] -= flow[chord];
        }
        for twig in self.twigs.iter().rev() {
            flow[twig.edge] = twig.sign * drawn[twig.node];
            drawn[twig.parent] += drawn[twig.node];
        }
    }
}

/// Conductances are above zero, and such numbers are in the order of their bits.
type Offer = (u64, Reverse<usize>, usize);

fn offer(
    graph: &Graph,
    node: usize,
    conductance: &[f64],
    is_reached: &[bool],
    offers: &mut BinaryHeap<Offer>,
) {
    for &edge in graph.at(node) {
        if !is_reached[graph.across(edge, node)] {
            offers.push((conductance[edge].to_bits(), Reverse(edge), node));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A triangle on a root with a tail, and an island.
    #[test]
    fn the_worst_conductor_of_a_loop_is_its_chord() {
        let edges = vec![(0, 1), (1, 2), (2, 0), (2, 3), (4, 5)];
        let graph = Graph::new(6, edges);
        let is_root = [true, false, false, false, false, false];
        let tree = Tree::grow(&graph, &is_root, &[3.0, 1.0, 2.0, 0.1, 9.0]);
        assert_eq!(tree.chords, [1]);
        assert_eq!(tree.is_reached, [true, true, true, true, false, false]);

        let mut flow = [0.0, 0.25, 0.0, 0.0, 0.0];
        let mut drawn = [0.0, 0.0, 0.0, 2.0, 0.0, 0.0];
        tree.balance(&graph, &mut flow, &mut drawn);
        for (found, expected) in flow.iter().zip([0.25_f64, 0.25, -1.75, 2.0, 0.0]) {
            assert!((found - expected).abs() <= 0.0, "{flow:?}");
        }
    }
}
