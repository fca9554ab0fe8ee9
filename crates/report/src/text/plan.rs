//! The plan on a sheet.

use super::paper::Paper;
use super::step::write_step;
use crate::card::{Card, KEPT, SIGNED, blanks};
use crate::said::Said;
use bleedwright_planner::Plan;

/// Writes the plan for a sheet of `paper`'s width.
///
/// ```
/// use bleedwright_network::load;
/// use bleedwright_planner::{Options, plan};
/// use bleedwright_report::{Paper, plan_text};
///
/// let text = std::fs::read("../../layouts/plover.ron").expect("the layout is there");
/// let loaded = load(&text);
/// let network = loaded.sound_network().expect("it has no error");
/// let plan = plan(network, &Options::default()).plan.expect("nothing is in its way");
/// let sheet = plan_text(&plan, Paper::new(80, false));
/// assert!(sheet.contains("1 [ ] REAR RIGHT: push "));
/// ```
pub fn plan_text(plan: &Plan, mut paper: Paper) -> String {
    let card = Card::new(plan);
    let date = card.date.as_deref().unwrap_or("____________");
    paper.apart(
        &format!("BLEED PLAN: {}", card.vehicle),
        &format!("Date {date}"),
    );
    let registration = card.registration.as_deref().unwrap_or("____________");
    paper.paragraph(&format!("Registration {registration}"));
    paper.paragraph(&card.facts);
    if let Some(notes) = &card.notes {
        paper.paragraph(notes);
    }
    if let Some(danger) = &card.danger {
        paper.danger(&danger.to_string());
    }
    for warning in &card.warnings {
        paper.warning(&format!("! {warning}"));
    }
    paper.heading("BEFORE");
    paper.tick_list(card.before.iter().map(Said::to_string));
    paper.heading("STEPS");
    paper.paragraph(&card.rhythm);
    let digits = card.all_steps().count().to_string().len();
    for step in &card.steps {
        write_step(step, digits, &mut paper);
    }
    paper.heading("IF");
    for text in &card.otherwise {
        paper.item("- ", text);
    }
    for text in &card.order {
        paper.paragraph(text);
    }
    paper.strong_start("BUY ", &card.buy);
    paper.heading("AFTER");
    paper.tick_list(card.after.iter().map(Said::to_string));
    if let Some(second) = &card.second {
        paper.heading("SECOND BLEED, after the routine");
        paper.paragraph(&second.how);
        for step in &second.steps {
            write_step(step, digits, &mut paper);
        }
        paper.paragraph("Second bleed done by ____________ checked by ____________");
        paper.heading("AFTER THE SECOND BLEED");
        paper.tick_list(second.after.iter().map(Said::to_string));
    }
    paper.heading("RECORD");
    for names in KEPT.into_iter().chain([SIGNED]) {
        paper.item("  ", &blanks(names));
    }
    paper.strong_start("CAUTION: ", &Said::paragraph(&card.cautions));
    paper.strong_start("ASSUMED: ", &Said::paragraph(&card.rests_on()));
    paper.into_text()
}
