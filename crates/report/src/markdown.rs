//! A plan as Markdown, for a wiki, an issue or a note book. Ticks are task-list items; whatever a name carries is shown
//! as it stands and means nothing to the reader of the format.

mod escape;

use crate::card::{
    AFTER, AFTER_SECOND, BEFORE, Card, CardIf, CardStep, Heading, Instruction, KEPT, LOOK_FIRST,
    SECOND, SIGNED, Titles, blanks, headed,
};
use crate::said::{Said, figure, say};
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
    blocks.push(escaped(&card.job));
    blocks.extend(card.notes.as_deref().map(escaped));
    if let Some(danger) = &card.danger {
        blocks.push(format!("**{}**", escaped(danger)));
    }
    for warning in &card.warnings {
        blocks.push(format!("**Warning:** {}", escaped(warning)));
    }
    blocks.push(format!("**Ready:** {}", escaped(&card.ready)));
    blocks.push(section(LOOK_FIRST));
    blocks.push(lines("- [ ] ", &card.look));
    blocks.push(section(BEFORE));
    blocks.push(lines("- [ ] ", &card.before));
    blocks.push("## Steps".to_owned());
    blocks.push(list("- ", &card.each));
    blocks.push(table(&card.steps, card.titles));
    blocks.push(list("- ", &card.done));
    blocks.push("## If".to_owned());
    let otherwise: Vec<Said> = card.otherwise.iter().map(CardIf::whole).collect();
    blocks.push(list("- ", &otherwise));
    blocks.push(section(AFTER));
    blocks.push(lines("- [ ] ", &card.after));
    if let Some(second) = &card.second {
        blocks.push(section(SECOND));
        blocks.push(escaped(&second.how));
        blocks.push(table(&second.steps, card.titles));
        blocks.push(escaped(
            "Second bleed done by ____________ checked by ____________",
        ));
        blocks.push(section(AFTER_SECOND));
        blocks.push(lines("- [ ] ", &second.after));
    }
    blocks.push("## Record".to_owned());
    let rows = KEPT.into_iter().chain([SIGNED]);
    let rows: Vec<String> = rows.map(blanks).collect();
    blocks.push(list("- ", &rows));
    blocks.push("## Cautions".to_owned());
    blocks.push(lines("- ", &card.cautions));
    blocks.push("## Why".to_owned());
    blocks.push(escaped(&card.facts));
    let why: Vec<Said> = card.all_steps().map(CardStep::in_full).collect();
    blocks.push(list("- ", &why));
    blocks.extend(card.order.iter().map(escaped));
    blocks.push(format!("**Buy:** {}", escaped(&card.buy)));
    blocks.push("## Assumed".to_owned());
    blocks.push(list("- ", &card.assumed));
    blocks.extend(card.certainty.iter().map(escaped));
    blocks.retain(|block| !block.is_empty());
    blocks.join("\n\n") + "\n"
}

fn section(heading: Heading<'_>) -> String {
    format!("## {}", escaped(headed(heading)))
}

fn list(mark: &str, texts: &[impl Display]) -> String {
    listed(texts, "\n", |text| format!("{mark}{}", escaped(text)))
}

/// Lines to work by, each with all that is said of it.
fn lines(mark: &str, lines: &[Instruction]) -> String {
    listed(lines, "\n", |line| {
        format!("{mark}{}", escaped(line.whole()))
    })
}

/// The steps in columns, and below them what else changes what hands do.
fn table(steps: &[CardStep], titles: Titles) -> String {
    let titles = titles.map(|title| title.join(" "));
    let titles = titles.each_ref().map(|title| title.trim());
    let mut rows = vec![
        format!("| Step | {} | Tools | Out |", titles.join(" | ")),
        "|---|---|---|---|---|---|---|---|".to_owned(),
    ];
    for step in steps {
        for (nth, row) in step.rows.iter().enumerate() {
            let number = if nth == 0 {
                step.number.to_string()
            } else {
                String::new()
            };
            let screw = row.screw.as_deref().unwrap_or("together");
            let cells = row.cells.each_ref().map(escaped);
            let levels = listed(&row.levels, "; ", |(name, when)| {
                escaped(format!("{name} {}", when.plain()))
            });
            let tool = row.tool.as_ref().map(escaped).unwrap_or_default();
            rows.push(format!(
                "| **{number} {}** | {} | {levels} | {tool} | |",
                escaped(screw),
                cells.join(" | ")
            ));
        }
    }
    let hands = steps.iter().flat_map(|step| {
        let hands = step.hands.iter();
        hands.map(|hand| say!("Step {}: {}", figure(step.number), hand.clone()))
    });
    let hands: Vec<Said> = hands.collect();
    let mut blocks = vec![rows.join("\n")];
    if !hands.is_empty() {
        blocks.push(list("- ", &hands));
    }
    blocks.join("\n\n")
}
