//! The head of the sheet: which vehicle, and what must not be overlooked.

use crate::block::{Block, Frame, Role, Share, Slice};
use crate::font::Fonts;
use crate::legible::legible;
use crate::lines::{Line, Span};
use crate::mark::{Ink, Mark};
use crate::paper::{Size, WIDTH};
use bleedwright_report::{Card, Said};

/// What the fields to fill in take at the right.
const FIELDS: f32 = 165.0;

/// What the name of a field takes of it.
const NAME: f32 = 54.0;

/// From the edge of a frame to its triangle, and from there to the text.
const INSET: f32 = 7.0;
const TRIANGLE: f32 = 9.0;
const TEXT: f32 = INSET + TRIANGLE + 6.0;

/// The vehicle, with fields for who works when.
pub(super) fn title<'a>(card: &Card, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Title, WIDTH);
    block.bookmark = Some(legible(&format!("Bleed plan: {}", card.vehicle), fonts));
    let line = Line::whole(&Span::bold("BLEED PLAN"), fonts);
    block.push_line(line, 0.0, Size::BODY);
    let room = WIDTH - FIELDS - 12.0;
    block.push_text(&[Span::bold(&card.vehicle)], 0.0, room, Size::TITLE, fonts);
    let left = WIDTH - FIELDS;
    let rows = [
        ("Date", card.date.as_deref().unwrap_or_default()),
        (
            "Registration",
            card.registration.as_deref().unwrap_or_default(),
        ),
    ];
    let mut top = 0.0;
    for (name, value) in rows {
        let name = Line::whole(&Span::regular(name), fonts);
        let from = left + NAME;
        let base = top + Size::BODY.base();
        if value.is_empty() {
            block.push_beside(
                Share::Decoration,
                Mark::blank((from, base + 1.5), left + FIELDS - from),
            );
        } else {
            let most = (left + FIELDS - from) / Size::BODY.em;
            let value = Line::within(&Span::bold(value), most, fonts);
            block.push_beside(Share::Body, Mark::text((from, top), Size::BODY, value));
        }
        block.push_beside(Share::Body, Mark::text((left, top), Size::BODY, name));
        top += 15.0;
    }
    // Without a name the fields alone say how high the head is.
    block.raise_to(top);
    let rule = Mark::Rule {
        from: (0.0, 1.5),
        to: (WIDTH, 1.5),
        width: 1.2,
    };
    block.slices.push(Slice {
        height: 3.0,
        marks: vec![(Share::Decoration, rule)],
    });
    block
}

/// An order against the pipework: white on black, so that nobody takes it for a remark.
pub(super) fn danger<'a>(text: &Said, fonts: &Fonts) -> Block<'a> {
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.frame = Frame::Box {
        width: 0.0,
        fill: Some(Ink::Black),
    };
    block.padding = 3.0;
    block.gap = 3.0;
    let width = WIDTH - TEXT - INSET;
    block.push_text(
        &[Span::bold(text.to_string())],
        TEXT,
        width,
        Size::HEADING,
        fonts,
    );
    for slice in &mut block.slices {
        for (_, mark) in &mut slice.marks {
            *mark = mark.clone().inked(Ink::White);
        }
    }
    let top = (Size::HEADING.leading - TRIANGLE) / 2.0;
    triangle(&mut block, 0, top, (Ink::White, Ink::Black), fonts);
    block
}

/// The warnings in one frame, each with a triangle.
pub(super) fn warnings<'a>(warnings: &[Said], fonts: &Fonts) -> Option<Block<'a>> {
    if warnings.is_empty() {
        return None;
    }
    let mut block = Block::new(Role::Paragraph, WIDTH);
    block.frame = Frame::Box {
        width: 1.5,
        fill: None,
    };
    block.padding = 3.0;
    block.gap = 3.0;
    let width = WIDTH - TEXT - INSET;
    for warning in warnings {
        let first = block.slices.len();
        block.push_text(
            &[Span::bold(warning.to_string())],
            TEXT,
            width,
            Size::BODY,
            fonts,
        );
        if first < block.slices.len() {
            let top = (Size::BODY.leading - TRIANGLE) / 2.0;
            triangle(&mut block, first, top, (Ink::Black, Ink::White), fonts);
        }
    }
    Some(block)
}

/// A triangle with an exclamation mark in a slice.
fn triangle(block: &mut Block<'_>, slice: usize, top: f32, (ink, on): (Ink, Ink), fonts: &Fonts) {
    let sign = Line::whole(&Span::bold("!"), fonts);
    let em = TRIANGLE * 0.8;
    let left = INSET + (TRIANGLE - sign.width * em) / 2.0;
    let marks = [
        Mark::Triangle {
            corner: (INSET, top),
            side: TRIANGLE,
            ink,
        },
        Mark::Text {
            at: (left, top + TRIANGLE - 1.2),
            em,
            ink: on,
            line: sign,
        },
    ];
    let marks = marks.map(|mark| (Share::Decoration, mark));
    // A sentence without a word has no line to stand beside.
    if let Some(slice) = block.slices.get_mut(slice) {
        slice.marks.splice(0..0, marks);
    }
}
