//! What a sentence says, for programs: which fact it is, with the names and figures in it.

use crate::said::{Piece, Said};
use schemars::JsonSchema;
use serde::Serialize;

/// The fact behind a sentence.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FactJson {
    /// Which fact it is, such as `fluid_harms`.
    pub kind: &'static str,
    /// The names and remarks of the layout in its sentence, in their order.
    pub names: Vec<String>,
    /// The figures in it, as the sheet prints them.
    pub figures: Vec<String>,
}

impl FactJson {
    /// The fact whose words are `said`.
    pub(super) fn new(kind: &'static str, said: &Said) -> Self {
        let (mut names, mut figures) = (Vec::new(), Vec::new());
        for piece in said.pieces() {
            match piece {
                Piece::Words(_) => {}
                Piece::Name(text) | Piece::Bare(text) => names.push(text.clone()),
                Piece::Figure(text) => figures.push(text.clone()),
            }
        }
        Self {
            kind,
            names,
            figures,
        }
    }
}

/// Sentences with the names of their facts, and the facts themselves one for one.
pub(super) fn with_facts(
    told: impl IntoIterator<Item = (&'static str, Said)>,
) -> (Vec<Said>, Vec<FactJson>) {
    let fact = |(kind, said): (_, Said)| {
        let fact = FactJson::new(kind, &said);
        (said, fact)
    };
    told.into_iter().map(fact).unzip()
}
