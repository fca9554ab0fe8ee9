//! What a step came to, and when it is finished.

use bleedwright_planner::{Progress, StopRule};
use uom::si::f64::{Time, Volume};
use uom::si::volume::milliliter;

/// A step is given up after this many times its high count of strokes, however
/// little came out.
///
/// ASSUMPTION: four; the sheet says when to give up by what came out alone.
pub(crate) const MOST_TIMES: u64 = 4;

/// What one screw's part of a step came to.
#[derive(Default)]
pub(crate) struct Done {
    /// The strokes made, where strokes drive the fluid.
    pub(crate) strokes: Option<u64>,
    pub(crate) out_ml: f64,
    pub(crate) air_ml: f64,
    /// What came out and was sucked in again.
    pub(crate) back_ml: f64,
    pub(crate) clear_after_ml: f64,
    pub(crate) time: Time,
}

impl Done {
    /// Whether the step is finished, or given up, after so many clear strokes.
    /// What came out as air counts: a person who looks at the jar alone pushes
    /// more.
    pub(crate) fn is_enough(&self, rule: &StopRule, clear: u64) -> bool {
        let out = Volume::new::<milliliter>(self.out_ml);
        let is_clear = match rule.clear {
            Progress::Strokes(wanted) => clear >= wanted,
            Progress::Volume(_) => true,
        };
        (out >= rule.at_least && is_clear) || out >= rule.give_up
    }
}
