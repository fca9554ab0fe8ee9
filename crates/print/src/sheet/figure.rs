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

/// Adds the first drawing that fits below the words, else the first one: in its own size; smaller where it would not fit
/// on a page, and a little smaller where the `room` below the words is then enough for it.
pub(crate) fn add_figure<'a>(
    blocks: &mut Vec<Block<'a>>,
    pictures: &'a [Picture],
    room: f32,
    fonts: &Fonts,
) {
    let heading = heading("PIPEWORK", "", fonts);
    let above = heading.height() + GAP;
    // The scale on a page of its own, and below the words if that is not too small.
    let scales = |picture: &Picture| {
        let (width, height) = (picture.width_mm as f32, picture.height_mm as f32);
        let own = mm(1.0).min(WIDTH / width).min((HEIGHT - above) / height);
        let below_words = (room - heading.gap - above) / height;
        (own, (below_words >= own * SMALLEST).then_some(below_words))
    };
    let mut drawn = pictures
        .iter()
        .filter(|picture| picture.width_mm > 0.0 && picture.height_mm > 0.0);
    let Some(first) = drawn.clone().next() else {
        return;
    };
    let picture = drawn
        .find(|picture| scales(picture).1.is_some())
        .unwrap_or(first);
    let (own, below_words) = scales(picture);
    let scale = below_words.map_or(own, |below_words| own.min(below_words));
    let (width, height) = (picture.width_mm as f32, picture.height_mm as f32);
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
