//! Nodes, the edges between them, and which edges meet at a node.

pub(super) struct Graph {
    edges: Vec<(usize, usize)>,
    /// Where the edges of a node begin in `incident`; one more than there are nodes.
    first: Vec<usize>,
    incident: Vec<usize>,
}

impl Graph {
    pub(super) fn new(nodes: usize, edges: Vec<(usize, usize)>) -> Self {
        let mut first = vec![0; nodes + 1];
        for &(from, to) in &edges {
            first[from] += 1;
            first[to] += 1;
        }
        let mut end = 0;
        for count in &mut first {
            end += *count;
            *count = end;
        }
        // Filled from the back, so that every entry of `first` ends where its node begins.
        let mut incident = vec![0; end];
        for (edge, &(from, to)) in edges.iter().enumerate().rev() {
            for node in [to, from] {
                first[node] -= 1;
                incident[first[node]] = edge;
            }
        }
        Self {
            edges,
            first,
            incident,
        }
    }

    pub(super) fn nodes(&self) -> usize {
        self.first.len() - 1
    }

    pub(super) fn edges(&self) -> &[(usize, usize)] {
        &self.edges
    }

    /// The edges that meet at a node; one that begins and ends there comes twice.
    pub(super) fn at(&self, node: usize) -> &[usize] {
        &self.incident[self.first[node]..self.first[node + 1]]
    }

    /// The other end of an edge.
    pub(super) fn across(&self, edge: usize, node: usize) -> usize {
        let (from, to) = self.edges[edge];
        if node == from { to } else { from }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_edge_stands_at_both_of_its_ends() {
        let graph = Graph::new(4, vec![(0, 1), (1, 2), (2, 0), (1, 1)]);
        assert_eq!(graph.at(0), [0, 2]);
        assert_eq!(graph.at(1), [0, 1, 3, 3]);
        assert_eq!(graph.at(2), [1, 2]);
        assert!(graph.at(3).is_empty());
        assert_eq!(graph.across(2, 0), 2);
        assert_eq!(graph.across(3, 1), 1);
    }
}
