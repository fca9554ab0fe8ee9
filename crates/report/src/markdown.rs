//! A plan as Markdown, for a wiki, an issue or a note book. Ticks are task-list items; whatever a name carries is shown
//! as it stands and means nothing to the reader of the format.

mod escape;

use crate::card::{Card, CardStep, KEPT, SIGNED, blanks};
use crate::words::listed;
use bleedwright_planner::Plan;
use escape::escaped;
use std::fmt::Display;

/// Writes the plan as `CommonMark` with the task lists of the GitHub flavour.
pub fn plan_markdown(plan: &Plan) -> String {
    let card = Card::new(plan);
    let mut blocks = vec![format!("# Bleed plan: {}", escaped(&card.vehicle))];
    let date = card.date.as_deref().unwrap_or("not stated");
    let registration = card.registration.as_deref().unwrap_or("not stated");
    let [registration, date] = [registration, date].map(escaped);
    blocks.push(format!("Registration: {registration}. Date: {date}"));
    blocks.push(escaped(&card.facts));
    blocks.extend(card.notes.as_deref().map(escaped));
    if let Some(danger) = &card.danger {
        blocks.push(format!("**{}**", escaped(danger)));
    }
    for warning in &card.warnings {
        blocks.push(format!("**Warning:** {}", escaped(warning)));
    }
    blocks.push("## Before".to_owned());
    blocks.push(list("- [ ] ", &card.before));
    blocks.push("## Steps".to_owned());
    blocks.push(escaped(&card.rhythm));
    blocks.push(listed(&card.steps, "\n", step));
    blocks.push("## If".to_owned());
    blocks.push(list("- ", &card.otherwise));
    blocks.extend(card.order.iter().map(escaped));
    blocks.push(format!("**Buy:** {}", escaped(&card.buy)));
    blocks.push("## After".to_owned());
    blocks.push(list("- [ ] ", &card.after));
    if let Some(second) = &card.second {
        blocks.push("## Second bleed, after the routine".to_owned());
        blocks.push(escaped(&second.how));
        blocks.push(listed(&second.steps, "\n", step));
        blocks.push(escaped(
            "Second bleed done by ____________ checked by ____________",
        ));
        blocks.push("## After the second bleed".to_owned());
        blocks.push(list("- [ ] ", &second.after));
    }
    blocks.push("## Record".to_owned());
    let rows = KEPT.into_iter().chain([SIGNED]);
    let rows: Vec<String> = rows.map(blanks).collect();
    blocks.push(list("- ", &rows));
    blocks.push("## Cautions".to_owned());
    blocks.push(list("- ", &card.cautions));
    blocks.push("## Assumed".to_owned());
    blocks.push(list("- ", &card.assumed));
    blocks.extend(card.certainty.iter().map(escaped));
    blocks.retain(|block| !block.is_empty());
    blocks.join("\n\n") + "\n"
}

fn list(mark: &str, texts: &[impl Display]) -> String {
    listed(texts, "\n", |text| format!("{mark}{}", escaped(text)))
}

/// A step with its sentences as a list below it. The number stands in the text: a list of numbers has no ticks.
fn step(step: &CardStep) -> String {
    let mut head = format!("{}; {}", step.work, step.marks);
    if !step.tools.is_empty() {
        head += &format!("; {}", step.tools);
    }
    let head = format!(
        "- [ ] **{}: {}**: {}",
        step.number,
        escaped(step.screws.join(" + ")),
        escaped(&head)
    );
    let details = step.details();
    let details = details
        .iter()
        .map(|detail| format!("  - {}", escaped(detail.whole())));
    let lines: Vec<String> = std::iter::once(head).chain(details).collect();
    lines.join("\n")
}
