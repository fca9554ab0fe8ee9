//! Sections beside the steps: lists to tick, cautions, assumptions.

use crate::block::{Block, Frame, Role, Share};
use crate::font::Fonts;
use crate::lines::{Line, Span};
use crate::mark::Mark;
use crate::paper::{HEIGHT, Size, WIDTH};
use bleedwright_report::{CardIf, Heading, Instruction, KEPT, SIGNED};
use std::rc::Rc;

/// A box that a pencil finds.
const BOX: f32 = 8.5;

/// From the left edge to the text behind a box.
const INDENT: f32 = 15.0;

/// Above an item.
const GAP: f32 = 0.8;

/// Half of the width, less the half of what parts two columns.
const HALF: f32 = (WIDTH - 10.0) / 2.0;

/// The bookmark of the cautions, which every page points at.
pub(crate) const CAUTION: &str = "CAUTION";

/// The head of a section, with what stands at its right end.
pub(super) fn heading<'a>(text: &str, right: &str, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Heading, WIDTH);
    block.gap = 4.0;
    block.leads = true;
    block.bookmark = Some(text.to_owned());
    let line = Line::whole(&Span::bold(text), fonts);
    block.push_line(line, 0.0, Size::HEADING);
    let right = Line::whole(&Span::regular(right), fonts);
    let at = WIDTH - right.width * Size::SMALL.em;
    let caption = Mark::text(
        (at, Size::HEADING.base() - Size::SMALL.base()),
        Size::SMALL,
        right,
    );
    block.push_beside(Share::Body, caption);
    block.push_beside(
        Share::Decoration,
        Mark::Rule {
            from: (0.0, Size::HEADING.leading),
            to: (WIDTH, Size::HEADING.leading),
            width: 0.7,
        },
    );
    block
}

/// The same where its section goes on on another page.
fn continued<'a>(text: &str, right: &str, fonts: &Fonts) -> Rc<Block<'a>> {
    let mut block = heading(&format!("{text}, continued"), right, fonts);
    block.role = Role::Decoration;
    block.bookmark = None;
    Rc::new(block)
}

/// A list to tick, in two columns; where it is long, in one that breaks. Where its order counts each has its number.
pub(super) fn ticked(
    blocks: &mut Vec<Block<'_>>,
    (title, right): Heading<'_>,
    lines: &[Instruction],
    is_numbered: bool,
    fonts: &Fonts,
) {
    if lines.is_empty() {
        return;
    }
    let title = title.to_uppercase();
    blocks.push(heading(&title, right, fonts));
    let again = continued(&title, right, fonts);
    let items = |width: f32| -> Vec<Block<'_>> {
        let items = lines.iter().enumerate().map(|(nth, line)| {
            let number = is_numbered.then_some(nth + 1);
            let mut block = item(line, number, width, fonts);
            block.under = Some(Rc::clone(&again));
            block
        });
        items.collect()
    };
    blocks.extend(in_two_columns(items(HALF)).unwrap_or_else(|| items(WIDTH)));
}

/// A line behind its box.
fn item<'a>(line: &Instruction, number: Option<usize>, width: f32, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Item, width);
    block.gap = GAP;
    let number = number.map(|number| Span::bold(format!("{number} ")));
    let text = Span::regular(line.does.plain());
    let spans: Vec<Span> = number.into_iter().chain([text]).collect();
    block.push_text(&spans, INDENT, width - INDENT, Size::SMALL, fonts);
    let tick = Mark::tick_box(0.5, 0.0, BOX, Size::SMALL);
    block.push_beside(Share::Decoration, tick);
    block
}

/// What to do when something goes otherwise.
pub(super) fn ifs<'a>(all: &[CardIf], fonts: &Fonts) -> Vec<Block<'a>> {
    let items = |width: f32| -> Vec<Block<'a>> {
        let items = all.iter().map(|it| {
            let mut block = Block::new(Role::Item, width);
            block.gap = GAP;
            let lead = Span::bold(format!("IF {}: ", it.what));
            let text = Span::regular(it.then.sentence().plain());
            block.push_text(&[lead, text], 0.0, width, Size::SMALL, fonts);
            block
        });
        items.collect()
    };
    in_two_columns(items(HALF)).unwrap_or_else(|| items(WIDTH))
}

/// The first half of them on the left, the rest beside it on the right, read downwards; none where they might be torn.
fn in_two_columns(mut items: Vec<Block<'_>>) -> Option<Vec<Block<'_>>> {
    let tall = |items: &[Block<'_>]| items.iter().map(|it| it.gap + it.height()).sum::<f32>();
    if items.len() < 2 || items.iter().any(Block::is_long) || tall(&items) > HEIGHT {
        return None;
    }
    let taller = |at: usize| tall(&items[..at]).max(tall(&items[at..]));
    let middle = (1..items.len()).min_by(|a, b| taller(*a).total_cmp(&taller(*b)));
    let middle = middle.unwrap_or(1);
    let left = tall(&items[..middle]);
    let mut from = 0.0;
    for block in &mut items[middle..] {
        block.left = WIDTH - HALF;
        block.beside = left.max(from) - from;
        from += block.gap + block.height();
    }
    // It is not torn: one check on a page of its own is overlooked.
    let last = items.len() - 1;
    items[..last].iter_mut().for_each(|it| it.leads = true);
    Some(items)
}

/// What a record keeps beside its checks.
pub(super) fn kept<'a>(fonts: &Fonts) -> impl Iterator<Item = Block<'a>> {
    KEPT.map(|names| written(names, fonts)).into_iter()
}

pub(super) fn signatures<'a>(fonts: &Fonts) -> Block<'a> {
    written(SIGNED, fonts)
}

/// Blanks beside each other, each behind its name.
fn written<'a>(names: &[&str], fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.gap = 3.5;
    block.push_text(&[Span::bold(names[0])], 0.0, WIDTH, Size::BODY, fonts);
    let share = WIDTH / names.len() as f32;
    for (nth, name) in names.iter().copied().enumerate() {
        let left = share * nth as f32;
        let line = Line::whole(&Span::bold(name), fonts);
        let from = left + line.width * Size::BODY.em + 5.0;
        let blank = Mark::blank((from, Size::BODY.base() + 1.5), left + share - 10.0 - from);
        block.push_beside(Share::Decoration, blank);
        if nth > 0 {
            block.push_beside(Share::Body, Mark::text((left, 0.0), Size::BODY, line));
        }
    }
    block
}

/// What can hurt, in a frame.
pub(super) fn cautions<'a>(cautions: &[Instruction], fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.gap = 3.0;
    block.padding = 3.0;
    block.frame = Frame::Box {
        width: 1.5,
        fill: None,
    };
    block.bookmark = Some(CAUTION.to_owned());
    let texts: Vec<String> = (cautions.iter()).map(|it| it.sentence().plain()).collect();
    let spans = [Span::bold("CAUTION: "), Span::regular(texts.join(" "))];
    block.push_text(&spans, 8.0, WIDTH - 16.0, Size::BODY, fonts);
    block
}
