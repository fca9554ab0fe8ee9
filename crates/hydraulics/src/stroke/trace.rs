//! What a run of a network gives.

use super::error::StrokeError;
use super::network::{BranchId, NodeId, PistonId, Place};
use super::pocket::Level;
use super::state::StrokeState;
use uom::si::f64::{Pressure, Ratio, Time, Volume, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

/// A run: the state at every time asked for, and how well it was followed.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// In the order of their times; the first at the start, the last at the end.
    pub(super) samples: Vec<StrokeSample>,
    pub(super) end_state: StrokeState,
    pub(super) steps: usize,
    pub(super) rejected: usize,
    pub(super) residual_m3: f64,
    pub(super) moved_m3: f64,
    pub(super) warnings: Vec<StrokeWarning>,
}

/// What a run met that its equations do not describe.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum StrokeWarning {
    /// A node's pressure fell below the vacuum. Fluid tears or a cup lets air in long before.
    BelowVacuum {
        /// Where.
        node: NodeId,
        /// The lowest absolute pressure computed, below zero.
        lowest: Pressure,
    },
    /// A node's pressure rose above 200 bar, where constant compliances are far from what they were measured at.
    ///
    /// ASSUMPTION: 200 bar is the most that a pedal makes in a sound brake.
    AbovePedal {
        /// Where.
        node: NodeId,
        /// The highest gauge pressure computed.
        highest: Pressure,
    },
}

/// The highest gauge pressure without a warning.
pub(super) const MOST_GAUGE_PA: f64 = 2e7;

impl Trace {
    /// The state at a time that was asked for, at the start or at the end.
    pub fn at(&self, time: Time) -> Option<&StrokeSample> {
        let time_s = time.get::<second>();
        self.samples
            .binary_search_by(|sample| sample.time_s.total_cmp(&time_s))
            .ok()
            .map(|at| &self.samples[at])
    }

    /// All states, in the order of their times.
    pub fn samples(&self) -> &[StrokeSample] {
        &self.samples
    }

    /// The state at the end.
    pub fn end(&self) -> &StrokeSample {
        self.samples
            .last()
            .expect("a run begins with a sample of its start")
    }

    /// Where the next run begins.
    pub fn end_state(&self) -> &StrokeState {
        &self.end_state
    }

    /// How many steps were accepted.
    pub fn steps(&self) -> usize {
        self.steps
    }

    /// How many steps were made again with a smaller size.
    pub fn rejected_steps(&self) -> usize {
        self.rejected
    }

    /// The largest volume by which a node's pressure and pocket, at any state asked for, differ from what came in and
    /// went out.
    pub fn balance_residual(&self) -> Volume {
        Volume::new::<cubic_meter>(self.residual_m3)
    }

    /// The same as a share of the largest volume that went through a branch or was pushed in by a piston.
    pub fn relative_balance_residual(&self) -> Ratio {
        Ratio::new::<ratio>(if self.moved_m3 > 0.0 {
            self.residual_m3 / self.moved_m3
        } else {
            0.0
        })
    }

    /// What the equations do not describe, node by node.
    pub fn warnings(&self) -> &[StrokeWarning] {
        &self.warnings
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
    pub(super) flows_m3_per_s: Vec<f64>,
    /// Per piston, since the start of the run.
    pub(super) displaced_m3: Vec<f64>,
}

impl StrokeSample {
    /// The time since the start of the run.
    pub fn time(&self) -> Time {
        Time::new::<second>(self.time_s)
    }

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

    /// What a piston pushed in since the start of the run.
    pub fn displaced(&self, piston: PistonId) -> Result<Volume, StrokeError> {
        let PistonId(index) = piston;
        self.displaced_m3
            .get(index)
            .map(|&volume_m3| Volume::new::<cubic_meter>(volume_m3))
            .ok_or(StrokeError::Unknown {
                what: "piston",
                index,
            })
    }

    /// The flow through a branch, from its first node to its second.
    pub fn flow(&self, branch: BranchId) -> Result<VolumeRate, StrokeError> {
        let BranchId(index) = branch;
        self.flows_m3_per_s
            .get(index)
            .map(|&flow| VolumeRate::new::<cubic_meter_per_second>(flow))
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
