//! What a solved network passes, and at which pressures.

use super::network::{BranchId, NodeId};
use crate::gas::standard_atmosphere;
use uom::si::f64::{Pressure, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// The steady flows and pressures of a network, as [`FlowNetwork::solve`](super::FlowNetwork::solve) finds them.
#[derive(Debug, Clone, PartialEq)]
pub struct Flows {
    pub(super) flow_m3_per_s: Vec<f64>,
    pub(super) gauge_pa: Vec<Option<f64>>,
    pub(super) iterations: u32,
}

impl Flows {
    /// The flow through a branch, positive where it runs in the direction in which the branch was added.
    ///
    /// It is not a number for a branch of another network that this one does not have.
    pub fn through(&self, branch: BranchId) -> VolumeRate {
        let flow = self.flow_m3_per_s.get(branch.0).copied();
        VolumeRate::new::<cubic_meter_per_second>(flow.unwrap_or(f64::NAN))
    }

    /// The gauge pressure at a node; none where no end is reached over open branches.
    pub fn gauge_pressure(&self, node: NodeId) -> Option<Pressure> {
        let gauge_pa = self.gauge_pa.get(node.0).copied().flatten();
        gauge_pa.map(Pressure::new::<pascal>)
    }

    /// The number of linear systems that were solved.
    pub fn iterations(&self) -> u32 {
        self.iterations
    }

    /// The nodes whose absolute pressure is below zero against the standard atmosphere.
    ///
    /// No liquid in a pipe stays whole there: it boils, or air comes out of solution. If there is any such node, the
    /// flows are those of a liquid that does not exist. An empty list is no proof of the opposite: air comes out
    /// of solution well above an absolute pressure of zero.
    pub fn below_vacuum(&self) -> Vec<NodeId> {
        let vacuum_pa = -standard_atmosphere().get::<pascal>();
        let nodes = self.gauge_pa.iter().enumerate();
        nodes
            .filter(|(_, gauge_pa)| gauge_pa.is_some_and(|gauge_pa| gauge_pa < vacuum_pa))
            .map(|(node, _)| NodeId(node))
            .collect()
    }
}
