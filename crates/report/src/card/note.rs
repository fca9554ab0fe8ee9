//! The words of what else there is to know at a step.

use super::height::height_note;
use crate::said::{Said, figure, name, say};
use bleedwright_planner::{Method, Step, StepNote};
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// All of it, in the order in which it is said.
pub(super) fn notes(step: &Step, method: Method) -> Vec<Said> {
    let told = told_notes(step, method).into_iter();
    told.map(|(_, said)| said).collect()
}

/// The same, each with the name of its fact.
pub(crate) fn told_notes(step: &Step, method: Method) -> Vec<(&'static str, Said)> {
    let notes = step.notes.iter().map(|it| (it.into(), note_text(it)));
    let heights = step.heights.iter();
    notes
        .chain(heights.filter_map(|it| Some((it.into(), height_note(it, method)?))))
        .collect()
}

fn note_text(note: &StepNote) -> Said {
    match note {
        StepNote::BlockTo(travel) => {
            let mm = travel.get::<millimeter>();
            say!("block to {} mm", figure(format_args!("{mm:.0}")))
        }
        StepNote::Unbolted(kept) => {
            let ml = kept.get::<milliliter>();
            say!(
                "UNBOLTED, SPACER IN, TILTED before anybody presses, or about {} ml of air stay above the screw",
                figure(format_args!("{ml:.1}"))
            )
        }
        StepNote::OtherChamber(part) => {
            say!(
                "{} has a chamber on the other circuit too: its screw may be bled at the same visit",
                name(part)
            )
        }
        StepNote::OpenBoth => {
            say!("open both screws together: one circuit alone tilts the balance bar")
        }
        StepNote::SecondVisit => say!("second visit to this screw"),
        StepNote::ShutTakesUp => say!(
            "the shut circuit may take up nearly all of a stroke: go by the jar and by clear \
             fluid, more strokes are normal"
        ),
        StepNote::BarTilts => say!(
            "this circuit alone tilts the balance bar: block where the step says, short \
             strokes, stop if the bar jams"
        ),
        StepNote::AirElsewhere => say!(
            "air elsewhere in this circuit takes up strokes: go by the jar and by \
             clear fluid, more strokes are normal"
        ),
        StepNote::AirInPrimary { or_by_gravity } => {
            let or = if *or_by_gravity {
                ", or let this one run by gravity"
            } else {
                ""
            };
            say!(
                "while the primary circuit holds air this screw gets short strokes or none: bleed the primary first{}",
                or
            )
        }
    }
}
