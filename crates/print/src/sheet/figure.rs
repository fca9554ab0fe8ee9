//! The drawing of the pipework.

use super::section::heading;
use crate::block::{Block, Role, Share, Slice};
use crate::font::Fonts;
use crate::legible::legible;
use crate::mark::Mark;
use crate::paper::{HEIGHT, WIDTH, mm};
use bleedwright_drawing::Picture;

/// What the head of its section takes of a page.
const HEAD: f32 = 30.0;

/// Adds the drawing in its own size, or smaller where it would not fit on a page.
pub(super) fn figure<'a>(blocks: &mut Vec<Block<'a>>, picture: &'a Picture, fonts: &Fonts) {
    let (width, height) = (picture.width_mm as f32, picture.height_mm as f32);
    if !(width > 0.0 && height > 0.0) {
        return;
    }
    let scale = mm(1.0).min(WIDTH / width).min((HEIGHT - HEAD) / height);
    blocks.push(heading("PIPEWORK", "", fonts));
    let mut block = Block::new(
        Role::Figure(legible(&picture.description, fonts)),
        width * scale,
    );
    block.left = (WIDTH - block.width) / 2.0;
    block.gap = 6.0;
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
