//! Values that the file marks as guesses, with a `?` at their end.

use super::Layout;
use crate::place::{PathStep, Place};

/// A value that was guessed and not measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guess {
    steps: Vec<PathStep>,
}

impl Guess {
    pub(crate) fn at(place: Place) -> Option<Self> {
        match place {
            Place::Path(steps) => Some(Self { steps }),
            Place::Bytes(_) | Place::Option(_) => None,
        }
    }

    /// Where it stands in the file.
    pub fn place(&self) -> Place {
        Place::Path(self.steps.clone())
    }

    /// The places in the lists inside that item: of a piston its cavity's,
    /// where the brake has a list of them, and its own.
    fn inner(&self) -> impl Iterator<Item = usize> + '_ {
        let places = self.steps.iter().filter_map(|step| match step {
            PathStep::Item(place) => Some(*place),
            PathStep::Field(_) => None,
        });
        places.skip(1)
    }

    /// The item of a top-level list that it belongs to: `lines` and the place there.
    pub fn item(&self) -> Option<(&'static str, usize)> {
        match self.steps[..] {
            [PathStep::Field(list), PathStep::Item(index), ..] => Some((list, index)),
            _ => None,
        }
    }

    /// The field whose value it is.
    pub fn field(&self) -> &'static str {
        self.steps
            .iter()
            .rev()
            .find_map(|step| match step {
                PathStep::Field(name) => Some(*name),
                PathStep::Item(_) => None,
            })
            .unwrap_or_default()
    }
}

impl Guess {
    /// Where it stands among the others: by list, in the order of the format,
    /// and by the item's place there.
    pub(crate) fn rank(&self) -> (usize, usize) {
        self.item().map_or((0, 0), rank)
    }
}

fn rank((list, index): (&'static str, usize)) -> (usize, usize) {
    const LISTS: [&str; 5] = ["reservoirs", "cylinders", "balance_bars", "parts", "lines"];
    let of_list = LISTS.iter().position(|name| *name == list);
    (of_list.map_or(0, |place| place + 1), index)
}

impl Layout {
    /// Whether the file marks a value as a guess: one of these fields of an
    /// item of a top-level list, at these places in the lists inside it.
    pub fn is_guessed(
        &self,
        (list, index): (&'static str, usize),
        fields: &[&str],
        inner: &[usize],
    ) -> bool {
        // Sorted, because a file may hold very many guesses.
        let wanted = rank((list, index));
        let start = self.guesses.partition_point(|guess| guess.rank() < wanted);
        self.guesses[start..]
            .iter()
            .take_while(|guess| guess.rank() == wanted)
            .any(|guess| fields.contains(&guess.field()) && guess.inner().eq(inner.iter().copied()))
    }
}
