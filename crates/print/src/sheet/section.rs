//! Sections beside the steps: lists to tick, cautions, assumptions.

use crate::block::{Block, Frame, Role, Share};
use crate::font::Fonts;
use crate::lines::{Line, Span};
use crate::mark::Mark;
use crate::paper::{HEIGHT, Size, WIDTH};
use bleedwright_report::{Heading, Instruction, KEPT, SIGNED};
use std::rc::Rc;

/// A box that a pencil finds.
const BOX: f32 = 8.5;

/// From the left edge to the text behind a box.
const INDENT: f32 = 15.0;

/// Room to write a reading or initials beside a check.
const BLANK: f32 = 84.0;

/// The bookmark of the cautions, which every page points at.
pub(crate) const CAUTION: &str = "CAUTION";

/// The head of a section, with what stands at its right end.
pub(super) fn heading<'a>(text: &str, right: &str, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Heading, WIDTH);
    block.gap = 8.0;
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

/// What is written beside a list that is ticked, and below it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Blanks {
    None,
    /// What was read; signed below.
    Signed,
    /// The same, and what a record keeps beside its checks.
    Kept,
}

/// A list to tick.
pub(super) fn ticked(
    blocks: &mut Vec<Block<'_>>,
    (title, right): Heading,
    lines: &[Instruction],
    blanks: Blanks,
    fonts: &Fonts,
) {
    if lines.is_empty() {
        return;
    }
    let has_blanks = blanks != Blanks::None;
    let first = blocks.len();
    let title = title.to_uppercase();
    blocks.push(heading(&title, right, fonts));
    let again = continued(&title, right, fonts);
    for line in lines {
        let mut block = Block::new(Role::Item, WIDTH);
        block.gap = 0.5;
        block.under = Some(Rc::clone(&again));
        let width = WIDTH - INDENT - if has_blanks { BLANK + 8.0 } else { 0.0 };
        block.push_text(
            &[Span::regular(line.does.plain())],
            INDENT,
            width,
            Size::BODY,
            fonts,
        );
        block.push_beside(Share::Decoration, Mark::tick_box(0.5, 0.0, BOX, Size::BODY));
        if has_blanks {
            let blank = Mark::blank((WIDTH - BLANK, Size::BODY.base() + 1.5), BLANK);
            block.push_beside(Share::Decoration, blank);
        }
        blocks.push(block);
    }
    if blanks == Blanks::Kept {
        blocks.extend(KEPT.map(|names| written(names, fonts)));
    }
    if has_blanks {
        blocks.push(signatures(fonts));
    }
    // A list that fills less than half a page is not torn: one check on a page of its own is overlooked.
    let height: f32 = blocks[first..]
        .iter()
        .map(|block| block.gap + block.height())
        .sum();
    if height < HEIGHT / 2.0 {
        let last = blocks.len() - 1;
        for block in &mut blocks[first..last] {
            block.leads = true;
        }
    }
}

pub(super) fn signatures<'a>(fonts: &Fonts) -> Block<'a> {
    written(SIGNED, fonts)
}

/// Blanks beside each other, each behind its name.
fn written<'a>(names: &[&str], fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.gap = 9.0;
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
    block.gap = 6.0;
    block.padding = 5.0;
    block.frame = Frame::Box {
        width: 1.5,
        fill: None,
    };
    block.bookmark = Some(CAUTION.to_owned());
    let texts: Vec<String> = (cautions.iter())
        .map(|it| format!("{}.", it.does.plain()))
        .collect();
    let spans = [Span::bold("CAUTION: "), Span::regular(texts.join(" "))];
    block.push_text(&spans, 8.0, WIDTH - 16.0, Size::BODY, fonts);
    block
}
