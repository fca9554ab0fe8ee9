//! What is printed: text, rules, areas, pictures. Measures are in points from the upper left corner of a block.

use crate::lines::Line;
use crate::paper::Size;
use bleedwright_drawing::Picture;

/// A grey beside black and white is enough: the sheet is printed on black-and-white printers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ink {
    Black,
    /// An area behind black text.
    Pale,
    White,
}

/// One thing that is printed.
#[derive(Clone, Debug)]
pub(crate) enum Mark<'a> {
    /// A line of text, from its left end on its base line.
    Text {
        at: (f32, f32),
        em: f32,
        ink: Ink,
        line: Line,
    },
    /// A straight line in black.
    Rule {
        from: (f32, f32),
        to: (f32, f32),
        width: f32,
    },
    /// A rectangle.
    Area {
        corner: (f32, f32),
        size: (f32, f32),
        outline: Option<f32>,
        fill: Option<Ink>,
    },
    /// A triangle that points up and is filled.
    Triangle {
        corner: (f32, f32),
        side: f32,
        ink: Ink,
    },
    /// A drawing, by `scale` points for each of its millimetres.
    Picture {
        picture: &'a Picture,
        at: (f32, f32),
        scale: f32,
    },
}

impl Mark<'_> {
    /// A line of text whose top is at `at`.
    pub(crate) fn text(at: (f32, f32), size: Size, line: Line) -> Self {
        Self::Text {
            at: (at.0, at.1 + size.base()),
            em: size.em,
            ink: Ink::Black,
            line,
        }
    }

    /// The same text in another grey; all else stays as it is.
    pub(crate) fn inked(mut self, with: Ink) -> Self {
        if let Self::Text { ink, .. } = &mut self {
            *ink = with;
        }
        self
    }

    /// A line to write on.
    pub(crate) fn blank(from: (f32, f32), length: f32) -> Self {
        Self::Rule {
            from,
            to: (from.0 + length, from.1),
            width: 0.5,
        }
    }

    /// A box to tick, beside a line of text of this size whose top is at `top`.
    pub(crate) fn tick_box(left: f32, top: f32, side: f32, size: Size) -> Self {
        Self::Area {
            corner: (left, top + (size.leading - side) / 2.0),
            size: (side, side),
            outline: Some(0.8),
            fill: Some(Ink::White),
        }
    }
}
