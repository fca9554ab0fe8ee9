//! The text of a record taken apart: values with the bytes they take.

use std::ops::Range;

/// A value and the bytes it takes.
#[derive(Debug)]
pub(crate) struct Node {
    pub(crate) range: Range<usize>,
    pub(crate) shape: Shape,
}

/// What a value looks like.
#[derive(Debug)]
pub(crate) enum Shape {
    /// A text in quotes, with its escapes resolved.
    Text(String),
    /// A word or a number.
    Bare(String),
    Fields(Vec<Field>),
    Items(Vec<Node>),
}

#[derive(Debug)]
pub(crate) struct Field {
    pub(crate) name: String,
    pub(crate) name_range: Range<usize>,
    pub(crate) value: Node,
}

impl Node {
    /// The fields; none for anything but a structure.
    pub(crate) fn fields(&self) -> &[Field] {
        match &self.shape {
            Shape::Fields(fields) => fields,
            _ => &[],
        }
    }

    /// The items; none for anything but a list.
    pub(crate) fn items(&self) -> &[Node] {
        match &self.shape {
            Shape::Items(items) => items,
            _ => &[],
        }
    }

    pub(crate) fn field(&self, name: &str) -> Option<&Node> {
        self.fields()
            .iter()
            .find(|field| field.name == name)
            .map(|field| &field.value)
    }
}
