//! Pictures: charts, and the pipework of a vehicle in the manner of a hydraulic diagram.
//!
//! A [`Picture`] is plain data, so that a page, a file and a printer can all show the same one; [`svg`] writes it as a
//! file of its own, [`svg_for_page`] as a piece of an HTML page.
//!
//! Invariant: every text of a picture has the length that [`Text::width_mm`] says, whatever font its reader has.
//!
//! Invariant: a picture carries no styles, scripts or identifiers, so that a page with a strict policy may hold several.
//!
//! Invariant: in a schematic every line has pieces of tracks and lanes for itself, and these lie between parts.
//!
//! # Map
//!
//! - `picture`, `svg`: a picture as plain data; the same as SVG
//! - `ink`: colours and patterns of circuits
//! - `lettering`: how long a text is, by `widths`
//! - [`chart`]: line charts; `scale` for axes with round numbers
//! - `schematic`: the pipework from above. `arrange` and `sites` say where each part belongs, `boxes`, `place` and `units` how
//!   large and how high it stands, `ends`, `lanes` and `route` how lines run, `lines`, `bodies`, `symbol` and `reservoir` how all of
//!   it is drawn, `label` and `hue` what it is called and coloured after, `sheet`, `legend` and `key` what stands around it,
//!   `told` what of it is in words, which whoever has it drawn gives;
//!   `measure` holds all measures
//!
//! # Sources
//!
//! Full titles are in docs/references.md.
//!
//! - \[ISO1219\] symbols.
//! - \[Okabe2008\] colours that the colour-blind tell apart.
//! - \[UAX9\] which way a text runs.
//! - \[WCAG22\] contrast against the paper.

pub mod chart;
mod ink;
mod lettering;
mod picture;
mod schematic;
mod svg;

pub use ink::{Ink, Pattern, Stroke, circuit_stroke};
pub use lettering::{Weight, printable, shortened, width_em};
pub use picture::{Anchor, Circle, Group, Mark, Path, Picture, Point, Segment, Text};
pub use schematic::{Told, Words, printed_volume, schematic, schematic_for_card};
pub use svg::{svg, svg_for_page};
