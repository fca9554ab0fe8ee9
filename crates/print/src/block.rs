//! Blocks: what stays together on a page.

use crate::font::Fonts;
use crate::lines::{Line, Span, set};
use crate::mark::{Ink, Mark};
use crate::paper::{HEIGHT, Size};
use std::rc::Rc;

/// What a block is to somebody who has it read aloud.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// The head of the sheet.
    Title,
    /// The head of a section.
    Heading,
    /// Sentences.
    Paragraph,
    /// One of a list.
    Item,
    /// One of the steps.
    Step,
    /// A drawing, with what it shows.
    Figure(String),
    /// Nothing: it repeats what was said, or names a column.
    Decoration,
}

/// What a piece of a block is to its block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Share {
    /// The number of an item.
    Label,
    /// What the block says.
    Body,
    /// Lines, boxes, blanks.
    Decoration,
}

/// What is drawn around a block, anew on each page where a piece of it stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Frame {
    /// Nothing.
    None,
    /// A line around it.
    Box { width: f32, fill: Option<Ink> },
    /// Lines at its sides and below it, and upright ones that part its columns; above it stands another row.
    Columns(Vec<f32>),
}

/// A piece that never breaks, as a line of text does not.
#[derive(Clone, Debug, Default)]
pub(crate) struct Slice<'a> {
    pub(crate) height: f32,
    pub(crate) marks: Vec<(Share, Mark<'a>)>,
}

/// What stays together on a page as long as it can.
#[derive(Clone, Debug)]
pub(crate) struct Block<'a> {
    pub(crate) role: Role,
    pub(crate) slices: Vec<Slice<'a>>,
    pub(crate) frame: Frame,
    /// From its left edge, and how wide.
    pub(crate) left: f32,
    pub(crate) width: f32,
    /// Inside its frame, above and below.
    pub(crate) padding: f32,
    /// Above it, where it does not begin a page.
    pub(crate) gap: f32,
    /// How far above the foot of the one before it begins, beside which it stands.
    pub(crate) beside: f32,
    /// Whether it never ends a page.
    pub(crate) leads: bool,
    /// What is said again where this begins a page.
    pub(crate) under: Option<Rc<Block<'a>>>,
    /// What leads here from the list of bookmarks.
    pub(crate) bookmark: Option<String>,
}

impl<'a> Block<'a> {
    /// An empty block.
    pub(crate) fn new(role: Role, width: f32) -> Self {
        Self {
            role,
            slices: Vec::new(),
            frame: Frame::None,
            left: 0.0,
            width,
            padding: 0.0,
            gap: 0.0,
            beside: 0.0,
            leads: false,
            under: None,
            bookmark: None,
        }
    }

    /// Adds lines of text, each a slice.
    pub(crate) fn push_text(
        &mut self,
        spans: &[Span],
        left: f32,
        width: f32,
        size: Size,
        fonts: &Fonts,
    ) {
        for line in set(spans, width / size.em, fonts) {
            self.push_line(line, left, size);
        }
    }

    /// Adds one line of text.
    pub(crate) fn push_line(&mut self, line: Line, left: f32, size: Size) {
        let mark = Mark::text((left, 0.0), size, line);
        self.slices.push(Slice {
            height: size.leading,
            marks: vec![(Share::Body, mark)],
        });
    }

    /// Adds a mark to the first slice; what it shows there is at home in the block.
    pub(crate) fn push_beside(&mut self, share: Share, mark: Mark<'a>) {
        if self.slices.is_empty() {
            self.slices.push(Slice::default());
        }
        self.slices[0].marks.push((share, mark));
    }

    /// Adds room below until it is so high.
    pub(crate) fn raise_to(&mut self, height: f32) {
        let missing = height - self.height();
        if missing > 0.0 {
            self.slices.push(Slice {
                height: missing,
                marks: Vec::new(),
            });
        }
    }

    /// Its height where it is not broken.
    pub(crate) fn height(&self) -> f32 {
        2.0 * self.padding + self.slices.iter().map(|slice| slice.height).sum::<f32>()
    }

    /// Whether it is too long to be moved whole to the next page.
    pub(crate) fn is_long(&self) -> bool {
        self.height() > HEIGHT / 3.0
    }
}
