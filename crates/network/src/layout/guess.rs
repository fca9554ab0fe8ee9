//! Values that the file marks as guesses, with a `?` at their end.

use crate::place::{Place, Step};

/// A value that was guessed and not measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guess {
    steps: Vec<Step>,
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

    /// The item of a top-level list that it belongs to: `lines` and the place there.
    pub fn item(&self) -> Option<(&'static str, usize)> {
        match self.steps[..] {
            [Step::Field(list), Step::Item(index), ..] => Some((list, index)),
            _ => None,
        }
    }

    /// The field whose value it is.
    pub fn field(&self) -> &'static str {
        self.steps
            .iter()
            .rev()
            .find_map(|step| match step {
                Step::Field(name) => Some(*name),
                Step::Item(_) => None,
            })
            .unwrap_or_default()
    }
}
