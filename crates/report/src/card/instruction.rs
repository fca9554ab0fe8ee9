//! A line to work by.

use crate::said::{Said, say};

/// A line to work by, and what is said of it where there is time to read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instruction {
    /// What hands do, or what is right.
    pub does: Said,
    /// How, and why.
    pub more: Said,
}

impl Instruction {
    /// The same with more to say of it.
    pub(super) fn more(self, more: impl Into<Said>) -> Self {
        let more = more.into();
        Self { more, ..self }
    }

    /// What hands do, as a sentence.
    pub fn sentence(&self) -> Said {
        say!("{}.", self.does.clone())
    }

    /// All of it, as sentences.
    pub fn whole(&self) -> Said {
        if self.more.is_empty() {
            return self.sentence();
        }
        say!("{} {}", self.sentence(), self.more.clone())
    }
}

impl<S: Into<Said>> From<S> for Instruction {
    fn from(does: S) -> Self {
        Self {
            does: does.into(),
            more: Said::default(),
        }
    }
}

/// A line to work by from its template, or from two: the second for where there is time.
macro_rules! line {
    ($does:expr) => {
        $crate::card::instruction::Instruction::from($does)
    };
    ($does:expr; $more:expr) => {
        $crate::card::instruction::Instruction::from($does).more($more)
    };
}
pub(super) use line;
