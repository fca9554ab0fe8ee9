//! Reads the structures from the shape of the text, noting every mistake.
//!
//! Invariant: a structure or a list never fails as a whole. What is wrong in
//! it was noted, and its place in the file's structures is held by
//! [`Given::Unread`](crate::file::Given) or left empty.

use super::access::{Elements, Fields, Variant};
use crate::code::Code;
use crate::file::GIVEN;
use crate::finding::Finding;
use crate::guess::word_meant;
use crate::place::Place;
use crate::source::dialect;
use crate::syntax::{Shape, Slip, SlipKind, Value};
use crate::trade_word::meant;
use serde::de::value::StrDeserializer;
use serde::de::{
    Deserialize, Deserializer, Error, Expected, IntoDeserializer, Unexpected, Visitor,
};
use serde::forward_to_deserialize_any;
use std::cell::RefCell;
use std::fmt;
use std::ops::Range;

/// More structural mistakes than this are not listed.
const MOST_FINDINGS: usize = 1000;

/// Reads a whole file.
pub(super) fn read<'t, T: Deserialize<'t>>(
    text: &'t str,
    root: &'t Value,
    findings: &mut Vec<Finding>,
) -> Option<T> {
    let notes = Notes {
        text,
        findings: RefCell::new(std::mem::take(findings)),
    };
    let file = T::deserialize(Tolerant::new(&notes, root)).ok();
    *findings = notes.findings.into_inner();
    file
}

/// Where mistakes are noted while several readers are at work.
pub(super) struct Notes<'t> {
    pub(super) text: &'t str,
    findings: RefCell<Vec<Finding>>,
}

impl Notes<'_> {
    pub(super) fn add(&self, finding: Finding) {
        let mut findings = self.findings.borrow_mut();
        if findings.len() < MOST_FINDINGS {
            findings.push(finding);
            if findings.len() == MOST_FINDINGS {
                let slip = Slip {
                    kind: SlipKind::TooMany,
                    at: self.text.len()..self.text.len(),
                    began: None,
                };
                findings.push(slip.finding());
            }
        }
    }

    /// Whether so much is wrong that reading on makes no sense.
    pub(super) fn is_full(&self) -> bool {
        self.findings.borrow().len() > MOST_FINDINGS
    }

    /// Notes that something else stands where one kind of value is expected.
    pub(super) fn expected(&self, value: &Value, expected: &str, help: &str) {
        // A slip was noted already where nothing could be read.
        if let Some(found) = shape_words(&value.shape) {
            self.add(Finding::new(
                Code::WrongType,
                Place::Bytes(value.range.clone()),
                format!("{found} stands where {expected} is expected"),
                help,
            ));
        }
    }
}

fn shape_words(shape: &Shape) -> Option<&'static str> {
    match shape {
        Shape::Text => Some("a text in quotes"),
        Shape::Number => Some("a number"),
        Shape::Word => Some("a bare word"),
        Shape::Character => Some("a character in single quotes"),
        Shape::Structure { .. } => Some("a round bracket"),
        Shape::Tuple { .. } => Some("a round bracket without names of fields"),
        Shape::List(_) => Some("a list"),
        Shape::Map => Some("a curly bracket"),
        Shape::Unread => None,
    }
}

/// A value could not be read; why was noted, unless the message says it.
#[derive(Debug)]
pub(super) struct Refused {
    expected: Option<String>,
}

impl Refused {
    pub(super) const NOTED: Self = Self { expected: None };
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.expected.as_deref().unwrap_or("refused"))
    }
}

impl std::error::Error for Refused {}

impl Error for Refused {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self {
            expected: Some(message.to_string()),
        }
    }

    fn invalid_type(_: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self::custom(expected)
    }
}

/// The reader of one value.
#[derive(Clone, Copy)]
pub(super) struct Tolerant<'n, 't> {
    notes: &'n Notes<'t>,
    value: &'t Value,
    /// Whether a word before the bracket was taken for a kind already.
    is_word_read: bool,
}

impl<'n, 't> Tolerant<'n, 't> {
    pub(super) fn new(notes: &'n Notes<'t>, value: &'t Value) -> Self {
        Self {
            notes,
            value,
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

    pub(super) fn value(&self) -> &'t Value {
        self.value
    }

    pub(super) fn notes(&self) -> &'n Notes<'t> {
        self.notes
    }

    fn written(&self) -> &'t str {
        &self.notes.text[self.value.range.clone()]
    }

    fn refuse(self, expected: &str, help: &str) -> Refused {
        self.notes.expected(self.value, expected, help);
        Refused::NOTED
    }

    /// The text between the quotes.
    fn quoted(self) -> Result<String, Refused> {
        if !matches!(self.value.shape, Shape::Text) {
            return Err(self.refuse(
                "a text in quotes",
                "put it in straight double quotes: `\"...\"`",
            ));
        }
        dialect().from_str(self.written()).map_err(|_| {
            self.notes.add(Finding::new(
                Code::Syntax,
                Place::Bytes(self.value.range.clone()),
                "the text in quotes cannot be read",
                "a backslash has a meaning of its own in a text: write `\\\\` for one",
            ));
            Refused::NOTED
        })
    }

    fn whole_number<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        match self.value.shape {
            Shape::Number => dialect().from_str::<u64>(self.written()).ok(),
            _ => None,
        }
        .and_then(|number| visitor.visit_u64::<Refused>(number).ok())
        .ok_or_else(|| {
            if matches!(self.value.shape, Shape::Number) {
                let written = self.written();
                self.notes.add(Finding::new(
                    Code::WrongType,
                    Place::Bytes(self.value.range.clone()),
                    format!("`{written}` stands where a whole number is expected"),
                    "count in whole numbers, without sign, point or fraction",
                ));
                Refused::NOTED
            } else {
                self.refuse("a whole number", "write a whole number without quotes")
            }
        })
    }

    /// The word of a kind, and where it stands.
    fn kind_word(self) -> Option<Range<usize>> {
        match &self.value.shape {
            Shape::Word => Some(self.value.range.clone()),
            Shape::Structure { word, .. } | Shape::Tuple { word, .. } => word.clone(),
            _ => None,
        }
    }
}

impl<'t> Deserializer<'t> for Tolerant<'_, 't> {
    type Error = Refused;

    /// Quantities and names that may also be lists.
    fn deserialize_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        let read = match &self.value.shape {
            Shape::Text => {
                return visitor
                    .visit_string(self.quoted()?)
                    .or_else(|e| self.wrong(e));
            }
            Shape::List(items) => visitor.visit_seq(Elements::new(self.notes, items)),
            // `inf` and `NaN` are words that RON reads as numbers.
            Shape::Number | Shape::Word => match dialect().from_str(self.written()) {
                Ok(number) => visitor.visit_f64(number),
                Err(_) => visitor.visit_unit(),
            },
            _ => visitor.visit_unit(),
        };
        read.or_else(|error| self.wrong(error))
    }

    fn deserialize_bool<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        match (&self.value.shape, self.written()) {
            (Shape::Word, "true") => visitor.visit_bool(true),
            (Shape::Word, "false") => visitor.visit_bool(false),
            _ => Err(self.refuse(
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
        visitor.visit_string(self.quoted()?)
    }

    fn deserialize_string<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        match self.value.inside_some(self.notes.text) {
            Some(inside) => Self::new(self.notes, inside).deserialize_option(visitor),
            None if matches!(self.value.shape, Shape::Word) && self.written() == "None" => {
                visitor.visit_none()
            }
            None => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'t>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refused> {
        if name == GIVEN {
            // Asks for `Unread` in place of an error.
            visitor.visit_some(self)
        } else {
            visitor.visit_newtype_struct(self)
        }
    }

    fn deserialize_seq<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        let items: &[Value] = if let Shape::List(items) = &self.value.shape {
            items
        } else {
            let help = "a list stands in square brackets: `[ ... ]`";
            self.notes.expected(self.value, "a list", help);
            &[]
        };
        visitor.visit_seq(Elements::new(self.notes, items))
    }

    fn deserialize_struct<V: Visitor<'t>>(
        self,
        _: &'static str,
        expected: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refused> {
        let fields = if let Shape::Structure { word, fields } = &self.value.shape {
            if let Some(word) = word.clone().filter(|_| !self.is_word_read) {
                let written = &self.notes.text[word.clone()];
                self.notes.add(Finding::new(
                    Code::WrongType,
                    Place::Bytes(word),
                    format!("the word `{written}` stands before a bracket that needs none"),
                    "take the word away and leave the bracket",
                ));
            }
            Some(fields.as_slice())
        } else {
            self.notes.expected(
                self.value,
                "a structure in round brackets",
                "write its fields in round brackets: `( field: value, ... )`",
            );
            None
        };
        visitor.visit_map(Fields::new(self, fields, expected))
    }

    fn deserialize_enum<V: Visitor<'t>>(
        self,
        _: &'static str,
        words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refused> {
        let Some(word) = self.kind_word() else {
            let is_text = matches!(self.value.shape, Shape::Text);
            let word = meant(self.written(), words).filter(|_| is_text);
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
            return Err(self.refuse("a fixed word", &help));
        };
        let written = &self.notes.text[word.clone()];
        if words.contains(&written) {
            return visitor.visit_enum(Variant::new(self, written));
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

impl Tolerant<'_, '_> {
    /// Notes what a visitor expected, unless the mistake lies inside and was
    /// noted there.
    fn wrong<T>(self, error: Refused) -> Result<T, Refused> {
        Err(match error.expected {
            Some(expected) => self.refuse(
                &expected,
                "see docs/layout-format.md for what can stand here",
            ),
            None => error,
        })
    }
}

/// A word or the name of a field as serde wants it.
pub(super) fn spelled(word: &str) -> StrDeserializer<'_, Refused> {
    word.into_deserializer()
}
