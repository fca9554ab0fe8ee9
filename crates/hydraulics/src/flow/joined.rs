//! Nodes that are joined without any resistance.

use super::elimination::{Elimination, Room};
use super::graph::Graph;
use super::tree::Tree;

/// Which nodes are one, because direct joints connect them.
pub(super) struct Clusters {
    /// For each node, the number of its cluster.
    pub(super) of: Vec<usize>,
    pub(super) count: usize,
}

impl Clusters {
    pub(super) fn new(nodes: usize, joints: impl Iterator<Item = (usize, usize)>) -> Self {
        let mut above: Vec<usize> = (0..nodes).collect();
        for (from, to) in joints {
            let (from, to) = (top(&mut above, from), top(&mut above, to));
            above[from.max(to)] = from.min(to);
        }
        let mut of = vec![0; nodes];
        let mut count = 0;
        for node in 0..nodes {
            let top = top(&mut above, node);
            // The top of a cluster is its first node, which has its number already.
            of[node] = if top == node { count } else { of[top] };
            count += usize::from(top == node);
        }
        Self { of, count }
    }
}

fn top(above: &mut [usize], mut node: usize) -> usize {
    while above[node] != node {
        above[node] = above[above[node]];
        node = above[node];
    }
    node
}

/// The flows of direct joints, once all others are known.
///
/// Where direct joints form no loop, the balance of every node settles them. Around a loop of them any flow would
/// do; the split is that of equal small resistances, which is the least sum of squares.
///
/// `drawn` is what each node gives off through all other branches.
pub(super) fn flows(
    graph: &Graph,
    clusters: &Clusters,
    is_end: &[bool],
    drawn: &[f64],
) -> Vec<f64> {
    let mut has_root = vec![false; clusters.count];
    for node in (0..graph.nodes()).filter(|&node| is_end[node]) {
        has_root[clusters.of[node]] = true;
    }
    let mut is_root = is_end.to_vec();
    for node in 0..graph.nodes() {
        let has_root = &mut has_root[clusters.of[node]];
        is_root[node] |= !*has_root;
        *has_root = true;
    }
    let conductance = vec![1.0; graph.edges().len()];
    let tree = Tree::grow(graph, &is_root, &conductance);
    let mut flow = vec![0.0; conductance.len()];
    if !tree.chords.is_empty() {
        let is_unknown: Vec<bool> = is_root.iter().map(|is_root| !is_root).collect();
        let mut fed: Vec<f64> = drawn.iter().map(|drawn| -drawn).collect();
        let mut potential = vec![0.0; graph.nodes()];
        Elimination::plan(graph, &is_unknown).solve(
            &conductance,
            &mut fed,
            &mut potential,
            &mut Room::default(),
        );
        for &chord in &tree.chords {
            let (from, to) = graph.edges()[chord];
            flow[chord] = potential[from] - potential[to];
        }
    }
    tree.balance(graph, &mut flow, &mut drawn.to_vec());
    flow
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One unit comes in at node 0 and leaves at node 2, over one joint or over two in a row.
    #[test]
    fn a_loop_of_direct_joints_splits_like_equal_resistances() {
        let edges = vec![(0, 1), (1, 2), (0, 2)];
        let clusters = Clusters::new(3, edges.iter().copied());
        assert_eq!(clusters.count, 1);
        let graph = Graph::new(3, edges);
        let flow = flows(&graph, &clusters, &[false; 3], &[-1.0, 0.0, 1.0]);
        for (found, expected) in flow.iter().zip([1.0 / 3.0, 1.0 / 3.0, 2.0 / 3.0]) {
            assert!((found - expected).abs() < 1e-15, "{flow:?}");
        }
    }

    #[test]
    fn clusters_are_numbered_by_their_first_node() {
        let clusters = Clusters::new(6, [(4, 1), (5, 2), (2, 4)].into_iter());
        assert_eq!(clusters.of, [0, 1, 1, 2, 1, 1]);
        assert_eq!(clusters.count, 3);
    }
}
