//! The steps: one row each, with columns to write in.

use crate::block::{Block, Frame, Role, Share, Slice};
use crate::font::Fonts;
use crate::legible::legible;
use crate::lines::{Line, Span};
use crate::mark::{Ink, Mark};
use crate::paper::{Size, WIDTH};
use bleedwright_report::{CardStep, Detail, Said};
use std::rc::Rc;

/// A box that a pencil finds.
const BOX: f32 = 11.0;

/// Inside a row, at its left and right.
const INSET: f32 = 6.0;

/// From the number to the text.
const GAP: f32 = 6.0;

/// The least that a row is high, so that there is room to write.
const LEAST: f32 = 40.0;

/// A column to write in: its title and its width.
type Column = (&'static str, f32);

/// Adds a row for each step of a section, below the titles of the columns; numbers take so many digits.
pub(super) fn steps(
    blocks: &mut Vec<Block<'_>>,
    (section, digits): (&str, usize),
    steps: &[CardStep],
    fonts: &Fonts,
) {
    let mut columns: Vec<Column> = Vec::new();
    if steps.iter().any(|step| step.strokes.is_some()) {
        columns.push(("strokes done", 58.0));
    }
    columns.extend([("ml read", 46.0), ("initials", 46.0)]);
    blocks.push(titles("step", &columns, fonts));
    let again = Rc::new(titles(&format!("{section}, continued"), &columns, fonts));
    for step in steps {
        let mut block = row(step, &columns, digits, fonts);
        block.under = Some(Rc::clone(&again));
        blocks.push(block);
    }
}

/// Where the columns begin.
fn places(columns: &[Column]) -> Vec<f32> {
    let mut place = WIDTH - columns.iter().map(|(_, width)| width).sum::<f32>();
    columns
        .iter()
        .map(|(_, width)| {
            let here = place;
            place += width;
            here
        })
        .collect()
}

/// The titles of the columns.
fn titles<'a>(title: &str, columns: &[Column], fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Decoration, WIDTH);
    block.gap = 5.0;
    block.leads = true;
    block.padding = 1.0;
    block.frame = Frame::Box {
        width: 0.7,
        fill: Some(Ink::Pale),
    };
    let line = Line::whole(&Span::bold(title), fonts);
    block.push_line(line, INSET, Size::SMALL);
    for ((title, width), place) in columns.iter().zip(places(columns)) {
        let line = Line::whole(&Span::bold(*title), fonts);
        let left = place + (width - line.width * Size::SMALL.em) / 2.0;
        block.push_beside(
            Share::Decoration,
            Mark::text((left, 0.0), Size::SMALL, line),
        );
    }
    block
}

fn row<'a>(step: &CardStep, columns: &[Column], digits: usize, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Step, WIDTH);
    block.frame = Frame::Columns(places(columns));
    block.padding = 4.0;
    let screws = step.screws.join(" + ");
    block.bookmark = Some(legible(&format!("{} {screws}", step.number), fonts));
    let number = Line::whole(&Span::bold(step.number.to_string()), fonts);
    let digit = Line::whole(&Span::bold("0"), fonts).width * Size::SCREW.em;
    let after_box = INSET + BOX + GAP;
    let left = after_box + digit * digits as f32 + GAP;
    let width = places(columns)[0] - INSET - left;

    block.push_text(&[Span::bold(screws)], left, width, Size::SCREW, fonts);
    push_tools(&mut block, &step.tools.to_string(), left, width, fonts);
    let work = Span::bold(format!("{}; {}", step.work, step.marks));
    block.push_text(&[work], left, width, Size::BODY, fonts);
    let at_reservoir = [&step.level, &step.draw_back].into_iter().flatten();
    let at_reservoir: Vec<String> = at_reservoir.map(Said::to_string).collect();
    let at_reservoir = Span::bold(at_reservoir.join(" "));
    block.push_text(&[at_reservoir], left, width, Size::BODY, fonts);
    block.push_text(&details(step), left, width, Size::SMALL, fonts);

    block.push_beside(
        Share::Decoration,
        Mark::tick_box(INSET, 0.0, BOX, Size::SCREW),
    );
    // The number is aligned at its right end and is read before the name.
    let at = after_box + digit * digits as f32 - number.width * Size::SCREW.em;
    let number = Mark::text((at, 0.0), Size::SCREW, number);
    block.slices[0].marks.insert(0, (Share::Label, number));
    block.raise_to(LEAST);
    if let Some(strokes) = step.strokes {
        let of = Line::whole(&Span::regular(format!("of {strokes}")), fonts);
        let (place, (_, width)) = (places(columns)[0], columns[0]);
        let at = place + width - 4.0 - of.width * Size::SMALL.em;
        let last = block.slices.len() - 1;
        let top = block.slices[last].height - Size::SMALL.leading;
        let of = Mark::text((at, top), Size::SMALL, of).inked(Ink::Grey);
        block.slices[last].marks.push((Share::Body, of));
    }
    block
}

/// Adds spanner and torque: at the end of the last line of the name where there is room, else below it.
fn push_tools(block: &mut Block<'_>, tools: &str, left: f32, width: f32, fonts: &Fonts) {
    let line = Line::whole(&Span::regular(tools), fonts);
    let own = line.width * Size::BODY.em;
    let has_room = |slice: &Slice<'_>| match slice.marks.first() {
        Some((_, Mark::Text { line, em, .. })) => line.width * em + 3.0 * GAP + own <= width,
        _ => false,
    };
    match block.slices.last_mut() {
        Some(slice) if has_room(slice) => {
            // Both stand on one base line.
            let top = Size::SCREW.base() - Size::BODY.base();
            let mark = Mark::text((left + width - own, top), Size::BODY, line);
            slice.marks.push((Share::Body, mark));
        }
        _ => block.push_text(&[Span::regular(tools)], left, width, Size::BODY, fonts),
    }
}

/// What is looked up: all but what must be done at the reservoir, which has a line of its own.
fn details(step: &CardStep) -> Vec<Span> {
    let is_said = |detail: &Detail| matches!(detail, Detail::Level(_) | Detail::DrawBack(_));
    let mut spans = Vec::new();
    for detail in step.details().into_iter().filter(|it| !is_said(it)) {
        if !spans.is_empty() {
            spans.push(Span::regular(" "));
        }
        if let Some(lead) = detail.lead() {
            spans.extend([Span::bold(lead), Span::regular(" ")]);
        }
        spans.push(Span::regular(detail.said().to_string()));
    }
    spans
}
