//! Linear equations of a network of conductances, node by node.

use std::collections::{BTreeMap, BTreeSet};

/// Solves `(c_i + sum_j g_ij) x_i - sum_j g_ij x_j = r_i` by taking out one node after the other.
///
/// A node without its neighbours' pressures is a star; taking it out leaves a mesh between the neighbours. Done on `c`
/// and `g` and not on the matrix itself, nothing is ever subtracted, so that a node which hardly stores anything keeps
/// all of its digits. The node with the fewest neighbours goes first: a tree takes one operation for each branch.
///
/// Source: star-mesh transform, [Rosen1924](crate#sources); order by least degree, [Tinney1967](crate#sources).
#[derive(Debug, Clone, Default)]
pub(crate) struct Elimination {
    pivots: Vec<Pivot>,
    /// Per pivot and neighbour in turn: the node and where their conductance stands.
    neighbours: Vec<(usize, usize)>,
    /// Per pivot and pair of neighbours in turn: the conductance that grows, and the two that make it.
    meshes: Vec<(usize, usize, usize)>,
    conductances: usize,
}

#[derive(Debug, Clone)]
struct Pivot {
    node: usize,
    neighbours: std::ops::Range<usize>,
    meshes: std::ops::Range<usize>,
}

impl Elimination {
    /// Plans the order for so many nodes and the pairs that are joined; gives the place of each pair's conductance.
    pub(crate) fn plan(nodes: usize, pairs: &[(usize, usize)]) -> (Self, Vec<usize>) {
        let mut joined = Joined::new(nodes);
        let places = pairs.iter().map(|&pair| joined.place_of(pair)).collect();
        let mut plan = Self::default();
        let mut left: BTreeSet<(usize, usize)> =
            (0..nodes).map(|node| (joined.degree(node), node)).collect();
        while let Some((_, node)) = left.pop_first() {
            let around = joined.take_out(node);
            let (neighbours_begin, meshes_begin) = (plan.neighbours.len(), plan.meshes.len());
            for &(near, _) in &around {
                // It was counted with the node that is gone.
                left.remove(&(joined.degree(near) + 1, near));
            }
            for (at, &(a, place_a)) in around.iter().enumerate() {
                for &(b, place_b) in &around[at + 1..] {
                    let grown = joined.place_of((a, b));
                    plan.meshes.push((grown, place_a, place_b));
                }
            }
            for &(near, _) in &around {
                left.insert((joined.degree(near), near));
            }
            plan.neighbours.extend(around);
            plan.pivots.push(Pivot {
                node,
                neighbours: neighbours_begin..plan.neighbours.len(),
                meshes: meshes_begin..plan.meshes.len(),
            });
        }
        plan.conductances = joined.places;
        (plan, places)
    }

    /// How many conductances there are, with those that the elimination brings.
    pub(crate) fn conductances(&self) -> usize {
        self.conductances
    }

    /// Takes out every node. `own` holds `c` and becomes the sum of each star; `between` holds `g` and becomes each
    /// neighbour's share of the star.
    pub(crate) fn factor(&self, own: &mut [f64], between: &mut [f64]) {
        for pivot in &self.pivots {
            let around = &self.neighbours[pivot.neighbours.clone()];
            let kept = own[pivot.node];
            let star = around
                .iter()
                .fold(kept, |sum, &(_, place)| sum + between[place]);
            for &(grown, a, b) in &self.meshes[pivot.meshes.clone()] {
                between[grown] += between[a] * between[b] / star;
            }
            for &(node, place) in around {
                own[node] += between[place] * kept / star;
                between[place] /= star;
            }
            own[pivot.node] = star;
        }
    }

    /// Solves in place, with what [`Self::factor`] left.
    pub(crate) fn solve(&self, stars: &[f64], shares: &[f64], values: &mut [f64]) {
        for pivot in &self.pivots {
            let value = values[pivot.node];
            for &(node, place) in &self.neighbours[pivot.neighbours.clone()] {
                values[node] += shares[place] * value;
            }
        }
        for pivot in self.pivots.iter().rev() {
            values[pivot.node] = self.neighbours[pivot.neighbours.clone()].iter().fold(
                values[pivot.node] / stars[pivot.node],
                |sum, &(node, place)| sum + shares[place] * values[node],
            );
        }
    }
}

/// The neighbours of every node, with the places of their conductances.
struct Joined {
    around: Vec<BTreeMap<usize, usize>>,
    places: usize,
}

impl Joined {
    fn new(nodes: usize) -> Self {
        Self {
            around: vec![BTreeMap::new(); nodes],
            places: 0,
        }
    }

    fn degree(&self, node: usize) -> usize {
        self.around[node].len()
    }

    /// Where the conductance of a pair stands; a new pair gets a new place.
    fn place_of(&mut self, (a, b): (usize, usize)) -> usize {
        let place = *self.around[a].entry(b).or_insert(self.places);
        if place == self.places {
            self.around[b].insert(a, place);
            self.places += 1;
        }
        place
    }

    fn take_out(&mut self, node: usize) -> Vec<(usize, usize)> {
        let around = std::mem::take(&mut self.around[node]);
        for near in around.keys() {
            self.around[*near].remove(&node);
        }
        around.into_iter().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn solved(own: &[f64], joined: &[(usize, usize, f64)], right: &[f64]) -> Vec<f64> {
        let pairs: Vec<_> = joined.iter().map(|&(a, b, _)| (a, b)).collect();
        let (plan, places) = Elimination::plan(own.len(), &pairs);
        let mut between = vec![0.0; plan.conductances()];
        for (place, &(_, _, conductance)) in places.iter().zip(joined) {
            between[*place] += conductance;
        }
        let mut stars = own.to_vec();
        plan.factor(&mut stars, &mut between);
        let mut values = right.to_vec();
        plan.solve(&stars, &between, &mut values);
        values
    }

    #[test]
    fn a_tree_brings_no_new_conductances() {
        let pairs: Vec<_> = (1..40).map(|node| ((node - 1) / 3, node)).collect();
        let (plan, _) = Elimination::plan(40, &pairs);
        assert_eq!(plan.conductances(), 39);
        assert!(plan.meshes.is_empty());
    }

    /// Nothing is stored but a trace at one node: what flows in there must be answered by exactly that trace.
    #[test]
    fn a_trace_of_storage_keeps_its_digits() {
        let x = solved(
            &[0.0, 0.0, 1e-30],
            &[(0, 1, 1.0), (1, 2, 3.0)],
            &[1.0, 0.0, 0.0],
        );
        for value in x {
            assert!((value / 1e30 - 1.0).abs() < 1e-15, "{value}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

        /// Any network, with loops and branches side by side: the solution fulfils the equations.
        #[test]
        fn the_equations_hold(
            own in prop::collection::vec(1e-3_f64..10.0, 2..12),
            joins in prop::collection::vec((0_usize..12, 0_usize..12, 0.0_f64..100.0), 0..25),
            right in prop::collection::vec(-5.0_f64..5.0, 12),
        ) {
            let nodes = own.len();
            let joined: Vec<_> = joins
                .into_iter()
                .map(|(a, b, g)| (a % nodes, b % nodes, g))
                .filter(|&(a, b, _)| a != b)
                .collect();
            let x = solved(&own, &joined, &right[..nodes]);
            for node in 0..nodes {
                let mut sum = own[node] * x[node];
                let mut size = sum.abs() + right[node].abs();
                for &(a, b, g) in &joined {
                    if a == node || b == node {
                        let other = if a == node { b } else { a };
                        sum += g * (x[node] - x[other]);
                        size += g * (x[node].abs() + x[other].abs());
                    }
                }
                prop_assert!((sum - right[node]).abs() < 1e-13 * size);
            }
        }
    }
}
