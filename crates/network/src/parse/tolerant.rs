//! Reads the structures from the shape of the text, noting every mistake, or
//! every value that stands there or could.
//!
//! Invariant: a structure or a list never fails as a whole. What is wrong in
//! it was noted, and its place in the file's structures is held by
//! [`Given::Unread`](crate::file::Given) or left empty.

use super::access::{Elements, Fields, Variant};
use super::notes::{At, Notes};
use super::refused::Refused;
use crate::code::Code;
use crate::file::{GIVEN, LayoutFile};
use crate::finding::Finding;
use crate::guess::word_meant;
use crate::outline::{Entry, EntryKind};
use crate::place::{PathStep, Place};
use crate::source::dialect;
use crate::syntax::{Shape, Value};
use crate::trade_word::meant;
use serde::de::{Deserialize, Deserializer, Visitor};
use serde::forward_to_deserialize_any;
use std::cell::RefCell;

/// Reads a whole file and adds its mistakes to those found before.
pub(super) fn read(text: &str, root: &Value, findings: &mut Vec<Finding>) -> Option<LayoutFile> {
    let notes = Notes {
        text,
        findings: RefCell::new(std::mem::take(findings)),
        entries: RefCell::default(),
        is_outline: false,
    };
    let file = LayoutFile::deserialize(Tolerant::new(&notes, root)).ok();
    *findings = notes.findings.into_inner();
    file
}

/// Every value that stands in a file, and those that could.
pub(crate) fn entries(text: &str, root: &Value) -> Option<Vec<Entry>> {
    let notes = Notes {
        text,
        findings: RefCell::default(),
        entries: RefCell::default(),
        is_outline: true,
    };
    LayoutFile::deserialize(Tolerant::new(&notes, root)).ok()?;
    Some(notes.entries.into_inner())
}

/// The reader of one value.
#[derive(Clone)]
pub(super) struct Tolerant<'n, 't> {
    pub(super) notes: &'n Notes<'t>,
    path: Vec<PathStep>,
    pub(super) at: At<'t>,
    /// Whether a word before the bracket was taken for a kind already.
    is_word_read: bool,
}

impl<'n, 't> Tolerant<'n, 't> {
    fn new(notes: &'n Notes<'t>, root: &'t Value) -> Self {
        Self {
            notes,
            path: Vec::new(),
            at: At::Here(root),
            is_word_read: false,
        }
    }

    /// The reader of a value inside this one.
    pub(super) fn below(&self, step: PathStep, at: At<'t>) -> Self {
        let mut path = self.path.clone();
        path.push(step);
        Self {
            notes: self.notes,
            path,
            at,
            is_word_read: false,
        }
    }

    /// The settings of a kind whose word was read.
    pub(super) fn behind_word(self) -> Self {
        Self {
            is_word_read: true,
            ..self
        }
    }

    /// Notes what is taken here, and gives the value if one stands here.
    fn value(&self, kind: EntryKind) -> Result<&'t Value, Refused> {
        self.notes.enter(kind, &self.path, &self.at);
        match self.at {
            At::Here(value) => Ok(value),
            At::Absent { .. } | At::Nowhere => Err(Refused::NOTED),
        }
    }

    fn written(&self, value: &Value) -> &'t str {
        &self.notes.text[value.range.clone()]
    }

    fn refuse(&self, value: &Value, expected: &str, help: &str) -> Refused {
        self.notes.expected(value, expected, help);
        Refused::NOTED
    }

    /// Notes what a visitor expected, unless the mistake lies inside and was
    /// noted there.
    fn wrong(&self, value: &Value, error: Refused) -> Refused {
        match error.expected {
            Some(expected) => {
                let help = "see docs/layout-format.md for what can stand here";
                self.refuse(value, &expected, help)
            }
            None => error,
        }
    }

    /// The text between the quotes.
    fn quoted(&self, value: &Value) -> Result<String, Refused> {
        if !matches!(value.shape, Shape::Text) {
            return Err(self.refuse(
                value,
                "a text in quotes",
                "put it in straight double quotes: `\"...\"`",
            ));
        }
        dialect().from_str(self.written(value)).map_err(|_| {
            self.notes.add(Finding::new(
                Code::Syntax,
                Place::Bytes(value.range.clone()),
                "the text in quotes cannot be read",
                "a backslash has a meaning of its own in a text: write `\\\\` for one",
            ));
            Refused::NOTED
        })
    }

    fn whole_number<V: Visitor<'t>>(&self, visitor: V) -> Result<V::Value, Refused> {
        let value = self.value(EntryKind::Count)?;
        let written = self.written(value);
        if !matches!(value.shape, Shape::Number) {
            return Err(self.refuse(
                value,
                "a whole number",
                "write a whole number without quotes",
            ));
        }
        let number = dialect().from_str::<u64>(written).ok();
        number
            .and_then(|number| visitor.visit_u64::<Refused>(number).ok())
            .ok_or_else(|| {
                self.notes.add(Finding::new(
                    Code::WrongType,
                    Place::Bytes(value.range.clone()),
                    format!("`{written}` stands where a whole number is expected"),
                    "count in whole numbers, without sign, point or fraction",
                ));
                Refused::NOTED
            })
    }

    /// Notes a quantity, or names that may also be lists: only a quantity
    /// takes a bare number.
    fn outlined<V: Visitor<'t>>(&self, visitor: V) -> Result<V::Value, Refused> {
        let quantity = visitor.visit_f64::<Refused>(1.0);
        if quantity.is_ok() {
            self.value(EntryKind::Quantity)?;
        } else if let Shape::List(items) = &self.value(EntryKind::Text)?.shape {
            for (index, item) in items.iter().enumerate() {
                let item = self.below(PathStep::Item(index), At::Here(item));
                item.value(EntryKind::Text)?;
            }
        }
        quantity
    }
}

impl<'t> Deserializer<'t> for Tolerant<'_, 't> {
    type Error = Refused;

    /// Quantities and names that may also be lists.
    fn deserialize_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        if self.notes.is_outline {
            return self.outlined(visitor);
        }
        let value = self.value(EntryKind::Text)?;
        let read = match &value.shape {
            Shape::Text => visitor.visit_string(self.quoted(value)?),
            Shape::List(items) => visitor.visit_seq(Elements::new(self.clone(), items)),
            // `inf` and `NaN` are words that RON reads as numbers.
            Shape::Number | Shape::Word => match dialect().from_str(self.written(value)) {
                Ok(number) => visitor.visit_f64(number),
                Err(_) => visitor.visit_unit(),
            },
            _ => visitor.visit_unit(),
        };
        read.map_err(|error| self.wrong(value, error))
    }

    fn deserialize_bool<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        let value = self.value(EntryKind::YesNo)?;
        match (&value.shape, self.written(value)) {
            (Shape::Word, "true") => visitor.visit_bool(true),
            (Shape::Word, "false") => visitor.visit_bool(false),
            _ => Err(self.refuse(
                value,
                "`true` or `false`",
                "write `true` or `false` without quotes",
            )),
        }
    }

    fn deserialize_u32<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        self.whole_number(visitor)
    }

    fn deserialize_u64<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        self.whole_number(visitor)
    }

    fn deserialize_str<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        visitor.visit_string(self.quoted(self.value(EntryKind::Text)?)?)
    }

    fn deserialize_string<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        self.deserialize_str(visitor)
    }

    /// An outline asks for what is left out all the same: it tells its kind.
    fn deserialize_option<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        let is_left_out = match self.at {
            At::Here(value) => match value.inside_some(self.notes.text) {
                Some(inside) => {
                    let at = At::Here(inside);
                    return Self { at, ..self }.deserialize_option(visitor);
                }
                None => matches!(value.shape, Shape::Word) && self.written(value) == "None",
            },
            At::Absent { .. } => true,
            At::Nowhere => return visitor.visit_none(),
        };
        if is_left_out && !self.notes.is_outline {
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'t>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refused> {
        if name != GIVEN {
            return visitor.visit_newtype_struct(self);
        }
        match &self.at {
            // Only what a file must give is read as `Given`.
            At::Absent { structure, fields } if !self.notes.is_outline => {
                let end = structure.range.end;
                let name = fields.join(".");
                self.notes.add(Finding::new(
                    Code::MissingField,
                    Place::Bytes(end.saturating_sub(1)..end),
                    format!("the field `{name}` is missing"),
                    format!("add `{name}: ...` before the closing bracket"),
                ));
                visitor.visit_unit()
            }
            At::Nowhere => visitor.visit_unit(),
            // Asks for `Unread` in place of an error.
            At::Here(_) | At::Absent { .. } => visitor.visit_some(self),
        }
    }

    fn deserialize_seq<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        let items: &[Value] = match self.value(EntryKind::List) {
            Ok(Value {
                shape: Shape::List(items),
                ..
            }) => items,
            Ok(value) => {
                let help = "a list stands in square brackets: `[ ... ]`";
                self.notes.expected(value, "a list", help);
                &[]
            }
            Err(_) => &[],
        };
        visitor.visit_seq(Elements::new(self, items))
    }

    fn deserialize_struct<V: Visitor<'t>>(
        self,
        _: &'static str,
        expected: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refused> {
        let At::Here(value) = self.at else {
            return visitor.visit_map(Fields::new(self, &[], expected));
        };
        let Shape::Structure { word, fields } = &value.shape else {
            self.notes.expected(
                value,
                "a structure in round brackets",
                "write its fields in round brackets: `( field: value, ... )`",
            );
            let at = At::Nowhere;
            return visitor.visit_map(Fields::new(Self { at, ..self }, &[], expected));
        };
        if let Some(word) = word.clone().filter(|_| !self.is_word_read) {
            let written = &self.notes.text[word.clone()];
            self.notes.add(Finding::new(
                Code::WrongType,
                Place::Bytes(word),
                format!("the word `{written}` stands before a bracket that needs none"),
                "take the word away and leave the bracket",
            ));
        }
        visitor.visit_map(Fields::new(self, fields, expected))
    }

    fn deserialize_enum<V: Visitor<'t>>(
        self,
        _: &'static str,
        words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refused> {
        let value = self.value(EntryKind::Word(words))?;
        let word = match &value.shape {
            Shape::Word => Some(value.range.clone()),
            Shape::Structure { word, .. } | Shape::Tuple { word, .. } => word.clone(),
            _ => None,
        };
        let Some(word) = word else {
            let is_text = matches!(value.shape, Shape::Text);
            let word = meant(self.written(value), words).filter(|_| is_text);
            let help = if let Some(word) = word {
                format!("write the bare word without quotes: {word}")
            } else if is_text {
                format!(
                    "write one of these words, without quotes: {}",
                    words.join(", ")
                )
            } else {
                format!("write one of {}", words.join(", "))
            };
            return Err(self.refuse(value, "a fixed word", &help));
        };
        let written = &self.notes.text[word.clone()];
        if words.contains(&written) {
            return visitor.visit_enum(Variant::new(self, value, written));
        }
        self.notes.add(
            Finding::new(
                Code::UnknownWord,
                Place::Bytes(word),
                format!("`{written}` is not a word that can stand here"),
                word_meant(written, words),
            )
            .allowing(words.join(", ")),
        );
        Err(Refused::NOTED)
    }

    forward_to_deserialize_any! {
        <V: Visitor<'t>>
        i8 i16 i32 i64 i128 u8 u16 u128 f32 f64 char bytes byte_buf unit unit_struct tuple
        tuple_struct map identifier ignored_any
    }
}
