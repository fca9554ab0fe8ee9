//! The shortest ways from a chamber to everything it reaches.

use crate::graph::{CellId, Cells, LinkId, LinkKind};
use crate::layout::Layout;
use petgraph::algo::is_cyclic_undirected;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// How a cell is reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Step {
    pub(crate) parent: CellId,
    pub(crate) link: LinkId,
}

/// The circuit of each cell, and the shortest way to it.
#[derive(Clone, Debug)]
pub(crate) struct Forest {
    /// The circuit that reaches each cell.
    pub(crate) circuit: Vec<Option<u32>>,
    /// The step from the cell before; none for chambers and unreached cells.
    pub(crate) step: Vec<Option<Step>>,
    /// Number of links between the chamber and the cell.
    pub(crate) depth: Vec<u32>,
    /// Cells of each circuit in the order they were reached: parents first.
    pub(crate) order: Vec<Vec<CellId>>,
    /// Links that are not part of any shortest way.
    pub(crate) closing: Vec<LinkId>,
    /// Links between two circuits.
    pub(crate) joining: Vec<LinkId>,
}

/// Distances are compared as whole micrometres: exact, and with an order.
fn micrometres(length: uom::si::f64::Length) -> u64 {
    (length.value * 1e6).round().max(0.0) as u64
}

/// The place of each link among all by name, for ties between ways of equal
/// length; by number where there is no loop and so no second way.
fn ranks(cells: &Cells, layout: &Layout) -> Vec<u32> {
    let mut ranks: Vec<u32> = (0..cells.graph.edge_count() as u32).collect();
    if is_cyclic_undirected(&cells.graph) {
        let mut by_name = ranks.clone();
        by_name.sort_by_key(|link| match cells.link(LinkId(*link)).kind {
            LinkKind::Line(index) => (layout.lines[index].id.as_str(), *link),
            LinkKind::Crossover(part) => (layout.parts[part].id.as_str(), *link),
        });
        for (rank, link) in (0..).zip(by_name) {
            ranks[link as usize] = rank;
        }
    }
    ranks
}

/// Grows the shortest ways from every chamber at once (Dijkstra 1959, with
/// several sources), so that each cell belongs to the nearest chamber and a
/// link between two circuits shows itself.
pub(crate) fn grow(cells: &Cells, chambers: &[CellId], layout: &Layout) -> Forest {
    let count = cells.graph.node_count();
    let mut forest = Forest {
        circuit: vec![None; count],
        step: vec![None; count],
        depth: vec![0; count],
        order: vec![Vec::new(); chambers.len()],
        closing: Vec::new(),
        joining: Vec::new(),
    };
    let ranks = ranks(cells, layout);
    // Waiting: distance, depth, cell, circuit, rank of the link, and the step
    // to it. The order of the tuple breaks ties the same way every time.
    let mut waiting = BinaryHeap::new();
    for (circuit, chamber) in chambers.iter().enumerate() {
        waiting.push(Reverse((
            0_u64,
            0_u32,
            chamber.0,
            circuit as u32,
            0,
            u32::MAX,
            u32::MAX,
        )));
    }
    while let Some(Reverse((distance, depth, cell, circuit, _, parent, link))) = waiting.pop() {
        let index = cell as usize;
        if forest.circuit[index].is_some() {
            continue;
        }
        forest.circuit[index] = Some(circuit);
        forest.depth[index] = depth;
        if link != u32::MAX {
            forest.step[index] = Some(Step {
                parent: CellId(parent),
                link: LinkId(link),
            });
        }
        forest.order[circuit as usize].push(CellId(cell));
        for edge in cells.graph.edges(NodeIndex::new(index)) {
            let to = edge.target().index() as u32;
            if forest.circuit[to as usize].is_none() {
                let further = distance + micrometres(edge.weight().length.nominal);
                waiting.push(Reverse((
                    further,
                    depth + 1,
                    to,
                    circuit,
                    ranks[edge.id().index()],
                    cell,
                    edge.id().index() as u32,
                )));
            }
        }
    }
    let mut in_tree = vec![false; cells.graph.edge_count()];
    for step in forest.step.iter().flatten() {
        in_tree[step.link.0 as usize] = true;
    }
    for edge in cells.graph.edge_references() {
        let circuit_of = |node: NodeIndex<u32>| forest.circuit[node.index()];
        let id = LinkId(edge.id().index() as u32);
        let (Some(a), Some(b)) = (circuit_of(edge.source()), circuit_of(edge.target())) else {
            continue;
        };
        if a != b {
            forest.joining.push(id);
        } else if !in_tree[edge.id().index()] {
            forest.closing.push(id);
        }
    }
    forest
}

impl Forest {
    /// The steps from the chamber to a cell, in that order.
    pub(crate) fn way_to(&self, cell: CellId) -> Vec<Step> {
        let mut steps = Vec::new();
        let mut here = cell;
        while let Some(step) = self.step[here.0 as usize] {
            steps.push(step);
            here = step.parent;
        }
        steps.reverse();
        steps
    }

    /// The links of the loop that a closing link completes.
    pub(crate) fn loop_of(&self, closing: LinkId, ends: [CellId; 2]) -> Vec<LinkId> {
        let [mut a, mut b] = ends;
        let (mut left, mut right) = (Vec::new(), Vec::new());
        while a != b {
            if self.depth[a.0 as usize] >= self.depth[b.0 as usize] {
                let Some(step) = self.step[a.0 as usize] else {
                    break;
                };
                left.push(step.link);
                a = step.parent;
            } else {
                let Some(step) = self.step[b.0 as usize] else {
                    break;
                };
                right.push(step.link);
                b = step.parent;
            }
        }
        left.push(closing);
        left.extend(right.into_iter().rev());
        left
    }
}

#[cfg(test)]
mod tests {
    use crate::load;

    /// Of two ways of equal length the one whose line comes first by name is
    /// taken, wherever the file has it.
    #[test]
    fn equal_ways_are_told_apart_by_name() {
        let line = |id: &str| {
            format!(
                "(id: \"{id}\", from: \"cylinder\", to: \"brake\", \
                 kind: pipe(bore: \"3 mm\", length: \"1 m\")),"
            )
        };
        let (upper, lower) = (line("a"), line("b"));
        for lines in [[&upper, &lower], [&lower, &upper]] {
            let text = format!(
                "(format: 1, name: \"two ways\", fluid: dot4,
                reservoirs: [(id: \"pot\", compartments: [(id: \"pot\", max: \"200 ml\", \
                    feeds: \"cylinder\")])],
                cylinders: [(id: \"cylinder\", kind: single(bore: \"22 mm\", stroke: \"30 mm\"))],
                parts: [(id: \"brake\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: trailer_left, \
                    screws: [(id: \"screw\")])],
                lines: [{} {}])",
                lines[0], lines[1]
            );
            let loaded = load(text.as_bytes());
            let network = loaded.sound_network().expect("a loop is only warned of");
            let (screw, _) = network.screws().next().expect("there is one");
            let run = network.run(screw);
            assert_eq!(network.element_name(run[0]), "a");
        }
    }
}
