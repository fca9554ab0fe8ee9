//! From the file as written to a layout with values: every quantity read,
//! ranged and, where the file is silent, assumed.

mod brake;
mod brake_default;
mod cylinder;
mod line;
mod name;
mod odd_unit;
mod part;
mod range;
mod reader;
mod reservoir;
mod viscosity;

use crate::file::{LayoutFile, known, words};
use crate::finding::Finding;
use crate::layout::{Guess, Layout};
use reader::Reader;

/// Reads every value. The layout is complete in shape even when there are
/// findings: what could not be read holds the lowest allowed value, so that
/// the pipework can still be checked. Nothing is planned from such a layout.
pub(crate) fn resolve(file: &LayoutFile) -> (Layout, Vec<Finding>) {
    let (mut layout, mut reader) = read(file, false);
    if reader.lengths.inches() == Some(true) && !reader.findings.is_empty() {
        // What is offered in place of a wrong value is offered in the file's own units.
        (layout, reader) = read(file, true);
    }
    reader.findings.extend(reader.lengths.odd());
    (layout, reader.findings)
}

fn read(file: &LayoutFile, is_in_inches: bool) -> (Layout, Reader) {
    let mut reader = Reader {
        is_in_inches,
        ..Reader::default()
    };
    name::check_names(file, &mut reader.findings);
    let parts = name::line_ends(file);
    let mut layout = Layout {
        name: words(&file.name),
        notes: known(&file.notes).cloned(),
        steering: known(&file.steering).copied(),
        fluid: known(&file.fluid).copied(),
        viscosity: reader.viscosity(&file.viscosity),
        declared_split: known(&file.split).copied(),
        reservoirs: reader.reservoirs(&file.reservoirs),
        cylinders: reader.cylinders(&file.cylinders),
        balance_bars: reader.balance_bars(&file.balance_bars),
        parts: reader.parts(&file.parts),
        lines: reader.lines(&file.lines, &parts),
        maker_order: file
            .maker_order
            .as_ref()
            .map(|order| order.iter().map(words).collect()),
        guesses: Vec::new(),
    };
    layout.guesses = std::mem::take(&mut reader.guesses);
    layout.guesses.sort_by_key(Guess::rank);
    (layout, reader)
}
