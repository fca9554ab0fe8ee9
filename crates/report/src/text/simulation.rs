//! A simulated bleed as a table.

use super::paper::Paper;
use crate::number::{duration, ml, ml_within, two_figures};
use crate::words::{and_more, capitalised, listed};
use bleedwright_network::Bounds;
use bleedwright_planner::Kept;
use bleedwright_planner::Plan;
use bleedwright_simulation::{NotFollowed, Outcome, POCKET_RANGE_MM, StepOutcome, WhyNotFollowed};
use uom::si::f64::Volume;
use uom::si::length::millimeter;
use uom::si::ratio::percent;

/// Places with air that are named one by one.
const MOST_PLACES: usize = 8;

/// What the model cannot vouch for, where there are loops.
pub(crate) fn looped_text(outcome: &Outcome) -> Option<String> {
    let looped = outcome.looped.join(", ");
    (!looped.is_empty()).then(|| {
        format!("{looped} has a loop: fluid and air are followed along the shorter way only")
    })
}

/// Writes a simulated bleed for a sheet of `paper`'s width.
pub fn simulation_text(plan: &Plan, outcome: &Outcome, mut paper: Paper) -> String {
    paper.heading(&format!("SIMULATED BLEED: {}", plan.head.vehicle));
    paper.paragraph(&format!(
        "{} method, at nominal sizes; {} ml in the circuits, {} ml of it air at the start.",
        capitalised(plan.head.method.word()),
        ml(outcome.contents),
        ml(outcome.air_at_start)
    ));
    if !outcome.pockets.is_empty() {
        paper.paragraph(&pockets_text(outcome));
    }
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
        write_step(step, outcome.is_air_left_the_least(), &mut paper);
    }
    let is_least = outcome.is_air_left_the_least();
    let mut end = format!(
        "{}{} ml of air left ({} % of the contents{}), {}",
        if is_least { "at least " } else { "" },
        ml(outcome.air_left),
        two_figures(outcome.air_left_fraction().get::<percent>()),
        if is_least { "; see NOT FOLLOWED" } else { "" },
        if outcome.is_to_the_end {
            "pedal or lever to the end of its stroke before it is squeezed".to_owned()
        } else {
            let travel = two_figures(outcome.air_travel.get::<millimeter>());
            format!("{travel} mm of pedal travel to squeeze it")
        }
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
    if let Some(looped) = looped_text(outcome) {
        paper.warning(&format!("! {looped}"));
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
    let places = listed(not_followed, "; ", |left| {
        let why = why_not_followed(&left.why);
        format!("`{}` {} of {why}", left.part, ml_within(left.volume))
    });
    format!("! NOT FOLLOWED, in no figure here: {places}.")
}

/// What a place that is not followed holds, and why.
pub(crate) fn why_not_followed(why: &WhyNotFollowed) -> String {
    match why {
        WhyNotFollowed::BehindValves(Kept::OldFluid) => "old fluid behind its valves".to_owned(),
        WhyNotFollowed::BehindValves(Kept::MaybeAir) => {
            "air or old fluid behind its valves".to_owned()
        }
        WhyNotFollowed::BehindValves(Kept::Air) => "air behind its valves".to_owned(),
        WhyNotFollowed::AboveScrew(screw) => {
            format!("air above the screw `{screw}`, unless the brake is tilted")
        }
        WhyNotFollowed::PerhapsAboveScrew(screw) => format!(
            "air above the screw `{screw}`, unless it is the top of its cavity, which the layout \
             does not say"
        ),
        WhyNotFollowed::HighPoint => "air at its high point".to_owned(),
    }
}

/// The air that the opened joints start with, an assumption.
fn pockets_text(outcome: &Outcome) -> String {
    let joints: Vec<String> = (outcome.pockets.iter().take(MOST_PLACES))
        .map(|pocket| format!("`{}` at `{}`", pocket.line, pocket.at))
        .collect();
    let more = and_more(outcome.pockets.len(), MOST_PLACES);
    let [least, most] = POCKET_RANGE_MM;
    format!(
        "ASSUMED: air reaches {} mm ({least:.0}-{most:.0}) into each line at an opened joint: \
         {}{more}.",
        two_figures(outcome.pocket.get::<millimeter>()),
        joints.join(", ")
    )
}

fn write_step(step: &StepOutcome, is_least: bool, paper: &mut Paper) {
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
            "{}: {work}{}{air}; left {}{} ml air{old}; {}",
            step.screws.join(" + "),
            out_text(step),
            if is_least { "at least " } else { "" },
            ml(step.air_left),
            duration(Bounds::exact(step.time))
        ),
    );
}

/// What came out for good. What goes out of a hose that ends in fluid comes back where the screw stays open.
fn out_text(step: &StepOutcome) -> String {
    let out = match ml(step.out).as_str() {
        "0" if step.sucked_back.value > 0.0 => "next to nothing".to_owned(),
        out => format!("{out} ml"),
    };
    if step.sucked_back.value > 0.0 {
        format!(
            "{out} out for good, {} ml sucked back",
            ml(step.sucked_back)
        )
    } else {
        format!("{out} out")
    }
}
