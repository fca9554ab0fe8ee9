//! What a run of a network gives.

use super::error::StrokeError;
use super::network::{BranchId, NodeId, Place};
use super::pocket::Level;
use uom::si::f64::{Pressure, Time, Volume};
use uom::si::pressure::pascal;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

/// A run: the state at every time asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// In the order of their times; the first at the start, the last at the end.
    pub(super) samples: Vec<StrokeSample>,
    pub(super) steps: usize,
}

impl Trace {
    /// The state at a time that was asked for, at the start or at the end.
    pub fn at(&self, time: Time) -> Option<&StrokeSample> {
        let time_s = time.get::<second>();
        self.samples
            .binary_search_by(|sample| sample.time_s.total_cmp(&time_s))
            .ok()
            .map(|at| &self.samples[at])
    }

    /// The state at the end.
    pub fn end(&self) -> &StrokeSample {
        self.samples
            .last()
            .expect("a run begins with a sample of its start")
    }

    /// How many steps were accepted.
    pub fn steps(&self) -> usize {
        self.steps
    }
}

/// The state of a network at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokeSample {
    pub(super) time_s: f64,
    pub(super) levels: Vec<Level>,
    pub(super) has_pocket: Vec<bool>,
    pub(super) ends_pa: Vec<f64>,
    pub(super) delivered_m3: Vec<f64>,
}

impl StrokeSample {
    /// The gauge pressure of a node or an end.
    pub fn gauge(&self, node: NodeId) -> Result<Pressure, StrokeError> {
        let found = match node.0 {
            Place::Node(index) => self.levels.get(index).map(|level| level.gauge_pa),
            Place::End(index) => self.ends_pa.get(index).copied(),
        };
        found.map(Pressure::new::<pascal>).ok_or(unknown_node(node))
    }

    /// The volume of a node's pocket, if it has one.
    pub fn pocket(&self, node: NodeId) -> Result<Option<Volume>, StrokeError> {
        match node.0 {
            Place::Node(index) if index < self.levels.len() => Ok(self.has_pocket[index]
                .then(|| Volume::new::<cubic_meter>(self.levels[index].gas_m3))),
            Place::End(index) if index < self.ends_pa.len() => Ok(None),
            Place::Node(_) | Place::End(_) => Err(unknown_node(node)),
        }
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

fn unknown_node(node: NodeId) -> StrokeError {
    match node.0 {
        Place::Node(index) => StrokeError::Unknown {
            what: "node",
            index,
        },
        Place::End(index) => StrokeError::Unknown { what: "end", index },
    }
}
