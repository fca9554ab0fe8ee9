//! Names beside symbols: wrapped into few lines, shortened where even that is too long.

use super::measure::{LEADING, LETTER};
use crate::ink::Ink;
use crate::lettering::{Weight, printable, width_em};
use crate::picture::{Anchor, Mark, Point, Text};

/// The lines of a name, at most so many of at most this width; the last one may be too long still.
pub(super) fn wrapped(name: &str, most_mm: f64, most_lines: usize) -> Vec<String> {
    let name = printable(name);
    let fits = |text: &str| width_em(text, Weight::Normal) * LETTER <= most_mm;
    let mut lines: Vec<String> = Vec::new();
    for word in name.split_whitespace() {
        let count = lines.len();
        match lines.last_mut() {
            Some(line) if fits(&format!("{line} {word}")) => {
                line.push(' ');
                line.push_str(word);
            }
            // What is too long for the last line is cut there.
            Some(line) if count == most_lines => {
                if fits(line) {
                    line.push(' ');
                    line.push_str(word);
                }
                break;
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Writes a name whose first base line is at `at`.
pub(super) fn write(
    name: &str,
    at: Point,
    anchor: Anchor,
    most_mm: f64,
    most_lines: usize,
) -> Vec<Mark> {
    let lines = wrapped(name, most_mm, most_lines);
    let is_whole = lines.join(" ")
        == printable(name)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
    let mut y = at.y;
    let mut marks = Vec::new();
    for line in lines {
        let mut text = Text::new(Point::new(at.x, y), LETTER, &line)
            .anchored(anchor)
            .inked(Ink::BLACK)
            .within(most_mm);
        if text.whole.is_some() || !is_whole {
            text.whole = Some(printable(name));
        }
        marks.push(text.into());
        y += LEADING;
    }
    marks
}
