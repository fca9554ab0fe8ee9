//! Where in a layout file, or in the options, something was found.

use std::fmt;
use std::ops::Range;

/// One step from a value to a value inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PathStep {
    /// A field of a structure.
    Field(&'static str),
    /// An item of a list, counted from zero.
    Item(usize),
}

/// A path being walked: it lives on the stack and costs nothing until a
/// finding wants to keep it.
#[derive(Clone, Copy)]
pub(crate) struct Walk<'a> {
    parent: Option<&'a Walk<'a>>,
    step: Option<PathStep>,
}

impl<'a> Walk<'a> {
    /// The whole file.
    pub(crate) const ROOT: Walk<'static> = Walk {
        parent: None,
        step: None,
    };

    pub(crate) fn field(&'a self, name: &'static str) -> Walk<'a> {
        Walk {
            parent: Some(self),
            step: Some(PathStep::Field(name)),
        }
    }

    pub(crate) fn item(&'a self, index: usize) -> Walk<'a> {
        Walk {
            parent: Some(self),
            step: Some(PathStep::Item(index)),
        }
    }

    /// The items of a list, each with its path.
    pub(crate) fn items<T>(
        &'a self,
        items: impl IntoIterator<Item = T>,
    ) -> impl Iterator<Item = (Walk<'a>, T)> {
        let items = items.into_iter().enumerate();
        items.map(|(index, item)| (self.item(index), item))
    }

    pub(crate) fn place(&self) -> Place {
        let way = std::iter::successors(Some(self), |walk| walk.parent);
        let mut steps: Vec<PathStep> = way.filter_map(|walk| walk.step).collect();
        steps.reverse();
        Place::Path(steps)
    }
}

/// The place of a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// A range of bytes of the layout file.
    Bytes(Range<usize>),
    /// A value of the layout file by the way to it; the text is searched for
    /// it only when there is something to report.
    Path(Vec<PathStep>),
    /// A command-line option such as `--order`.
    Option(&'static str),
}

impl Place {
    /// The path `list[index]` of a top-level list.
    pub fn item(list: &'static str, index: usize) -> Self {
        Self::Path(vec![PathStep::Field(list), PathStep::Item(index)])
    }

    /// This path and a field below it; other places stay as they are.
    #[must_use]
    pub fn field(self, name: &'static str) -> Self {
        self.then(PathStep::Field(name))
    }

    /// This path and a list item below it; other places stay as they are.
    #[must_use]
    pub fn nth(self, index: usize) -> Self {
        self.then(PathStep::Item(index))
    }

    fn then(self, step: PathStep) -> Self {
        match self {
            Self::Path(mut steps) => {
                steps.push(step);
                Self::Path(steps)
            }
            other => other,
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bytes(range) => write!(f, "bytes {}..{}", range.start, range.end),
            Self::Option(name) => f.write_str(name),
            Self::Path(steps) => {
                for (nth, step) in steps.iter().enumerate() {
                    match step {
                        PathStep::Field(name) if nth == 0 => f.write_str(name)?,
                        PathStep::Field(name) => write!(f, ".{name}")?,
                        PathStep::Item(index) => write!(f, "[{index}]")?,
                    }
                }
                Ok(())
            }
        }
    }
}
