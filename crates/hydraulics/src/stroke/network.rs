//! Nodes, branches and pistons.

use super::error::StrokeError;
use super::law::BranchLaw;
use super::motion::Motion;
use super::pocket::{Pocket, Store};
use crate::elimination::Elimination;
use crate::range::{positive, zero_or_more};
use std::sync::OnceLock;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Pressure};
use uom::si::pressure::pascal;

/// The least that a node without a pocket stores, 1e-18 m3/Pa: a fifth of a millimetre of 3.3 mm pipe.
///
/// ASSUMPTION: a node of less is given this much. At 10 bar that is 1e-6 ml, less than any volume that matters, and it
/// keeps every pressure a differential equation.
pub(super) const LEAST_COMPLIANCE_M3_PER_PA: f64 = 1e-18;

/// A node or an end of a network, each counted from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NodeId {
    /// A node that stores fluid.
    Inner(usize),
    /// An end, whose pressure nothing changes.
    End(usize),
}

impl NodeId {
    pub(super) fn unknown(self) -> StrokeError {
        let (what, index) = match self {
            Self::Inner(index) => ("node", index),
            Self::End(index) => ("end", index),
        };
        StrokeError::Unknown { what, index }
    }
}

/// A branch of a network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BranchId(pub(super) usize);

/// Pipework with pistons, as nodes that store and branches that resist.
///
/// Formula: `(C_i + V_i / (n p_i)) dp_i/dt = sum Q_in + A dx/dt`, with `dp = a Q + b Q |Q|` in a branch.
///
/// Symbols: `p_i` absolute pressure of node `i` (Pa); `C_i` its compliance, fluid and walls (m3/Pa); `V_i` its pocket
/// (m3) and `n` the polytropic index; `Q` flow of a branch (m3/s); `A dx/dt` what a piston pushes in (m3/s); `a`
/// (Pa s/m3), `b` (Pa s2/m6) see [`BranchLaw`].
///
/// Range: compliances that do not change with the pressure; quasi-steady laminar friction; pistons that go where they
/// are told. The mass of the fluid is left out: volumes are right to about 1 % and pressures in time are not, since a pocket
/// behind a line swings at some 10 Hz. Nothing boils, and fluid does not tear. Gas stays where it is and neither flows nor
/// dissolves.
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::gas::standard_atmosphere;
/// use bleedwright_hydraulics::stroke::{BranchLaw, Motion, StrokeNetwork};
/// use uom::si::f64::{Area, Length, Pressure, Ratio, Time};
/// use uom::si::{area::square_millimeter, length::millimeter, ratio::ratio, time::second, volume::milliliter};
///
/// let (mm, s) = (Length::new::<millimeter>, Time::new::<second>);
/// let mut network = StrokeNetwork::new(standard_atmosphere())?;
/// let master = network.add_node(1e-14, None)?;
/// let outlet = network.add_end(Pressure::default())?;
/// let pipe = BranchLaw { linear_pa_s_per_m3: 1e10, quadratic_pa_s2_per_m6: 0.0 };
/// let screw = network.add_branch(master, outlet, pipe)?;
/// let press = Motion::default().then_move(mm(20.0), s(0.5))?;
/// network.add_piston(master, Area::new::<square_millimeter>(300.0), press)?;
///
/// let delivered = network.run(s(1.0), Ratio::new::<ratio>(1e-5))?.delivered(screw)?;
/// assert!((delivered.get::<milliliter>() - 6.0).abs() < 1e-3);
/// # Ok::<(), bleedwright_hydraulics::stroke::StrokeError>(())
/// ```
#[derive(Debug, Clone)]
pub struct StrokeNetwork {
    pub(super) atmosphere_pa: f64,
    pub(super) stores: Vec<Store>,
    pub(super) ends_pa: Vec<f64>,
    pub(super) branches: Vec<Branch>,
    pub(super) pistons: Vec<Piston>,
    plan: OnceLock<Plan>,
}

#[derive(Debug, Clone)]
pub(super) struct Branch {
    pub(super) from: NodeId,
    pub(super) to: NodeId,
    pub(super) law: BranchLaw,
}

#[derive(Debug, Clone)]
pub(super) struct Piston {
    pub(super) node: usize,
    pub(super) area_m2: f64,
    pub(super) motion: Motion,
}

/// How the linear equations are solved: the same in every run until a branch or node is added.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub(super) elimination: Elimination,
    /// Per branch: where its conductance stands, if it joins two nodes.
    pub(super) places: Vec<Option<usize>>,
}

impl StrokeNetwork {
    /// A network without anything, in an atmosphere of this absolute pressure.
    pub fn new(atmosphere: Pressure) -> Result<Self, StrokeError> {
        Ok(Self {
            atmosphere_pa: positive("absolute pressure", atmosphere.get::<pascal>(), "Pa")?,
            stores: Vec::new(),
            ends_pa: Vec::new(),
            branches: Vec::new(),
            pistons: Vec::new(),
            plan: OnceLock::new(),
        })
    }

    /// A node that stores fluid. A compliance of nothing is allowed; without a pocket it counts as 1e-18 m3/Pa, which
    /// at 10 bar holds 1e-6 ml.
    pub fn add_node(
        &mut self,
        compliance_m3_per_pa: f64,
        pocket: Option<Pocket>,
    ) -> Result<NodeId, StrokeError> {
        zero_or_more("compliance", compliance_m3_per_pa, "m3/Pa")?;
        let least = if pocket.is_some() {
            0.0
        } else {
            LEAST_COMPLIANCE_M3_PER_PA
        };
        self.stores.push(Store {
            compliance_m3_per_pa: compliance_m3_per_pa.max(least),
            pocket,
        });
        self.plan = OnceLock::new();
        Ok(NodeId::Inner(self.stores.len() - 1))
    }

    /// An end whose gauge pressure nothing changes: a reservoir, or the outlet of an open screw.
    pub fn add_end(&mut self, gauge: Pressure) -> Result<NodeId, StrokeError> {
        let gauge_pa = gauge.get::<pascal>();
        positive("pressure of an end", gauge_pa + self.atmosphere_pa, "Pa")?;
        self.ends_pa.push(gauge_pa);
        Ok(NodeId::End(self.ends_pa.len() - 1))
    }

    /// A branch. Flow counts from the first node to the second.
    pub fn add_branch(
        &mut self,
        from: NodeId,
        to: NodeId,
        law: BranchLaw,
    ) -> Result<BranchId, StrokeError> {
        self.known_node(from)?;
        self.known_node(to)?;
        if from == to {
            return Err(StrokeError::BranchToItself);
        }
        self.branches.push(Branch {
            from,
            to,
            law: law.checked()?,
        });
        self.plan = OnceLock::new();
        Ok(BranchId(self.branches.len() - 1))
    }

    /// A piston that pushes into a node.
    pub fn add_piston(
        &mut self,
        node: NodeId,
        area: Area,
        motion: Motion,
    ) -> Result<(), StrokeError> {
        self.known_node(node)?;
        let NodeId::Inner(node) = node else {
            return Err(StrokeError::PistonAtEnd);
        };
        let area_m2 = positive("area of a piston", area.get::<square_meter>(), "m2")?;
        self.pistons.push(Piston {
            node,
            area_m2,
            motion,
        });
        Ok(())
    }

    pub(super) fn plan(&self) -> &Plan {
        self.plan.get_or_init(|| {
            let mut pairs = Vec::new();
            for branch in &self.branches {
                if let (NodeId::Inner(a), NodeId::Inner(b)) = (branch.from, branch.to) {
                    pairs.push((a, b));
                }
            }
            let (elimination, found) = Elimination::plan(self.stores.len(), &pairs);
            let mut found = found.into_iter();
            let places = self
                .branches
                .iter()
                .map(|branch| match (branch.from, branch.to) {
                    (NodeId::Inner(_), NodeId::Inner(_)) => found.next(),
                    _ => None,
                })
                .collect();
            Plan {
                elimination,
                places,
            }
        })
    }

    fn known_node(&self, node: NodeId) -> Result<(), StrokeError> {
        let is_known = match node {
            NodeId::Inner(index) => index < self.stores.len(),
            NodeId::End(index) => index < self.ends_pa.len(),
        };
        is_known.then_some(()).ok_or_else(|| node.unknown())
    }
}
