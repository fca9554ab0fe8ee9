//! What to do next, as JSON.

use crate::text::next_text;
use bleedwright_pedal::NextStep;
use schemars::JsonSchema;
use serde::Serialize;

/// What to do next.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NextJson {
    /// `measure`, `first_cause`, `check_readings`, `bleed_and_look`, `bleed_again` or `measure_closer`.
    pub kind: &'static str,
    /// In words.
    pub text: String,
}

impl NextJson {
    pub(super) fn new(next: NextStep) -> Self {
        Self {
            kind: match next {
                NextStep::Measure => "measure",
                NextStep::FirstCause => "first_cause",
                NextStep::CheckReadings => "check_readings",
                NextStep::BleedAndLook => "bleed_and_look",
                NextStep::BleedAgain => "bleed_again",
                NextStep::MeasureCloser => "measure_closer",
            },
            text: next_text(next).to_owned(),
        }
    }
}
