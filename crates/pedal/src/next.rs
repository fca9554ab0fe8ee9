//! What to do next, from what is known of a pedal.

use crate::estimate::Estimate;
use uom::si::f64::Volume;

/// The one thing to do after reading the answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextStep {
    /// Measure travels and compare them with the computed ones.
    Measure,
    /// Look for what is wrong by the first of the causes.
    FirstCause,
    /// No amount of air fits: the readings or the layout are wrong.
    CheckReadings,
    /// A piston is at its end: bleed, and look for a leak and an open circuit.
    BleedAndLook,
    /// There is air: bleed, then look where it stays.
    BleedAgain,
    /// No air would explain the readings too: a tighter look, which is no proof of none.
    MeasureCloser,
}

impl NextStep {
    pub(crate) fn after(estimate: Option<&Estimate>, has_causes: bool) -> Self {
        match estimate {
            Some(estimate) if estimate.is_contradiction => Self::CheckReadings,
            Some(estimate) if estimate.is_at_end => Self::BleedAndLook,
            Some(estimate) if estimate.air.low > Volume::default() => Self::BleedAgain,
            _ if has_causes => Self::FirstCause,
            Some(_) => Self::MeasureCloser,
            None => Self::Measure,
        }
    }
}
