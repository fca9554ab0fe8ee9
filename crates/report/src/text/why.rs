//! Page 2: why, how certain, and what it rests on.

use super::paper::Paper;
use crate::card::{Card, RUN_TITLES};
use crate::said::Said;
use textwrap::core::display_width;

pub(super) fn write_why(card: &Card, paper: &mut Paper) {
    paper.heading(&format!("PAGE 2: WHY  {}", card.vehicle));
    paper.paragraph(&card.facts);
    paper.heading("WHY THIS ORDER");
    let digits = card.all_steps().count().to_string().len();
    for step in card.all_steps() {
        let mark = format!("{:>digits$} {}: ", step.number, step.name());
        let sentences = [&step.why].into_iter().chain(&step.notes);
        let sentences = sentences.map(|it| format!("{it}."));
        let least = step.least.iter().map(Said::to_string);
        let all: Vec<String> = sentences.chain(least).collect();
        paper.indented(&mark, "  ", &all.join(" "));
    }
    for text in &card.order {
        paper.paragraph(text);
    }
    paper.heading("BOUNDS");
    table(
        ["STEP", "PUSH ml", "STROKES OR FLOW", "TIME"],
        card.all_steps().map(|step| {
            let [push, effort, time] = step.bounds.each_ref().map(Said::plain);
            [
                format!("{} {}", step.number, step.name()),
                push,
                effort,
                time,
            ]
        }),
        paper,
    );
    paper.heading("RUNS (ml; old left of the run's fluid)");
    let runs = || card.all_steps().flat_map(|step| &step.runs);
    let [length, shared, own, brake, unmixed, left] = RUN_TITLES;
    table(
        ["SCREW", length, shared, own, brake, unmixed, left],
        runs().map(|run| {
            let [length, shared, own, brake, unmixed, left] = run.cells.each_ref().map(Said::plain);
            [run.screw.clone(), length, shared, own, brake, unmixed, left]
        }),
        paper,
    );
    for run in runs() {
        let mixed = if run.is_mixed {
            "; mixed at the joints"
        } else {
            ""
        };
        paper.paragraph(&format!("{}: {}{mixed}", run.screw, run.of.plain()));
    }
    paper.strong_start("BUY ", &card.buy);
    paper.heading("IN FULL");
    for text in card.in_full() {
        paper.item("- ", &text);
    }
    paper.strong_start("ASSUMED: ", &Said::paragraph(&card.rests_on()));
}

/// A table whose first column is read from the left; where it has no room, a row is a paragraph.
fn table<const N: usize>(
    titles: [&str; N],
    rows: impl Iterator<Item = [String; N]>,
    paper: &mut Paper,
) {
    let rows: Vec<[String; N]> = rows.collect();
    let width = |nth: usize| {
        let cells = rows.iter().map(|row| display_width(&row[nth]));
        cells.max().unwrap_or_default().max(titles[nth].len())
    };
    let widths: [usize; N] = std::array::from_fn(width);
    if widths.iter().sum::<usize>() + 2 * (N - 1) > paper.width() {
        for row in &rows {
            let cells = row.iter().zip(titles).skip(1);
            let cells = cells.filter(|(cell, _)| !cell.is_empty());
            let cells = cells.map(|(cell, title)| format!("{} {cell}", title.to_lowercase()));
            let cells: Vec<String> = cells.collect();
            paper.paragraph(&format!("{}: {}", row[0], cells.join(", ")));
        }
        return;
    }
    let line = |cells: [&str; N]| {
        let mut line = String::new();
        for (nth, cell) in cells.into_iter().enumerate() {
            let blanks = " ".repeat(widths[nth] - display_width(cell));
            line += &match nth {
                0 => format!("{cell}{blanks}"),
                _ => format!("  {blanks}{cell}"),
            };
        }
        line
    };
    paper.strong_line(&line(titles));
    for row in &rows {
        paper.line(&line(row.each_ref().map(String::as_str)));
    }
}
