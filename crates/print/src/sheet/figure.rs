//! The drawing of the pipework.

use super::section::heading;
use crate::block::{Block, Role, Share, Slice};
use crate::font::Fonts;
use crate::legible::legible;
use crate::mark::Mark;
use crate::paper::{HEIGHT, WIDTH, mm};
use bleedwright_drawing::Picture;

/// Above the drawing.
const GAP: f32 = 4.0;

/// How much smaller than its own size a drawing may be for the sake of a page: its letters of 2.6 mm are then 6 points.
const SMALLEST: f32 = 0.82;

/// Adds a drawing in its own size; smaller where it would not fit on a page, and a little smaller where the `room` below
/// the words is then enough for it.
pub(crate) fn add_figure<'a>(
    blocks: &mut Vec<Block<'a>>,
    picture: Option<&'a Picture>,
    room: f32,
    fonts: &Fonts,
) {
    let Some(picture) = picture.filter(|it| it.width_mm > 0.0 && it.height_mm > 0.0) else {
        return;
    };
    let heading = heading("PIPEWORK", "", fonts);
    let above = heading.height() + GAP;
    let (width, height) = (picture.width_mm as f32, picture.height_mm as f32);
    let own = mm(1.0).min(WIDTH / width).min((HEIGHT - above) / height);
    let below_words = (room - heading.gap - above) / height;
    let scale = if below_words >= own * SMALLEST {
        own.min(below_words)
    } else {
        own
    };
    blocks.push(heading);
    let shown = Role::Figure(legible(&picture.description, fonts));
    let mut block = Block::new(shown, width * scale);
    block.left = (WIDTH - block.width) / 2.0;
    block.gap = GAP;
    let mark = Mark::Picture {
        picture,
        at: (0.0, 0.0),
        scale,
    };
    block.slices.push(Slice {
        height: height * scale,
        marks: vec![(Share::Body, mark)],
    });
    blocks.push(block);
}
