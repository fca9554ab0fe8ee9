//! The steps: one row each, its figures in columns, the last to write in.

use crate::block::{Block, Frame, Role, Share, Slice};
use crate::font::Fonts;
use crate::legible::legible;
use crate::lines::{Line, Span, set};
use crate::mark::{Ink, Mark};
use crate::paper::{Size, WIDTH};
use bleedwright_report::{CardStep, Row, Titles};
use std::rc::Rc;

/// A box that a pencil finds.
const BOX: f32 = 11.0;

/// Inside a row, at its left and right.
const INSET: f32 = 5.0;

/// From the number to the text.
const GAP: f32 = 6.0;

/// What each column takes, and the last, in which is written what came out.
const WIDTHS: [f32; 5] = [50.0, 62.0, 62.0, 62.0, 88.0];
const OUT: f32 = 52.0;

/// Adds a row for each step of a section, below the titles of the columns; numbers take so many digits.
pub(super) fn steps(
    blocks: &mut Vec<Block<'_>>,
    (section, digits): (&str, usize),
    steps: &[CardStep],
    over: &Titles,
    fonts: &Fonts,
) {
    blocks.push(titles(section, over, fonts));
    let again = Rc::new(titles(&format!("{section}, continued"), over, fonts));
    for step in steps {
        let mut block = step_block(step, digits, fonts);
        block.under = Some(Rc::clone(&again));
        blocks.push(block);
    }
}

/// Where the columns begin, that to write in last.
fn places() -> [f32; 6] {
    let mut place = WIDTH - WIDTHS.iter().sum::<f32>() - OUT;
    let mut places = [place; 6];
    for (nth, width) in WIDTHS.into_iter().enumerate() {
        place += width;
        places[nth + 1] = place;
    }
    places
}

/// The titles of the columns.
fn titles<'a>(title: &str, over: &Titles, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Decoration, WIDTH);
    block.gap = 4.0;
    block.leads = true;
    block.padding = 1.0;
    block.frame = Frame::Box {
        width: 0.7,
        fill: Some(Ink::Pale),
    };
    for nth in [0, 1] {
        let line = Line::whole(&Span::bold([title, ""][nth]), fonts);
        block.push_line(line, INSET, Size::SMALL);
        let titles = over.map(|title| title[nth]);
        let out = ["OUT ml,", "INITIALS"][nth];
        let widths = WIDTHS.into_iter().chain([OUT]);
        for ((title, width), place) in titles.into_iter().chain([out]).zip(widths).zip(places()) {
            let line = Line::whole(&Span::bold(title), fonts);
            let left = place + (width - line.width * Size::SMALL.em) / 2.0;
            let mark = Mark::text((left, 0.0), Size::SMALL, line);
            block.slices[nth].marks.push((Share::Decoration, mark));
        }
    }
    block
}

fn step_block<'a>(step: &CardStep, digits: usize, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Step, WIDTH);
    block.frame = Frame::Columns(places().to_vec());
    block.padding = 1.2;
    block.bookmark = Some(legible(&format!("{} {}", step.number, step.name()), fonts));
    let number = Line::whole(&Span::bold(step.number.to_string()), fonts);
    let digit = Line::whole(&Span::bold("0"), fonts).width * Size::SCREW.em;
    let after_box = INSET + BOX + GAP;
    let left = after_box + digit * digits as f32 + GAP;

    for row in &step.rows {
        push_row(&mut block, row, left, fonts);
    }
    for hand in &step.hands {
        let width = places()[0] - 2.0 - left;
        let hand = [Span::bold(hand.plain())];
        block.push_text(&hand, left, width, Size::SMALL, fonts);
    }
    block.push_beside(
        Share::Decoration,
        Mark::tick_box(INSET, 0.0, BOX, Size::SCREW),
    );
    // The number is aligned at its right end and is read before the name.
    let at = after_box + digit * digits as f32 - number.width * Size::SCREW.em;
    let number = Mark::text((at, 0.0), Size::SCREW, number);
    block.slices[0].marks.insert(0, (Share::Label, number));
    block
}

/// The name with its tools below it; the figures beside the last line of the name, and when to see to the levels from there
/// on, a compartment's name never between two lines of the tools: each is read as a whole.
fn push_row(block: &mut Block<'_>, row: &Row, left: f32, fonts: &Fonts) {
    let name = row.screw.as_deref().unwrap_or("together");
    let width = places()[0] - 2.0 - left;
    let first = block.slices.len();
    block.push_text(&[Span::bold(name)], left, width, Size::SCREW, fonts);
    let figures = block.slices.len().max(first + 1) - 1;
    if block.slices.len() == first {
        block.slices.push(Slice {
            height: Size::SCREW.leading,
            marks: Vec::new(),
        });
    }
    if let Some(tool) = &row.tool {
        block.push_text(
            &[Span::regular(tool.plain())],
            left,
            width,
            Size::SMALL,
            fonts,
        );
    }
    let below = (block.slices.len() - 1).max(figures + 1);
    for ((cell, place), width) in row.cells.iter().zip(places()).zip(WIDTHS) {
        let line = Line::whole(&Span::bold(cell.plain()), fonts);
        let at = place + width - INSET - line.width * Size::SCREW.em;
        push_at(block, figures, Mark::text((at, 0.0), Size::SCREW, line));
    }
    let at = places()[4] + INSET;
    let room = WIDTHS[4] - 2.0 * INSET;
    let mut slice = figures;
    for (name, when) in &row.levels {
        let line = Line::whole(&Span::bold(when.plain()), fonts);
        push_at(block, slice, Mark::text((at, 0.0), Size::BODY, line));
        slice = below.max(slice + 1);
        let size = Size::SMALL;
        for line in set(&[Span::regular(name.clone())], room / size.em, fonts) {
            push_at(block, slice, Mark::text((at, 0.0), size, line));
            slice += 1;
        }
    }
}

/// Puts a mark into a line of a block, which is made where it is missing.
fn push_at<'a>(block: &mut Block<'a>, slice: usize, mark: Mark<'a>) {
    while block.slices.len() <= slice {
        block.slices.push(Slice {
            height: Size::BODY.leading,
            marks: Vec::new(),
        });
    }
    block.slices[slice].marks.push((Share::Body, mark));
}
