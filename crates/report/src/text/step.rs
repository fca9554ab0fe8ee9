//! The steps on the sheet, in columns.

use super::paper::Paper;
use crate::card::{CardStep, Row, Titles};
use textwrap::core::display_width;

/// Between two columns; where that is what it takes, half of it.
const GAPS: [usize; 2] = [2, 1];

/// The least that is left for a figure behind its title; a longer one goes on below itself.
const NARROW: usize = 12;

/// Where a number is to be written.
const OUT: &str = "came out ____ ml";

/// Where the columns stand; those of all steps of a sheet alike.
pub(crate) struct Table {
    titles: Titles,
    digits: usize,
    /// What number and name take; nothing where a name stands above its figures.
    label: usize,
    figures: [usize; 4],
    gap: usize,
    is_wide: bool,
}

impl Table {
    pub(crate) fn new<'s>(
        steps: &(impl Iterator<Item = &'s CardStep> + Clone),
        titles: Titles,
        width: usize,
    ) -> Self {
        let digits = steps.clone().count().to_string().len();
        let rows = || steps.clone().flat_map(|step| &step.rows);
        let title = |nth: usize| {
            titles[nth]
                .map(str::len)
                .into_iter()
                .max()
                .unwrap_or_default()
        };
        let mut figures = [0; 4];
        for (nth, figure) in figures.iter_mut().enumerate() {
            let cells = rows().map(|row| display_width(&row.cells[nth].plain()));
            *figure = cells.max().unwrap_or_default().max(title(nth));
        }
        let level = rows()
            .flat_map(|row| &row.levels)
            .map(|(name, when)| display_width(name).max(display_width(&when.plain())));
        let level = level.max().unwrap_or_default().max(title(4));
        let indent = digits + 5;
        let names = rows().map(|row| indent + display_width(&label(row)));
        let names = names.max().unwrap_or_default();
        let rest = |gap: usize| figures.iter().map(|it| gap + it).sum::<usize>() + gap + level;
        let gap = GAPS.into_iter().find(|gap| names + rest(*gap) <= width);
        Self {
            titles,
            digits,
            label: if gap.is_some() { names } else { indent },
            figures,
            gap: gap.unwrap_or(GAPS[0]),
            is_wide: gap.is_some() || indent + rest(GAPS[0]) <= width,
        }
    }

    fn indent(&self) -> usize {
        self.digits + 5
    }

    /// Where the last column begins.
    fn level_at(&self) -> usize {
        self.label
            + self
                .figures
                .iter()
                .map(|width| self.gap + width)
                .sum::<usize>()
            + self.gap
    }

    /// The titles of the columns; where they have no room each figure has its own.
    pub(crate) fn titles(&self, paper: &mut Paper) {
        if !self.is_wide {
            paper.strong_line("STEPS");
            return;
        }
        for nth in [0, 1] {
            let mut line = ["", "STEP"][nth].to_owned();
            for (title, end) in self.titles.iter().zip(self.ends()) {
                push_right(&mut line, title[nth], end);
            }
            pad(&mut line, self.level_at());
            line += self.titles[4][nth];
            paper.strong_line(&line);
        }
    }

    /// Where each column of figures ends.
    fn ends(&self) -> impl Iterator<Item = usize> {
        let mut end = self.label;
        let gap = self.gap;
        self.figures.into_iter().map(move |width| {
            end += gap + width;
            end
        })
    }

    pub(crate) fn write(&self, step: &CardStep, paper: &mut Paper) {
        let mark = format!("[ ] {:>digits$} ", step.number, digits = self.digits);
        for (nth, row) in step.rows.iter().enumerate() {
            let start = if nth == 0 {
                mark.clone()
            } else {
                " ".repeat(self.indent())
            };
            let tool = row.tool.as_ref();
            let tool = tool.map(|tool| format!("{}  {OUT}", tool.plain()));
            if self.is_wide {
                self.wide(&start, row, tool, paper);
            } else {
                self.narrow(&start, row, tool, paper);
            }
        }
        let indent = " ".repeat(self.indent());
        for hand in &step.hands {
            paper.indented(
                &format!("{indent}- "),
                &format!("{indent}  "),
                &hand.plain(),
            );
        }
    }

    fn wide(&self, start: &str, row: &Row, mut tool: Option<String>, paper: &mut Paper) {
        let mut line = format!("{start}{}", label(row));
        if display_width(&line) > self.label {
            // Beside a name that stands above its figures there is room.
            let tool = tool.take().map(|tool| format!("  {tool}"));
            paper.strong_line(&(line + &tool.unwrap_or_default()));
            line = String::new();
        }
        for (cell, end) in row.cells.iter().zip(self.ends()) {
            push_right(&mut line, &cell.plain(), end);
        }
        let levels = row.levels.iter();
        let levels = levels.flat_map(|(name, when)| [when.plain(), name.clone()]);
        let mut levels = levels.collect::<Vec<_>>().into_iter();
        paper.strong_line(&self.beside(line, &mut levels));
        if let Some(tool) = tool {
            let tool = format!("{}{tool}", " ".repeat(self.indent()));
            paper.line(&self.beside(tool, &mut levels));
        }
        while levels.len() > 0 {
            paper.line(&self.beside(String::new(), &mut levels));
        }
    }

    /// The line with the next of what stands in the last column, where there is room.
    fn beside(&self, mut line: String, levels: &mut impl Iterator<Item = String>) -> String {
        let has_room = display_width(&line) + self.gap <= self.level_at();
        if let Some(level) = has_room.then(|| levels.next()).flatten() {
            pad(&mut line, self.level_at());
            line += &level;
        }
        line
    }

    /// One figure a line.
    fn narrow(&self, start: &str, row: &Row, tool: Option<String>, paper: &mut Paper) {
        let indent = " ".repeat(self.indent());
        paper.strong_line(&format!("{start}{}", label(row)));
        let titles = self.titles.map(|title| title.join(" "));
        let longest = titles.iter().map(|title| title.trim().len()).max();
        let longest = longest.unwrap_or_default();
        // On the narrowest paper a figure stands behind its title, wherever there is room.
        let has_gutter = paper.width() >= indent.len() + longest + 2 + NARROW;
        let mut push = |title: &str, text: &str| {
            let title = title.trim();
            if has_gutter {
                let first = format!("{indent}{title:<longest$}  ");
                let rest = " ".repeat(indent.len() + longest + 2);
                paper.indented(&first, &rest, text);
            } else {
                paper.indented(&indent, &indent, format!("{title} {text}").trim_start());
            }
        };
        for (title, cell) in titles.iter().zip(&row.cells) {
            if !cell.is_empty() {
                push(title, &cell.plain());
            }
        }
        for (name, when) in &row.levels {
            push(&titles[4], &when.plain());
            push("", name);
        }
        if let Some(tool) = tool {
            paper.indented(&indent, &indent, &tool);
        }
    }
}

fn label(row: &Row) -> String {
    let screw = row.screw.as_deref();
    screw.map_or_else(|| "TOGETHER".to_owned(), str::to_uppercase)
}

fn pad(line: &mut String, width: usize) {
    let missing = width.saturating_sub(display_width(line));
    line.extend(std::iter::repeat_n(' ', missing));
}

/// Adds a text that ends at a column.
fn push_right(line: &mut String, text: &str, end: usize) {
    pad(line, end.saturating_sub(display_width(text)));
    line.push_str(text);
}
