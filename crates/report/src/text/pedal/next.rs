//! The words of what to do next.

use bleedwright_pedal::NextStep;

/// What to do next, and what bars the road until then.
pub(crate) fn next_text(next: NextStep) -> &'static str {
    match next {
        NextStep::Measure => {
            "Measure the travel of a first push and after pumping, and give both with --measured and --pumped."
        }
        NextStep::FirstCause => {
            "Look for the first cause of the list, then the next. Whatever is mended: bleed, press hard and hold, measure again. Not driven while the pedal is wrong."
        }
        NextStep::CheckReadings => {
            "Measure once more, and hold layout and vehicle side by side. Not driven on these readings."
        }
        NextStep::BleedAndLook => {
            "Find the leak or the open circuit, bleed both circuits, measure again. Not driven before."
        }
        NextStep::BleedAgain => {
            "Bleed once more, by `bleedwright plan LAYOUT --for air`; where it stays springy, the trials in their order. Not driven before the pedal is firm."
        }
        NextStep::MeasureCloser => {
            "Measure at a second force and to the millimetre, hold lightly and hard: what springs or sinks is not finished, whatever the figure."
        }
    }
}
