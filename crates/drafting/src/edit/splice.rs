//! Pieces put into a text, and where its bytes went.

use bleedwright_network::{Entry, Presence, behind_last_field};
use std::ops::Range;

/// What was put where, one after the other.
#[derive(Debug, Default)]
pub(super) struct Splices(Vec<(Range<usize>, usize)>);

impl Splices {
    /// Puts a value in the place of an entry of this text.
    pub(super) fn put(&mut self, text: &mut String, entry: &Entry, token: &str) {
        match &entry.standing {
            Presence::Written { range, .. } => self.splice(text, range.clone(), token),
            Presence::Absent(gap) => {
                let (outer, inner) = gap.fields.split_first().unwrap_or((&"", &[]));
                let value = inner.iter().rev().fold(token.to_owned(), |value, field| {
                    format!("({field}: {value})")
                });
                let field = format!("{outer}: {value}");
                let pieces = behind_last_field(text, &gap.structure, gap.last.as_ref(), &field);
                for (at, piece) in pieces.into_iter().rev() {
                    self.splice(text, at..at, &piece);
                }
            }
        }
    }

    fn splice(&mut self, text: &mut String, range: Range<usize>, piece: &str) {
        text.replace_range(range.clone(), piece);
        self.0.push((range, piece.len()));
    }

    /// Where a byte of the first text stands now; one that was replaced, where that begins which replaced it.
    pub(super) fn follow(&self, byte: usize) -> usize {
        self.0.iter().fold(byte, |byte, (range, length)| {
            if byte >= range.end {
                byte - range.len() + length
            } else {
                byte.min(range.start)
            }
        })
    }
}
