//! What a run of a network comes to.

use super::error::StrokeError;
use super::network::{BranchId, NodeId};
use super::pocket::Level;
use uom::si::f64::{Pressure, Volume};
use uom::si::pressure::pascal;
use uom::si::volume::cubic_meter;

/// The state of a network at the end of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokeState {
    pub(super) levels: Vec<Level>,
    pub(super) has_pocket: Vec<bool>,
    pub(super) ends_pa: Vec<f64>,
    pub(super) delivered_m3: Vec<f64>,
}

impl StrokeState {
    /// The gauge pressure of a node or an end.
    pub fn gauge(&self, node: NodeId) -> Result<Pressure, StrokeError> {
        let found = match node {
            NodeId::Inner(index) => self.levels.get(index).map(|level| level.gauge_pa),
            NodeId::End(index) => self.ends_pa.get(index).copied(),
        };
        found
            .map(Pressure::new::<pascal>)
            .ok_or_else(|| node.unknown())
    }

    /// The volume of a node's pocket, if it has one.
    pub fn pocket(&self, node: NodeId) -> Result<Option<Volume>, StrokeError> {
        let NodeId::Inner(index) = node else {
            return self.gauge(node).map(|_| None);
        };
        let level = self.levels.get(index).ok_or_else(|| node.unknown())?;
        Ok(self.has_pocket[index].then(|| Volume::new::<cubic_meter>(level.gas_m3)))
    }

    /// What went through a branch since the start of the run, from its first node to its second.
    pub fn delivered(&self, branch: BranchId) -> Result<Volume, StrokeError> {
        let BranchId(index) = branch;
        self.delivered_m3
            .get(index)
            .map(|&volume_m3| Volume::new::<cubic_meter>(volume_m3))
            .ok_or(StrokeError::Unknown {
                what: "branch",
                index,
            })
    }
}
