//! The words of what else there is to know at a step.

use super::height::{height_does, height_note};
use crate::said::{Said, bare, figure, name, say};
use bleedwright_planner::{Method, Plan, Step, StepNote};
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::volume::milliliter;

/// What changes what hands do at a step, a line each.
pub(super) fn hands(step: &Step, plan: &Plan) -> Vec<Said> {
    let mut hands = Vec::new();
    let emptied = step.jars.iter().filter(|jar| jar.is_emptied);
    hands.extend(emptied.map(|jar| {
        let of = jar
            .circuit
            .as_deref()
            .map(|circuit| say!(" of {}", bare(circuit)));
        say!("EMPTY THE JAR{} first, zero anew", of.unwrap_or_default())
    }));
    hands.extend(step.notes.iter().filter_map(note_does));
    let method = plan.head.method;
    hands.extend(step.heights.iter().filter_map(|it| height_does(it, method)));
    hands.extend(step.draw_back.map(|back| {
        let ml = figure(format_args!("{:.0} ml", back.get::<milliliter>()));
        say!("then draw {} back", ml)
    }));
    // The step before says it for those that follow it.
    let before = plan.all_steps().find(|it| it.number + 1 == step.number);
    let said = before.and_then(|it| new_since(it, plan));
    let new_since = new_since(step, plan).filter(|number| said != Some(*number));
    hands.extend(new_since.map(|number| {
        say!(
            "few ml: most of its pipe was renewed in step {}",
            figure(number)
        )
    }));
    hands
}

/// The step that renewed most of this one's way before it, where that is why it takes so little.
fn new_since(step: &Step, plan: &Plan) -> Option<usize> {
    let [screw] = step.screws.as_slice() else {
        return None;
    };
    let contents = &screw.contents;
    if contents.shared.nominal <= contents.own.nominal + contents.cavities.nominal {
        return None;
    }
    let before = plan.all_steps().take_while(|it| it.number < step.number);
    let is_more = |push: Volume| push > screw.push.nominal * 2.0;
    let swept = before.filter(|it| {
        let mut others = it.screws.iter();
        others.any(|other| other.circuit_id == screw.circuit_id && is_more(other.push.nominal))
    });
    swept.last().map(|it| it.number)
}

/// All of it in full.
pub(super) fn notes(step: &Step, method: Method) -> Vec<Said> {
    let told = told_notes(step, method).into_iter();
    told.map(|(_, said)| said).collect()
}

/// In so few words that they stand at the step.
fn note_does(note: &StepNote) -> Option<Said> {
    Some(match note {
        StepNote::BlockTo(travel) => {
            let mm = travel.get::<millimeter>();
            say!("BLOCK MOVED to {}", figure(format_args!("{mm:.0} mm")))
        }
        StepNote::Unbolted(_) => say!("UNBOLTED, SPACER IN, TILTED before anybody presses"),
        // The one is no must, and the other stands in its heading.
        StepNote::OtherChamber(_) | StepNote::OpenBoth => return None,
        StepNote::SecondVisit => say!("second visit"),
        StepNote::ShutTakesUp | StepNote::AirElsewhere => {
            say!("go by the jar: more strokes are normal")
        }
        StepNote::BarTilts => say!("short strokes, stop if the bar jams"),
        StepNote::AirInPrimary { or_by_gravity } => say!(
            "short strokes or none: the primary first{}",
            if *or_by_gravity {
                ", or this one by gravity"
            } else {
                ""
            }
        ),
    })
}

/// All of it in full, each with the name of its fact, in the order in which it is said.
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
