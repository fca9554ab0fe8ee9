//! What every way to a cell passes, where a circuit has loops.

use super::CircuitId;
use super::Network;
use crate::graph::{CellId, Cells, LinkId};
use crate::tree::Forest;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

impl Network {
    /// The cell that every way from the chamber to a cell passes last before
    /// it, its immediate dominator, by the cell's number; none for chambers.
    pub fn immediate_dominators(&self) -> Vec<Option<CellId>> {
        let mut dominators: Vec<Option<CellId>> = self
            .forest
            .step
            .iter()
            .map(|step| step.map(|step| step.parent))
            .collect();
        for circuit in self.loops.keys() {
            let root = NodeIndex::new(self.circuit(*circuit).chamber.index());
            let found = petgraph::algo::dominators::simple_fast(&self.cells.graph, root);
            for cell in self.cells_of(*circuit) {
                dominators[cell.index()] = found
                    .immediate_dominator(NodeIndex::new(cell.index()))
                    .map(|node| CellId(node.index() as u32));
            }
        }
        dominators
    }

    /// Whether there is a second way to some part of a circuit.
    pub fn has_loops(&self, circuit: CircuitId) -> bool {
        self.loops.contains_key(&circuit)
    }

    /// Every link that is part of a loop of a circuit, in the order of their
    /// numbers.
    pub fn loop_links(&self, circuit: CircuitId) -> &[LinkId] {
        self.loops.get(&circuit).map_or(&[], Vec::as_slice)
    }
}

pub(super) fn loops_of(forest: &Forest, cells: &Cells) -> BTreeMap<CircuitId, Vec<LinkId>> {
    let mut loops: BTreeMap<CircuitId, Vec<LinkId>> = BTreeMap::new();
    for closing in &forest.closing {
        let ends = cells.ends(*closing);
        if let Some(circuit) = forest.circuit[ends[0].index()] {
            let links = loops.entry(CircuitId(circuit)).or_default();
            links.extend(forest.loop_of(*closing, ends));
        }
    }
    for links in loops.values_mut() {
        links.sort_unstable();
        links.dedup();
    }
    loops
}
