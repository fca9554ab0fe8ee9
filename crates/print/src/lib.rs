//! The job card on pages for a printer, as PDF.
//!
//! [`pdf`] takes the words of a plan and sets them on A4 pages, with boxes to tick, columns to write in and, where there
//! is one, the drawing of the pipework. Nothing here knows how a plan is made; what a page says was said by the card.
//!
//! Invariant: nothing of a layout file vanishes from a page. What the embedded fonts cannot show is printed as the number
//! of its code point, control characters included.
//!
//! Invariant: same card, same bytes. There is no date, no random identifier and no name of a machine in the file.
//!
//! Invariant: no ink lies outside the margins of a page. A step is torn only where it is longer than a third of a page.
//!
//! # Map
//!
//! - `sheet`: the card as blocks, in the order of the work: `head`, `section`, `step`, `figure`, `foot`
//! - `block`, `mark`: what stays together on a page; what is printed of it
//! - `flow`: blocks one below the other, page after page
//! - `lines`: text broken into lines
//! - `font`, `legible`: the built-in fonts; what none of them shows. They are subsets of Latin, Greek, Cyrillic and signs without
//!   control, format or right-to-left characters, made by crates/print/fonts/subset.sh from Debian's fonts-noto-core
//! - `paper`: sizes of paper and type
//! - `document`, `paint`, `picture`: pages, marks and pictures as the file has them, with bookmarks and the structure for screen
//!   readers

mod block;
mod document;
mod flow;
mod font;
mod legible;
mod lines;
mod mark;
mod paint;
mod paper;
mod picture;
mod sheet;

use bleedwright_drawing::Picture;
use bleedwright_report::Card;

/// Why there is no PDF.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PrintError {
    /// One of the fonts that the program carries cannot be read: the program was built wrongly.
    #[error("the built-in font {0} cannot be read; build the program again from unchanged sources")]
    Font(&'static str),
    /// The writer of the file refused the pages.
    #[error(
        "the pages could not be written as PDF ({0}); print the text or the HTML page instead, and report this"
    )]
    Writing(String),
}

/// The job card as a PDF file: A4, with a picture after the words.
///
/// `layout` is the name of the layout file, which stands at the foot of each page; empty where it has none.
pub fn pdf(card: &Card, layout: &str, picture: Option<&Picture>) -> Result<Vec<u8>, PrintError> {
    let fonts = font::Fonts::new()?;
    let mut blocks = sheet::words(card, &fonts);
    let room = flow::room(&flow::pages(&blocks));
    sheet::add_figure(&mut blocks, picture, room, &fonts);
    let pages = flow::pages(&blocks);
    let foot = sheet::Foot::new(card, layout, &fonts);
    document::write(&blocks, &pages, &foot, &fonts)
}
