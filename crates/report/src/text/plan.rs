//! The plan on a sheet: page 1 says what to do, page 2 why.

use super::paper::Paper;
use super::step::Table;
use super::why::write_why;
use crate::card::{
    AFTER, AFTER_SECOND, BEFORE, Card, CardIf, Instruction, KEPT, LOOK_FIRST, SECOND, SIGNED,
    blanks as row_of_blanks, headed_in_capitals,
};
use crate::said::Said;
use bleedwright_planner::Plan;

/// Which pages of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pages {
    /// What to do.
    Work,
    /// What to do, then why.
    Both,
    /// Why.
    Why,
    /// One line a step.
    Brief,
}

/// Writes the plan for a sheet of `paper`'s width.
///
/// ```
/// use bleedwright_network::load;
/// use bleedwright_planner::{Options, plan};
/// use bleedwright_report::{Pages, Paper, plan_text};
///
/// let text = std::fs::read("../../layouts/plover.ron").expect("the layout is there");
/// let loaded = load(&text);
/// let network = loaded.sound_network().expect("it has no error");
/// let plan = plan(network, &Options::default()).plan.expect("nothing is in its way");
/// let sheet = plan_text(&plan, Pages::Work, Paper::new(80, false));
/// assert!(sheet.contains("[ ] 1 REAR RIGHT "));
/// ```
pub fn plan_text(plan: &Plan, pages: Pages, mut paper: Paper) -> String {
    let card = Card::new(plan);
    if pages == Pages::Brief {
        write_brief(&card, &mut paper);
        return paper.into_text();
    }
    if pages != Pages::Why {
        write_work(&card, &mut paper);
    }
    if pages != Pages::Work {
        write_why(&card, &mut paper);
    }
    paper.into_text()
}

fn write_work(card: &Card, paper: &mut Paper) {
    let [registration, date] =
        [&card.registration, &card.date].map(|it| it.as_deref().unwrap_or("________"));
    let blanks = format!("Reg. {registration}  Date {date}");
    paper.apart(&format!("BLEED PLAN  {}", card.vehicle), &blanks);
    paper.paragraph(&card.job.plain());
    if let Some(notes) = &card.notes {
        paper.paragraph(notes);
    }
    if let Some(danger) = &card.danger {
        paper.danger(&danger.plain());
    }
    for warning in &card.warnings {
        paper.warning(&format!("! {}", warning.plain()));
    }
    paper.strong_start("READY  ", &card.ready.plain());
    let cautions: Vec<Said> = card.cautions.iter().map(Instruction::sentence).collect();
    paper.strong_start("CAUTION  ", &Said::paragraph(&cautions).plain());
    if !card.look.is_empty() {
        paper.heading(&headed_in_capitals(LOOK_FIRST));
        ticked(&card.look, paper);
    }
    if !card.before.is_empty() {
        paper.heading(&headed_in_capitals(BEFORE));
        ticked(&card.before, paper);
    }
    let head = card.each_head().to_uppercase();
    let (heading, each) = match card.each.split_last() {
        Some((never, each)) if card.is_by_strokes() => (format!("{head}  {}", never.plain()), each),
        _ => (head, card.each.as_slice()),
    };
    paper.heading(&heading);
    paper.pairs("  ", each.iter().map(Said::plain));
    for done in &card.done {
        paper.paragraph(&done.plain());
    }
    let table = Table::new(&card.all_steps(), card.titles, paper.width());
    table.titles(paper);
    for step in &card.steps {
        table.write(step, paper);
    }
    let longest = card.otherwise.iter().map(|it| it.what.len()).max();
    for it in &card.otherwise {
        write_if(it, longest.unwrap_or_default(), paper);
    }
    paper.heading(&headed_in_capitals(AFTER));
    ticked(&card.after, paper);
    if let Some(second) = &card.second {
        paper.heading(&headed_in_capitals(SECOND));
        paper.paragraph(&second.how.plain());
        table.titles(paper);
        for step in &second.steps {
            table.write(step, paper);
        }
        paper.paragraph("Second bleed done by ____________ checked by ____________");
        paper.heading(&headed_in_capitals(AFTER_SECOND));
        ticked(&second.after, paper);
    }
    for names in KEPT.into_iter().chain([SIGNED]) {
        paper.paragraph(&row_of_blanks(names));
    }
}

fn ticked(lines: &[Instruction], paper: &mut Paper) {
    paper.tick_list(lines.iter().map(|line| line.does.plain()));
}

fn write_if(it: &CardIf, longest: usize, paper: &mut Paper) {
    let first = format!("IF {:<longest$}  ", it.what);
    // Where paper is narrow the answer does not stand in a gutter.
    let rest = if paper.width() < 60 { 3 } else { first.len() };
    let then = it.then.sentence().plain();
    paper.indented(&first, &" ".repeat(rest), &then);
}

/// One line a step and nothing else.
fn write_brief(card: &Card, paper: &mut Paper) {
    for step in card.all_steps() {
        let figures = step.rows.iter().map(|row| {
            let cells = row.cells.iter().zip(card.titles);
            let cells = cells.filter(|(cell, _)| !cell.is_empty());
            let cells = cells.map(|(cell, title)| {
                let title = title.join(" ");
                format!("{} {}", title.trim().to_lowercase(), cell.plain())
            });
            let levels = row.levels.iter();
            let levels = levels.map(|(name, when)| format!("{name} {}", when.plain()));
            let name = row.screw.iter().map(|screw| screw.to_uppercase());
            name.chain(cells)
                .chain(levels)
                .collect::<Vec<_>>()
                .join(", ")
        });
        let figures = figures.collect::<Vec<_>>().join("; ");
        paper.line(&format!("{} {figures}", step.number));
    }
}
