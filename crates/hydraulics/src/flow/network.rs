//! The network as it is described, and its way to the solver and back.

use super::error::FlowError;
use super::flows::Flows;
use super::graph::Graph;
use super::joined::{self, Clusters};
use super::law::{BranchLaw, Law};
use super::newton;
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;

/// The standard acceleration of gravity, in m/s2 [CGPM1901]. The real one differs by up to 0.3 %.
pub(super) const GRAVITY_M_PER_S2: f64 = 9.80665;

/// A place where branches meet, of the network that gave it out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NodeId(pub(super) usize);

/// A branch, of the network that gave it out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BranchId(pub(super) usize);

#[derive(Debug, Clone, Copy)]
struct Node {
    height_m: f64,
    /// Given at an end, found at a joint.
    gauge_pa: Option<f64>,
}

impl Node {
    /// `p + rho g z` of an end.
    fn known_pa(&self, weight_pa_per_m: f64) -> Option<f64> {
        self.gauge_pa
            .map(|gauge_pa| gauge_pa + weight_pa_per_m * self.height_m)
    }

    /// The size of the terms of `p + rho g z`, whose rounding errors are a share of it.
    fn terms_pa(&self, weight_pa_per_m: f64) -> f64 {
        self.gauge_pa.unwrap_or(0.0).abs() + (weight_pa_per_m * self.height_m).abs()
    }
}

#[derive(Debug, Clone, Copy)]
struct Branch {
    from: usize,
    to: usize,
    law: BranchLaw,
}

/// Pipes, screws and joints with everything that gives a pressure, for the steady flow through all of it.
///
/// Formula: at every joint `sum Q = 0`; along every branch
/// `(p + rho g z)_from - (p + rho g z)_to = a Q + b Q |Q|`; at every end `p` is given.
///
/// Symbols: `Q` flow (m3/s); `p` gauge pressure (Pa); `rho` density (kg/m3); `g` = 9.80665 m/s2; `z` height (m);
/// `a` (Pa s/m3) and `b` (Pa s2/m6) coefficients of the branch, see [`BranchLaw`].
///
/// Range: steady flow of one liquid that fills the pipes, the same in density and viscosity everywhere; any
/// number of ends, loops and closed branches. No inertia, no air, no elasticity. Whether a branch is still laminar
/// must be looked at by whoever chose its coefficients. Nodes with less than no absolute pressure are named by
/// [`Flows::below_vacuum`].
///
/// Source: [Todini1988](crate#sources) for the equations and Newton's method in the flows. The exact solution is
/// unique, since the pressure of a branch grows with its flow.
///
/// ```
/// use bleedwright_hydraulics::{BranchLaw, FlowNetwork};
/// use uom::si::f64::{Length, MassDensity, Pressure};
/// use uom::si::{length::meter, mass_density::kilogram_per_cubic_meter, pressure::bar};
/// use uom::si::volume_rate::milliliter_per_second;
///
/// // A tank at 1 bar, one pipe, and a screw that is open.
/// let mut network = FlowNetwork::new();
/// let floor = Length::new::<meter>(0.0);
/// let tank = network.add_end(floor, Pressure::new::<bar>(1.0));
/// let screw = network.add_end(floor, Pressure::new::<bar>(0.0));
/// let pipe = network.add_branch(tank, screw, BranchLaw::linear(2.5e10));
/// let flows = network.solve(MassDensity::new::<kilogram_per_cubic_meter>(1050.0))?;
/// assert!((flows.through(pipe).get::<milliliter_per_second>() - 4.0).abs() < 1e-12);
/// # Ok::<(), bleedwright_hydraulics::FlowError>(())
/// ```
#[derive(Debug, Clone, Default)]
pub struct FlowNetwork {
    nodes: Vec<Node>,
    branches: Vec<Branch>,
}

impl FlowNetwork {
    /// A network without anything in it.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a joint, at which flows balance.
    pub fn add_joint(&mut self, height: Length) -> NodeId {
        self.add_node(height, None)
    }

    /// Adds an end whose pressure is given: a reservoir's surface, a tank, the end of an open screw's hose, a
    /// vacuum jar.
    pub fn add_end(&mut self, height: Length, gauge: Pressure) -> NodeId {
        self.add_node(height, Some(gauge.get::<pascal>()))
    }

    fn add_node(&mut self, height: Length, gauge_pa: Option<f64>) -> NodeId {
        self.nodes.push(Node {
            height_m: height.get::<meter>(),
            gauge_pa,
        });
        NodeId(self.nodes.len() - 1)
    }

    /// Adds a branch. A positive flow runs from the first node to the second.
    ///
    /// What is wrong with it is said by [`FlowNetwork::solve`].
    pub fn add_branch(&mut self, from: NodeId, to: NodeId, law: BranchLaw) -> BranchId {
        self.branches.push(Branch {
            from: from.0,
            to: to.0,
            law,
        });
        BranchId(self.branches.len() - 1)
    }

    /// Finds the flow through every branch and the pressure at every node that an end is reached from.
    pub fn solve(&self, density: MassDensity) -> Result<Flows, FlowError> {
        let weight_pa_per_m = self.checked_weight(density)?;
        let direct = || self.open_branches().filter(|(_, b)| b.law.is_direct());
        let has_direct = direct().next().is_some();
        let clusters = Clusters::new(self.nodes.len(), direct().map(|(_, b)| (b.from, b.to)));
        let ends = self.known_potentials(&clusters, weight_pa_per_m)?;

        // A branch between nodes that are one has no pressure to drive it.
        let resisting: Vec<(usize, Branch)> = self
            .open_branches()
            .filter(|(_, b)| !b.law.is_direct() && clusters.of[b.from] != clusters.of[b.to])
            .collect();
        let pairs = resisting.iter();
        let pairs = pairs.map(|(_, b)| (clusters.of[b.from], clusters.of[b.to]));
        let graph = Graph::new(clusters.count, pairs.collect());
        let flow_scale = mean_flow(&resisting, ends.spread_pa);
        let laws: Vec<Law> = resisting
            .iter()
            .map(|(_, b)| b.law.scaled(flow_scale, ends.spread_pa))
            .collect();
        let solution = newton::solve(&graph, &laws, &ends.scaled)?;

        let mut flow_m3_per_s = vec![0.0; self.branches.len()];
        for ((branch, _), flow) in resisting.iter().zip(&solution.flow) {
            flow_m3_per_s[*branch] = flow * flow_scale;
        }
        if has_direct {
            self.fill_direct(&clusters, &mut flow_m3_per_s);
        }
        let nodes = self.nodes.iter().zip(&clusters.of);
        let gauge_pa = nodes.map(|(node, cluster)| {
            // What is given at an end stays as it was given, without the rounding of there and back.
            node.gauge_pa.or_else(|| {
                let potential = solution.potential[*cluster]?;
                let above_pa = ends.lowest_pa - weight_pa_per_m * node.height_m;
                Some(potential * ends.spread_pa + above_pa)
            })
        });
        Ok(Flows {
            gauge_pa: gauge_pa.collect(),
            flow_m3_per_s,
            iterations: solution.iterations,
        })
    }

    fn open_branches(&self) -> impl Iterator<Item = (usize, Branch)> + '_ {
        let branches = self.branches.iter().copied().enumerate();
        branches.filter(|(_, branch)| !branch.law.is_closed())
    }

    /// The weight of the liquid in Pa/m, once everything in the network was looked at.
    fn checked_weight(&self, density: MassDensity) -> Result<f64, FlowError> {
        let density_kg_per_m3 = density.get::<kilogram_per_cubic_meter>();
        if !(density_kg_per_m3.is_finite() && density_kg_per_m3 > 0.0) {
            return Err(FlowError::DensityOutOfRange { density_kg_per_m3 });
        }
        let weight_pa_per_m = density_kg_per_m3 * GRAVITY_M_PER_S2;
        for (number, node) in self.nodes.iter().enumerate() {
            if !node.terms_pa(weight_pa_per_m).is_finite() {
                return Err(FlowError::NodeOutOfRange {
                    node: number,
                    height_m: node.height_m,
                    gauge_pa: node.gauge_pa.unwrap_or(0.0),
                });
            }
        }
        for (number, branch) in self.branches.iter().enumerate() {
            if !branch.law.is_sound() {
                return Err(FlowError::BranchOutOfRange {
                    branch: number,
                    linear_pa_s_per_m3: branch.law.linear_pa_s_per_m3,
                    quadratic_pa_s2_per_m6: branch.law.quadratic_pa_s2_per_m6,
                });
            }
            let named = [branch.from, branch.to].into_iter();
            if let Some(node) = named.max().filter(|node| *node >= self.nodes.len()) {
                return Err(FlowError::UnknownNode {
                    branch: number,
                    node,
                });
            }
        }
        Ok(weight_pa_per_m)
    }

    fn known_potentials(
        &self,
        clusters: &Clusters,
        weight_pa_per_m: f64,
    ) -> Result<Ends, FlowError> {
        let mut first: Vec<Option<(usize, f64)>> = vec![None; clusters.count];
        let (mut lowest_pa, mut highest_pa) = (f64::INFINITY, f64::NEG_INFINITY);
        let largest_pa = self.nodes.iter().filter(|node| node.gauge_pa.is_some());
        let largest_pa = largest_pa.fold(0.0_f64, |largest, node| {
            largest.max(node.terms_pa(weight_pa_per_m))
        });
        // Less than that is the rounding of two products and two sums, and no pressure.
        let rounding_pa = 4.0 * f64::EPSILON * largest_pa;
        for (number, node) in self.nodes.iter().enumerate() {
            let Some(known_pa) = node.known_pa(weight_pa_per_m) else {
                continue;
            };
            lowest_pa = lowest_pa.min(known_pa);
            highest_pa = highest_pa.max(known_pa);
            let (other, other_pa) = *first[clusters.of[number]].get_or_insert((number, known_pa));
            if (known_pa - other_pa).abs() > rounding_pa {
                return Err(FlowError::EndsJoined {
                    first: other,
                    second: number,
                    difference_pa: known_pa - other_pa,
                });
            }
        }
        if lowest_pa > highest_pa {
            return Err(FlowError::NoEnd);
        }
        let spread_pa = highest_pa - lowest_pa;
        let is_at_rest = spread_pa <= rounding_pa;
        let spread_pa = if is_at_rest { 1.0 } else { spread_pa };
        let scaled = first.into_iter().map(|end| {
            let (_, known_pa) = end?;
            Some(if is_at_rest {
                0.0
            } else {
                (known_pa - lowest_pa) / spread_pa
            })
        });
        Ok(Ends {
            scaled: scaled.collect(),
            lowest_pa,
            spread_pa,
        })
    }

    /// Adds the flows of the direct joints to those of all others.
    fn fill_direct(&self, clusters: &Clusters, flow_m3_per_s: &mut [f64]) {
        let mut drawn = vec![0.0; self.nodes.len()];
        for (branch, flow) in self.branches.iter().zip(&*flow_m3_per_s) {
            drawn[branch.from] += flow;
            drawn[branch.to] -= flow;
        }
        let (numbers, pairs): (Vec<usize>, Vec<(usize, usize)>) = self
            .open_branches()
            .filter(|(_, b)| b.law.is_direct())
            .map(|(number, b)| (number, (b.from, b.to)))
            .unzip();
        let is_end: Vec<bool> = self.nodes.iter().map(|n| n.gauge_pa.is_some()).collect();
        let graph = Graph::new(self.nodes.len(), pairs);
        let flows = joined::flows(&graph, clusters, &is_end, &drawn);
        for (number, flow) in numbers.into_iter().zip(flows) {
            flow_m3_per_s[number] = flow;
        }
    }
}

/// The given potentials `p + rho g z`, as shares of their spread above the lowest.
struct Ends {
    scaled: Vec<Option<f64>>,
    lowest_pa: f64,
    /// 1 Pa where nothing drives a flow.
    spread_pa: f64,
}

/// The mean of what the branches would each pass under the whole pressure: mean conductance times pressure.
fn mean_flow(branches: &[(usize, Branch)], pressure_pa: f64) -> f64 {
    if branches.is_empty() {
        return 1.0;
    }
    let flows = branches.iter();
    let flows = flows.map(|(_, b)| b.law.scaled(1.0, pressure_pa).flow_under_one());
    flows.sum::<f64>() / branches.len() as f64
}
