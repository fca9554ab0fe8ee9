//! The steps of a plan.

use super::{JarMark, StepHeight, StepNote, WhyAfter, WhyHere};
use bleedwright_network::{Bounds, CircuitId, ScrewId, Wheel};
use uom::si::f64::{Length, Pressure, Ratio, Time, Volume, VolumeRate};

/// One visit: a screw, or a front and a rear one opened together.
#[derive(Clone, Debug)]
pub struct Step {
    /// Counted from one.
    pub number: usize,
    /// The screws opened; two for a balance bar.
    pub screws: Vec<StepScrew>,
    /// What goes into the jars in this step: the sum of the screws' amounts.
    pub push: Bounds<Volume>,
    /// What drives the fluid.
    pub drive: Drive,
    /// By the reverse method what is drawn back at the end, with the air that
    /// stayed at the top of the brake.
    pub draw_back: Option<Volume>,
    /// How long the step takes, without the walk from wheel to wheel.
    pub time: Bounds<Time>,
    /// How often to see to each compartment of the reservoir that needs it.
    pub level_rules: Vec<LevelRule>,
    /// The same as a list, up to the amount at which the step is given up.
    pub level_stops: Vec<LevelStop>,
    /// When the step is finished.
    pub stop_rule: StopRule,
    /// The jar of each screw.
    pub jars: Vec<JarMark>,
    /// What all jars hold after this step, in whole millilitres: the sum of their marks.
    pub jar_mark_ml: u64,
    /// Why this screw stands here.
    pub why_here: Option<WhyHere>,
    /// Why it comes after the step before; none for the first.
    pub after_previous: Option<WhyAfter>,
    /// What heights mean here.
    pub heights: Vec<StepHeight>,
    /// Anything else worth saying at this wheel.
    pub notes: Vec<StepNote>,
}

impl Step {
    /// The names of its screws.
    pub fn screw_names(&self) -> impl Iterator<Item = String> + '_ {
        self.screws.iter().map(|screw| screw.screw.clone())
    }

    /// The strokes, where strokes drive the fluid.
    pub fn strokes(&self) -> Option<Strokes> {
        match self.drive {
            Drive::Strokes { strokes, .. } => Some(strokes),
            Drive::Steady { .. } => None,
        }
    }

    /// How long the pedal is held before the screw is shut, where one is used.
    pub fn hold(&self) -> Option<Time> {
        match self.drive {
            Drive::Strokes { hold, .. } => Some(hold),
            Drive::Steady { .. } => None,
        }
    }

    /// What stops the pedal or lever, where one is used.
    pub fn block(&self) -> Option<Block> {
        match self.drive {
            Drive::Strokes { block, .. } => Some(block),
            Drive::Steady { .. } => None,
        }
    }

    /// The travel at which the pedal or lever stops, where the plan knows one.
    pub fn pedal_travel(&self) -> Option<Length> {
        match self.block()? {
            Block::At(travel) => Some(travel),
            Block::FirmPedal => None,
        }
    }
}

/// One screw of a step.
#[derive(Clone, Debug)]
pub struct StepScrew {
    /// The screw.
    pub id: ScrewId,
    /// Its name.
    pub screw: String,
    /// The part it sits on.
    pub part: String,
    /// The wheel.
    pub wheel: Option<Wheel>,
    /// The circuit.
    pub circuit_id: CircuitId,
    /// The circuit's name.
    pub circuit: String,
    /// Length of its run.
    pub run_length: Bounds<Length>,
    /// What is pushed through it.
    pub push: Bounds<Volume>,
    /// How far the piston of its circuit goes in one stroke, where strokes
    /// drive the fluid.
    pub piston_travel: Option<Bounds<Length>>,
    /// What plug flow would need: a comparison, not a bound.
    pub plug: Volume,
    /// What must be pushed whatever came before, because a joint on its run was
    /// opened; none where none was, or where an earlier step pushed all of it.
    /// No bound of [`Self::push`] is below it.
    pub at_least: Option<AtLeast>,
    /// What its run holds.
    pub contents: RunContents,
    /// Old share of what leaves at the end; none when nothing old is left to
    /// renew (an empty system).
    pub old_fraction_out: Option<Ratio>,
    /// Old share of what stays on its run, chamber and brake included; the
    /// upper bound is without diffusion and with dead corners in the brake.
    pub old_left: Option<Bounds<Ratio>>,
    /// Which rule for the joints decided the push; none without renewal.
    pub joints: Option<JointRule>,
    /// Spanner size as the layout writes it.
    pub spanner: Option<String>,
    /// Torque as the layout writes it.
    pub torque: Option<String>,
}

/// The least that a screw takes because a joint was opened.
#[derive(Clone, Debug, PartialEq)]
pub struct AtLeast {
    /// The contents, at the upper corner of the tolerances, of the way that the
    /// air at the joint has to go.
    pub volume: Volume,
    /// The joint that asks for it.
    pub joint: OpenedJoint,
    /// Where the way begins.
    pub from: LeastFrom,
}

/// The end of a line where the system was opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenedJoint {
    /// The part, line or cylinder that was opened.
    pub opened: String,
    /// The line.
    pub line: String,
    /// The part, with its port where one is named, that this end of the line is
    /// at.
    pub at: String,
}

/// Where the way of an opened joint's air begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeastFrom {
    /// At the joint.
    Joint,
    /// At the high point on the cylinder's side that air climbs to; the name of
    /// the part or of the line.
    HighPoint(String),
    /// Where an earlier step of the plan had pushed to.
    Swept,
    /// At the screw: by the reverse method the air goes up to the reservoir.
    Screw,
}

/// How often a compartment is rinsed before renewal.
#[derive(Clone, Debug, PartialEq)]
pub struct Rinsing {
    /// The compartment.
    pub compartment: String,
    /// How often.
    pub rinses: u32,
    /// The numbers that keep the wanted old share and were weighed, each with what it takes; empty in a large system, where
    /// none were.
    pub choices: Vec<RinseChoice>,
}

/// What one number of rinses of a compartment takes altogether.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinseChoice {
    /// How often the compartment is rinsed.
    pub rinses: u32,
    /// New fluid poured in at most: rinses, filling, and what its screws take.
    pub takes: Volume,
}

/// What is assumed of the joints that earlier screws pushed through: the rule
/// that asks for more decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JointRule {
    /// Streamlines are kept.
    Kept,
    /// The flow is mixed across the bore.
    Mixed,
}

/// The fluid on a run, whatever was flushed before.
#[derive(Clone, Copy, Debug)]
pub struct RunContents {
    /// Pipes and passages that other screws use too.
    pub shared: Bounds<Volume>,
    /// Pipes and passages of this screw alone.
    pub own: Bounds<Volume>,
    /// Brake cavities.
    pub cavities: Bounds<Volume>,
}

/// A number of strokes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Strokes {
    /// Least amount at the largest displacement.
    pub low: u64,
    /// The nominal amount at the nominal displacement: what it will most likely
    /// take.
    pub expected: u64,
    /// What to count to: the nominal amount at the least that the piston displaces, the shut circuit taking up what it
    /// nominally does.
    pub nominal: u64,
    /// Largest amount at the least that a stroke brings, at a twentieth of a full one where it may be less.
    pub high: u64,
}

/// What drives the fluid of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Drive {
    /// Strokes of a pedal or lever.
    Strokes {
        /// How many.
        strokes: Strokes,
        /// Where the pedal or lever stops.
        block: Block,
        /// What one of them brings through the open screws; the low bound is a least amount.
        brought: Bounds<Volume>,
        /// What the circuit that stays shut takes up of each.
        taken_up: Bounds<Volume>,
        /// How long the pedal is held before the screw is shut, the same in every step.
        hold: Time,
    },
    /// A pressure difference that lasts while the screw is open.
    Steady {
        /// The difference, heights included.
        pressure: Bounds<Pressure>,
        /// What flows; of two screws the slower one.
        flow: Bounds<VolumeRate>,
        /// The largest Reynolds number on the run, at the largest flow.
        reynolds: f64,
    },
}

/// What stops a pedal or lever before an old cylinder runs to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Block {
    /// A block after this travel, in whole millimetres. No piston goes beyond
    /// the share of its stroke that was asked for, at any corner of the
    /// tolerances.
    At(Length),
    /// Too little is known for a travel that is safe and still moves fluid: the
    /// block stands where the pedal was firm before the work. Strokes are
    /// counted as if the pistons went the share that was asked for.
    FirmPedal,
}

/// How often one compartment of the reservoir is seen to in a step.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelRule {
    /// The compartment.
    pub compartment: String,
    /// The circuit that draws from it in this step; none where two do.
    pub circuit: Option<CircuitId>,
    /// What is done.
    pub action: LevelAction,
    /// Whether it is done before the step begins.
    pub is_before_start: bool,
    /// How often from then on; none where the step ends before that.
    pub every: Option<Rhythm>,
}

/// How much may be done between two looks after the level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rhythm {
    /// So many strokes to the block.
    Strokes {
        /// With the block in its place.
        every: u64,
        /// With whole strokes; none where one of them is too much.
        without_block: Option<u64>,
    },
    /// So much fluid.
    Volume(Volume),
}

/// A stop for the level in a reservoir compartment.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelStop {
    /// The compartment.
    pub compartment: String,
    /// How much of this step may be done before it.
    pub after: Progress,
    /// What is done.
    pub action: LevelAction,
}

/// How much of a step is done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Progress {
    /// So many strokes; zero is before the first.
    Strokes(u64),
    /// So much fluid.
    Volume(Volume),
}

/// What a stop for the level is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelAction {
    /// New fluid is poured in.
    TopUp,
    /// Fluid that came back is drawn off.
    DrawOff,
}

/// When a screw is finished.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StopRule {
    /// At least this much in the jar: what the plan pushes, and never less than
    /// the screws' own least amounts together.
    pub at_least: Volume,
    /// And no bubble or dark fluid during the last of it.
    pub clear: Progress,
    /// Beyond this something is wrong: stop and look for the cause.
    pub give_up: Volume,
}
