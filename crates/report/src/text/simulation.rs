//! A simulated bleed as a table.

use super::paper::Paper;
use crate::number::{duration, ml, ml_within, two_figures};
use bleedwright_network::Bounds;
use bleedwright_planner::Plan;
use bleedwright_simulation::{NotFollowed, Outcome, StepOutcome};
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::ratio::percent;

/// Places with air that are named one by one.
const MOST_PLACES: usize = 8;

/// Writes a simulated bleed for a sheet of `paper`'s width.
pub fn simulation_text(plan: &Plan, outcome: &Outcome, mut paper: Paper) -> String {
    paper.heading(&format!("SIMULATED BLEED: {}", plan.head.vehicle));
    paper.paragraph(&format!(
        "{} method, at nominal sizes; {} ml in the circuits, {} ml of it air at the start.",
        capitalised(plan.head.method.word()),
        ml(outcome.contents),
        ml(outcome.air_at_start)
    ));
    if !plan.gravity_first.is_empty() {
        let text = if outcome.air_by_gravity > Volume::default() {
            format!(
                "by gravity first, as the plan says: {} ml of air out, each screw open until it \
                 drips",
                ml(outcome.air_by_gravity)
            )
        } else {
            "filling by gravity first, as the plan asks, is left out".to_owned()
        };
        paper.item(" 0  ", &text);
    }
    for step in &outcome.steps {
        write_step(step, &mut paper);
    }
    let mut end = format!(
        "{} ml of air left ({} % of the contents), {} mm of pedal travel to squeeze it",
        ml(outcome.air_left),
        two_figures(outcome.air_left_fraction().get::<percent>()),
        two_figures(outcome.air_travel.get::<millimeter>())
    );
    if let (Some(old), Some(share)) = (outcome.old_left, outcome.old_left_fraction) {
        end.push_str(&format!(
            "; {} ml of old fluid left ({} %)",
            ml(old),
            two_figures(share.get::<percent>())
        ));
    }
    end.push_str(&format!(
        "; {} without the walks.",
        duration(Bounds::exact(outcome.time))
    ));
    paper.strong_start("AT THE END ", &end);
    if !outcome.not_followed.is_empty() {
        paper.warning(&not_followed_text(&outcome.not_followed));
    }
    if !outcome.air_left_in.is_empty() {
        let places: Vec<String> = outcome
            .air_left_in
            .iter()
            .take(MOST_PLACES)
            .map(|left| format!("`{}` {} ml", left.element, ml(left.volume)))
            .collect();
        let more = outcome.air_left_in.len().saturating_sub(MOST_PLACES);
        let more = match more {
            0 => String::new(),
            more => format!(" and {more} places more"),
        };
        paper.paragraph(&format!("Air in {}{more}.", places.join(", ")));
    }
    for warning in &outcome.warnings {
        paper.warning(&format!("! {warning}"));
    }
    paper.paragraph(
        "A check on the plan, not on the vehicle: volumes are followed, pressures in time are \
         not to be trusted (the fluid has no inertia here), and nobody has measured such a bleed.",
    );
    paper.into_text()
}

/// What none of the figures counts: without it, no air left would be read as
/// none on the vehicle.
pub(super) fn not_followed_text(not_followed: &[NotFollowed]) -> String {
    let places: Vec<String> = not_followed
        .iter()
        .map(|left| format!("`{}` {} of {}", left.part, ml_within(left.volume), left.why))
        .collect();
    format!("! NOT FOLLOWED, in no figure here: {}.", places.join("; "))
}

fn write_step(step: &StepOutcome, paper: &mut Paper) {
    let work = match step.strokes {
        Some(strokes) => format!("{strokes} strokes, "),
        None => String::new(),
    };
    let air = if step.air_out.value > 0.0 {
        format!(
            ", {} ml of it air, the last after {} ml",
            ml(step.air_out),
            ml(step.clear_after)
        )
    } else {
        String::new()
    };
    let old = match step.old_left {
        Some(old) => format!(", {} ml old fluid", ml(old)),
        None => String::new(),
    };
    paper.item(
        &format!("{:>2}  ", step.number),
        &format!(
            "{}: {work}{} ml out{air}; left {} ml air{old}; {}",
            step.screws.join(" + "),
            ml(step.out),
            ml(step.air_left),
            duration(Bounds::exact(step.time))
        ),
    );
}

fn capitalised(word: &str) -> String {
    let mut letters = word.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
