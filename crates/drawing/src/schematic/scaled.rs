//! The pipework to scale: the centre of every symbol is where the layout says that its part sits.
//!
//! ```text
//! positions -> scale -> signs, riders -> names -> ways -> numbers -> rules
//!              from small to large, until all rules hold or the sheet is full
//! ```
//!
//! Invariant: a picture to scale is shown only where [`check::broken_rule`] finds nothing; else the automatic layout is,
//! and the legend says why.

mod beside;
mod check;
mod feeds;
mod finder;
mod grid;
mod lengthwise;
mod names;
mod numbers;
mod paper;
mod search;
mod seats;
mod sign;
mod signs;
mod stand;
mod ways;
mod why;

use super::pen::Pen;
use super::sheet::{Body, Sheet};
use finder::Finder;
use seats::Seats;
use stand::Stand;
pub(super) use why::Why;

/// The smallest picture that is tried: so large is the vehicle in it, in millimetres.
const SMALLEST: f64 = 40.0;
/// Each picture that is tried is at least so much larger than the one before.
const GROWTH: f64 = 1.05;
/// How many places all searches for ways may look at, whatever the layout: a bound on their time. The Plover needs less
/// than a tenth of it.
const MOST_LOOKS: usize = 6_000_000;

/// The drawing to scale with the words of the legend about it; else why there is none.
pub(super) fn body(pen: &Pen<'_, '_>, sheet: &Sheet<'_, '_>) -> Result<(Body, Vec<String>), Why> {
    let seats = Seats::new(pen.arrangement)?;
    let stand = Stand::new(pen, &seats);
    let mut finder = Finder::new(MOST_LOOKS);
    let mut why = Why::TooLarge;
    let mut scale = (seats.extent_m() * 1000.0 / SMALLEST).ceil().max(2.0);
    while scale >= 1.0 {
        match stand.drawn(scale, &mut finder) {
            Ok(drawn) => {
                return paper::body(pen, sheet, scale, &stand, &drawn).ok_or(why);
            }
            Err((reached, found)) => {
                if !paper::has_room(sheet, reached) {
                    break;
                }
                why = found;
            }
        }
        scale = (scale / GROWTH).floor();
    }
    Err(why)
}
