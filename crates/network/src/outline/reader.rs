//! Asks the structures of the format what they want, and notes where it
//! stands.

use super::structure::{Fields, Items, Kind};
use super::{Entry, EntryKind, Gap, Standing};
use crate::file::GIVEN;
use crate::place::Step;
use crate::syntax::{Shape, Value};
use crate::writing::unquoted;
use serde::de::value::Error;
use serde::de::{Deserializer, Error as _, Visitor};
use serde::forward_to_deserialize_any;
use std::cell::RefCell;

/// What stands where a value belongs.
#[derive(Clone, Debug)]
pub(super) enum At<'t> {
    /// A value.
    Here(&'t Value),
    /// Nothing; these fields are missing in the structure.
    Absent {
        structure: &'t Value,
        fields: Vec<&'static str>,
    },
    /// Something else stands around it, so that it could not be put there.
    Nowhere,
}

/// The reader of one value. It notes an entry and leaves a gap in the
/// structures of the file, which are thrown away.
#[derive(Clone)]
pub(super) struct Reader<'n, 't> {
    pub(super) text: &'t str,
    entries: &'n RefCell<Vec<Entry>>,
    path: Vec<Step>,
    pub(super) at: At<'t>,
}

impl<'n, 't> Reader<'n, 't> {
    pub(super) fn new(text: &'t str, entries: &'n RefCell<Vec<Entry>>, at: At<'t>) -> Self {
        Self {
            text,
            entries,
            path: Vec::new(),
            at,
        }
    }

    /// The reader of a value inside this one.
    pub(super) fn below(&self, step: Step, at: At<'t>) -> Self {
        let mut path = self.path.clone();
        path.push(step);
        Self { path, at, ..*self }
    }

    fn note(&self, kind: EntryKind) {
        let (kind, standing) = match &self.at {
            At::Nowhere => return,
            At::Here(value) => {
                let written = &self.text[value.range.clone()];
                let (kind, value_read) = match value.shape {
                    Shape::List(_) => (EntryKind::List, None),
                    Shape::Structure { .. } | Shape::Tuple { .. } | Shape::Map => {
                        (EntryKind::Brackets, None)
                    }
                    Shape::Text => (kind, unquoted(written)),
                    Shape::Word if written == "None" => (kind, None),
                    Shape::Word | Shape::Number | Shape::Character | Shape::Unread => {
                        (kind, Some(written.to_owned()))
                    }
                };
                let standing = Standing::Written {
                    range: value.range.clone(),
                    value: value_read,
                };
                (kind, standing)
            }
            At::Absent { structure, fields } => {
                let last = match &structure.shape {
                    Shape::Structure { fields, .. } => fields.last(),
                    _ => None,
                };
                let gap = Gap {
                    structure: structure.range.clone(),
                    last: last.map(|last| last.name.start..last.value.range.end),
                    fields: fields.clone(),
                };
                (kind, Standing::Absent(gap))
            }
        };
        self.entries.borrow_mut().push(Entry {
            path: self.path.clone(),
            kind,
            standing,
        });
    }

    fn noted<T>(&self, kind: EntryKind) -> Result<T, Error> {
        self.note(kind);
        Err(gap())
    }
}

/// Leaves a gap in the structures of the file.
pub(super) fn gap() -> Error {
    Error::custom("noted")
}

impl<'t> Deserializer<'t> for Reader<'_, 't> {
    type Error = Error;

    /// Quantities, and names that may also be lists: only a quantity takes a
    /// bare number.
    fn deserialize_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Error> {
        if let Ok(quantity) = visitor.visit_f64::<Error>(1.0) {
            self.note(EntryKind::Quantity);
            return Ok(quantity);
        }
        self.note(EntryKind::Text);
        if let At::Here(value) = &self.at
            && let Shape::List(items) = &value.shape
        {
            for (index, item) in items.iter().enumerate() {
                self.below(Step::Item(index), At::Here(item))
                    .note(EntryKind::Text);
            }
        }
        Err(gap())
    }

    fn deserialize_bool<V: Visitor<'t>>(self, _: V) -> Result<V::Value, Error> {
        self.noted(EntryKind::YesNo)
    }

    fn deserialize_u32<V: Visitor<'t>>(self, _: V) -> Result<V::Value, Error> {
        self.noted(EntryKind::Count)
    }

    fn deserialize_u64<V: Visitor<'t>>(self, _: V) -> Result<V::Value, Error> {
        self.noted(EntryKind::Count)
    }

    fn deserialize_str<V: Visitor<'t>>(self, _: V) -> Result<V::Value, Error> {
        self.noted(EntryKind::Text)
    }

    fn deserialize_string<V: Visitor<'t>>(self, _: V) -> Result<V::Value, Error> {
        self.noted(EntryKind::Text)
    }

    /// What may be left out is asked for all the same: it tells its kind.
    fn deserialize_option<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Error> {
        let inside = match &self.at {
            At::Here(value) => value.inside_some(self.text),
            _ => None,
        };
        match inside {
            Some(inside) => Self {
                at: At::Here(inside),
                ..self
            }
            .deserialize_option(visitor),
            None => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'t>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Error> {
        if name == GIVEN {
            // Asks for `Unread` in place of an error.
            visitor.visit_some(self)
        } else {
            visitor.visit_newtype_struct(self)
        }
    }

    fn deserialize_seq<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Error> {
        self.note(EntryKind::List);
        let items: &[Value] = match &self.at {
            At::Here(Value {
                shape: Shape::List(items),
                ..
            }) => items,
            _ => &[],
        };
        visitor.visit_seq(Items::new(self, items))
    }

    fn deserialize_struct<V: Visitor<'t>>(
        self,
        _: &'static str,
        expected: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        visitor.visit_map(Fields::new(self, expected))
    }

    fn deserialize_enum<V: Visitor<'t>>(
        self,
        _: &'static str,
        words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        self.note(EntryKind::Word(words));
        match &self.at {
            At::Here(Value {
                shape: Shape::Structure {
                    word: Some(word), ..
                },
                ..
            }) => {
                let word = &self.text[word.clone()];
                visitor.visit_enum(Kind::new(self, word))
            }
            _ => Err(gap()),
        }
    }

    forward_to_deserialize_any! {
        <V: Visitor<'t>>
        i8 i16 i32 i64 i128 u8 u16 u128 f32 f64 char bytes byte_buf unit unit_struct tuple
        tuple_struct map identifier ignored_any
    }
}
