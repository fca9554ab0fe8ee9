//! Solves for the potentials of a network of conductors, by replacing one node after the other with conductors
//! between its neighbours.
//!
//! That is Cholesky's elimination of the symmetric positive definite matrix, written with conductances: the
//! star-mesh transformation [Rosen1924]. Nothing is subtracted from a conductance, so none loses digits, however
//! far apart they are [Grassmann1985]. Nodes with the fewest neighbours go first [Tinney1967]: a tree is taken apart
//! from its leaves without any new conductor, and in as many steps as it has nodes.

use super::graph::Graph;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Where the conductance of an edge is added.
#[derive(Clone, Copy)]
enum Place {
    /// Between two unknown nodes.
    Slot(usize),
    /// From an unknown node to a known one.
    Known(usize),
    /// Between known nodes, or where no root is reached: no part of the system.
    Nowhere,
}

#[derive(Clone, Copy)]
struct Link {
    node: usize,
    slot: usize,
}

struct Step {
    node: usize,
    /// The node's remaining neighbours, in `links`.
    links: std::ops::Range<usize>,
}

/// The order of elimination with the places of all conductors; it depends on the graph alone.
pub(super) struct Elimination {
    places: Vec<Place>,
    steps: Vec<Step>,
    links: Vec<Link>,
    /// For each step, for each pair of its neighbours: the slot between them.
    meshes: Vec<usize>,
    slots: usize,
}

impl Elimination {
    /// Plans the elimination of the nodes that are unknown.
    pub(super) fn plan(graph: &Graph, is_unknown: &[bool]) -> Self {
        let mut plan = Self {
            places: Vec::with_capacity(graph.edges().len()),
            steps: Vec::with_capacity(graph.nodes()),
            links: Vec::with_capacity(graph.edges().len()),
            meshes: Vec::new(),
            slots: 0,
        };
        let mut remaining = Remaining::new(graph.nodes(), graph.edges().len());
        for &(from, to) in graph.edges() {
            let place = match (is_unknown[from], is_unknown[to]) {
                (true, true) if from != to => Place::Slot(remaining.join(from, to)),
                (true, false) => Place::Known(from),
                (false, true) => Place::Known(to),
                _ => Place::Nowhere,
            };
            plan.places.push(place);
        }
        // Leaves go first, and what becomes a leaf by that; only what is left then needs to be compared.
        let mut leaves: Vec<usize> = (0..graph.nodes())
            .filter(|&node| is_unknown[node] && remaining.degree[node] <= 1)
            .collect();
        let mut core = None;
        loop {
            let node = if let Some(leaf) = leaves.pop() {
                leaf
            } else {
                let queue = core.get_or_insert_with(|| remaining.queue(is_unknown));
                match queue.pop() {
                    Some(Reverse((degree, node))) if degree == remaining.degree[node] => node,
                    Some(_) => continue,
                    None => break,
                }
            };
            if remaining.is_gone[node] {
                continue;
            }
            let links = plan.eliminate(node, &mut remaining);
            for link in &plan.links[links] {
                let degree = remaining.degree[link.node];
                if degree <= 1 {
                    leaves.push(link.node);
                } else if let Some(queue) = &mut core {
                    queue.push(Reverse((degree, link.node)));
                }
            }
        }
        plan.slots = remaining.halves.len() / 2;
        plan
    }

    fn eliminate(&mut self, node: usize, remaining: &mut Remaining) -> std::ops::Range<usize> {
        remaining.is_gone[node] = true;
        let start = self.links.len();
        let neighbours = remaining.neighbours(node);
        self.links
            .extend(neighbours.filter(|link| !remaining.is_gone[link.node]));
        let links = start..self.links.len();
        for first in links.clone() {
            remaining.degree[self.links[first].node] -= 1;
            for second in first + 1..links.end {
                let (from, to) = (self.links[first].node, self.links[second].node);
                let slot = remaining.join(from, to);
                self.meshes.push(slot);
            }
        }
        self.steps.push(Step {
            node,
            links: links.clone(),
        });
        links
    }

    /// Writes into `potential` what the unknown nodes have when known ones have zero and each node is fed `fed`.
    ///
    /// `fed` is used up.
    pub(super) fn solve(
        &self,
        conductance: &[f64],
        fed: &mut [f64],
        potential: &mut [f64],
        room: &mut Room,
    ) {
        room.clear(self.slots, potential.len());
        for (place, conductance) in self.places.iter().zip(conductance) {
            match *place {
                Place::Slot(slot) => room.slot[slot] += conductance,
                Place::Known(node) => room.to_known[node] += conductance,
                Place::Nowhere => {}
            }
        }
        let mut meshes = self.meshes.iter();
        for step in &self.steps {
            let links = &self.links[step.links.clone()];
            let sum: f64 = links.iter().map(|link| room.slot[link.slot]).sum();
            let resistance = 1.0 / (room.to_known[step.node] + sum);
            room.resistance[step.node] = resistance;
            for (nth, link) in links.iter().enumerate() {
                let share = room.slot[link.slot] * resistance;
                fed[link.node] += share * fed[step.node];
                room.to_known[link.node] += share * room.to_known[step.node];
                for (other, mesh) in links[nth + 1..].iter().zip(&mut meshes) {
                    room.slot[*mesh] += share * room.slot[other.slot];
                }
            }
        }
        for step in self.steps.iter().rev() {
            let mut sum = fed[step.node];
            for link in &self.links[step.links.clone()] {
                sum += room.slot[link.slot] * potential[link.node];
            }
            potential[step.node] = sum * room.resistance[step.node];
        }
    }
}

/// Working room of a solve, kept from one to the next.
#[derive(Default)]
pub(super) struct Room {
    slot: Vec<f64>,
    to_known: Vec<f64>,
    resistance: Vec<f64>,
}

impl Room {
    fn clear(&mut self, slots: usize, nodes: usize) {
        self.slot.clear();
        self.slot.resize(slots, 0.0);
        self.to_known.clear();
        self.to_known.resize(nodes, 0.0);
        self.resistance.resize(nodes, 0.0);
    }
}

/// What is left of the graph while it is taken apart.
///
/// The neighbours of a node are a chain of halves of slots: slot `n` has the halves `2 n` and `2 n + 1`, one at each
/// of its ends. So nothing is allocated for a node alone.
struct Remaining {
    halves: Vec<Half>,
    /// The first half in the chain of each node.
    heads: Vec<usize>,
    /// How long the chain is, with what is gone.
    lengths: Vec<usize>,
    /// Neighbours that are not gone.
    degree: Vec<usize>,
    is_gone: Vec<bool>,
}

/// One end of a slot.
#[derive(Clone, Copy)]
struct Half {
    /// The node at the other end.
    node: usize,
    next: usize,
}

/// Where a chain ends.
const END: usize = usize::MAX;

impl Remaining {
    fn new(nodes: usize, edges: usize) -> Self {
        Self {
            halves: Vec::with_capacity(2 * edges),
            heads: vec![END; nodes],
            lengths: vec![0; nodes],
            degree: vec![0; nodes],
            is_gone: vec![false; nodes],
        }
    }

    /// All that ever were neighbours of a node.
    fn neighbours(&self, node: usize) -> impl Iterator<Item = Link> + '_ {
        let mut at = self.heads[node];
        std::iter::from_fn(move || {
            let half = self.halves.get(at)?;
            let slot = at / 2;
            at = half.next;
            Some(Link {
                node: half.node,
                slot,
            })
        })
    }

    /// The slot between two nodes, a new one where there was none.
    fn join(&mut self, first: usize, second: usize) -> usize {
        let (short, long) = if self.lengths[first] <= self.lengths[second] {
            (first, second)
        } else {
            (second, first)
        };
        if let Some(link) = self.neighbours(short).find(|link| link.node == long) {
            return link.slot;
        }
        for (here, there) in [(short, long), (long, short)] {
            let half = Half {
                node: there,
                next: self.heads[here],
            };
            self.heads[here] = self.halves.len();
            self.halves.push(half);
            self.lengths[here] += 1;
            self.degree[here] += 1;
        }
        self.halves.len() / 2 - 1
    }

    fn queue(&self, is_unknown: &[bool]) -> BinaryHeap<Reverse<(usize, usize)>> {
        (0..self.degree.len())
            .filter(|&node| is_unknown[node] && !self.is_gone[node])
            .map(|node| Reverse((self.degree[node], node)))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Potentials of a dense grid with one known corner, put back into the balance of every node.
    #[test]
    fn what_is_fed_flows_away() {
        const SIDE: usize = 7;
        let mut edges = Vec::new();
        for node in 0..SIDE * SIDE {
            if node % SIDE + 1 < SIDE {
                edges.push((node, node + 1));
            }
            if node + SIDE < SIDE * SIDE {
                edges.push((node + SIDE, node));
            }
        }
        // Side by side, and from a node to itself.
        edges.extend([(3, 4), (4, 3), (8, 8)]);
        let graph = Graph::new(SIDE * SIDE, edges);
        let conductance: Vec<f64> = (0..graph.edges().len())
            .map(|edge| 10.0_f64.powi(i32::try_from(edge % 7).expect("below 7") - 3))
            .collect();
        let mut is_unknown = vec![true; graph.nodes()];
        is_unknown[0] = false;
        let fed: Vec<f64> = (0..graph.nodes())
            .map(|node| (node % 5) as f64 - 1.0)
            .collect();
        let mut potential = vec![0.0; graph.nodes()];
        Elimination::plan(&graph, &is_unknown).solve(
            &conductance,
            &mut fed.clone(),
            &mut potential,
            &mut Room::default(),
        );
        let mut left = fed;
        let mut scale = 0.0_f64;
        for (&(from, to), conductance) in graph.edges().iter().zip(&conductance) {
            let flow = conductance * (potential[from] - potential[to]);
            left[from] -= flow;
            left[to] += flow;
            scale = scale.max(conductance * potential[from].abs());
        }
        for (node, left) in left.iter().enumerate().skip(1) {
            assert!(left.abs() < 1e-14 * scale, "{left} at {node} of {scale}");
        }
    }

    #[test]
    fn a_tree_needs_no_new_conductor() {
        let edges: Vec<(usize, usize)> = (1..1000).map(|node| (node / 3, node)).collect();
        let graph = Graph::new(1000, edges);
        let plan = Elimination::plan(&graph, &[true; 1000]);
        assert_eq!(plan.steps.len(), 1000);
        assert_eq!(plan.slots, 999);
        assert!(plan.meshes.is_empty());
    }
}
