//! The words of what else there is to know at a step.

use super::height::height_note;
use bleedwright_planner::{Method, Step, StepNote};
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// All of it, in the order in which it is said.
pub(crate) fn notes(step: &Step, method: Method) -> Vec<String> {
    let notes = step.notes.iter().map(note_text);
    let heights = step.heights.iter();
    notes
        .chain(heights.filter_map(|height| height_note(height, method)))
        .collect()
}

fn note_text(note: &StepNote) -> String {
    let fixed = match note {
        StepNote::BlockTo(travel) => {
            return format!("block to {:.0} mm", travel.get::<millimeter>());
        }
        StepNote::Unbolted(kept) => {
            return format!(
                "UNBOLTED, SPACER IN, TILTED before anybody presses, or about {:.1} ml of air stay above the screw",
                kept.get::<milliliter>()
            );
        }
        StepNote::OtherChamber(part) => {
            return format!(
                "`{part}` has a chamber on the other circuit too: its screw may be bled at the \
                 same visit"
            );
        }
        StepNote::OpenBoth => "open both screws together: one circuit alone tilts the balance bar",
        StepNote::SecondVisit => "second visit to this screw",
        StepNote::ShutTakesUp => {
            "the shut circuit may take up nearly all of a stroke: go by the jar and by clear \
             fluid, more strokes are normal"
        }
        StepNote::BarTilts => {
            "this circuit alone tilts the balance bar: block where the step says, short \
             strokes, stop if the bar jams"
        }
        StepNote::AirElsewhere => {
            "air elsewhere in this circuit takes up strokes: go by the jar and by \
             clear fluid, more strokes are normal"
        }
        StepNote::AirInPrimary { or_by_gravity } => {
            let or = if *or_by_gravity {
                ", or let this one run by gravity"
            } else {
                ""
            };
            return format!(
                "while the primary circuit holds air this screw gets short strokes or none: bleed the primary first{or}"
            );
        }
    };
    fixed.to_owned()
}
