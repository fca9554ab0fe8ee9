//! What a simulated bleed came to.

use bleedwright_network::Bounds;
use bleedwright_planner::Kept;
use uom::si::f64::{Length, Ratio, Time, Volume};

/// A simulated bleed.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The steps, as the plan has them.
    pub steps: Vec<StepOutcome>,
    /// What the circuits hold, chambers included.
    pub contents: Volume,
    /// Air in them at the start.
    pub air_at_start: Volume,
    /// The joints that were opened; air was put into the line at each.
    pub pockets: Vec<Pocket>,
    /// How far it reached into each line.
    pub pocket: Length,
    /// Air that left by gravity before the first step, where the plan says so.
    pub air_by_gravity: Volume,
    /// Air left at the end, without pressure.
    pub air_left: Volume,
    /// Where it is, most first.
    pub air_left_in: Vec<AirLeft>,
    /// What the circuits of this vehicle hold beyond all that is followed, in no other figure.
    pub not_followed: Vec<NotFollowed>,
    /// Old fluid left at the end; none when the system was not full of it.
    pub old_left: Option<Volume>,
    /// How much of the contents is old at the end.
    pub old_left_fraction: Option<Ratio>,
    /// Pedal or lever travel that squeezing the air takes at the end, of the circuit with most.
    pub air_travel: Length,
    /// Whether a piston meets the end of its stroke before that: the pedal goes to the floor.
    pub is_to_the_end: bool,
    /// How long it took, walks between the wheels not counted.
    pub time: Time,
    /// Air in the system after every stroke, or after every part of a steady flow.
    pub curve: Vec<CurvePoint>,
    /// What went in, less what came out and what is more inside: rounding, nothing else.
    pub balance_residual: Volume,
    /// Circuits with a loop, along which only the shorter way is followed.
    pub looped: Vec<String>,
}

impl Outcome {
    /// Whether air may be left beside what is followed, so that
    /// [`Self::air_left`] is the least.
    pub fn is_air_left_the_least(&self) -> bool {
        self.not_followed.iter().any(|left| left.may_be_air)
    }

    /// Air left as a share of the contents.
    pub fn air_left_fraction(&self) -> Ratio {
        if self.contents > Volume::default() {
            self.air_left / self.contents
        } else {
            Ratio::default()
        }
    }
}

/// What one step of the plan came to.
#[derive(Clone, Debug, PartialEq)]
pub struct StepOutcome {
    /// As in the plan.
    pub number: usize,
    /// Its screws.
    pub screws: Vec<String>,
    /// Strokes made; none for a steady flow.
    pub strokes: Option<u64>,
    /// What came out at the screws, or went in there by the reverse method.
    pub out: Volume,
    /// What had come out besides and was sucked in again, where the screw stays open.
    pub sucked_back: Volume,
    /// How much of that was air, without pressure.
    pub air_out: Volume,
    /// The stroke or part after which no more air came, counted in what had come out by then.
    pub clear_after: Volume,
    /// Air in all circuits after the step.
    pub air_left: Volume,
    /// Old fluid in all circuits after the step.
    pub old_left: Option<Volume>,
    /// Travel at the pedal or lever that squeezing the air of the step's circuits takes.
    pub air_travel: Length,
    /// How long it took.
    pub time: Time,
}

/// Air that is left in one element.
#[derive(Clone, Debug, PartialEq)]
pub struct AirLeft {
    /// A part, a line or a chamber.
    pub element: String,
    /// How much, without pressure.
    pub volume: Volume,
}

/// Air or old fluid in a place that is not followed.
#[derive(Clone, Debug, PartialEq)]
pub struct NotFollowed {
    /// A part, or a chamber of one.
    pub part: String,
    /// How much, as the layout has it.
    pub volume: Bounds<Volume>,
    /// Whether it may be air.
    pub may_be_air: bool,
    /// What it is, and why it is not followed.
    pub why: WhyNotFollowed,
}

/// Why something is not followed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhyNotFollowed {
    /// It is behind the valves of an anti-lock unit.
    BehindValves(Kept),
    /// It is above this screw, which is not the top of its cavity; the plan has
    /// the brake tilted.
    AboveScrew(String),
    /// It may be above this screw, of which the layout does not say whether it
    /// is the top of its cavity.
    PerhapsAboveScrew(String),
    /// It gathers at a high point of a run.
    HighPoint,
}

/// The air that a joint was opened to.
#[derive(Clone, Debug, PartialEq)]
pub struct Pocket {
    /// The line.
    pub line: String,
    /// What this end of it is at.
    pub at: String,
}

/// A point of the curve of air against strokes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// The step.
    pub step: usize,
    /// Strokes since the beginning; parts of steady flows count too.
    pub strokes: u64,
    /// What came out since the beginning.
    pub out: Volume,
    /// Air in all circuits.
    pub air: Volume,
}
