//! What stands inside a structure, a list or a kind.

use super::tolerant::{Notes, Refused, Tolerant, spelled};
use crate::code::Code;
use crate::file::GIVEN;
use crate::finding::Finding;
use crate::guess::{nearest, suggest};
use crate::place::Place;
use crate::syntax::{Field, Shape, Value};
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;
use std::slice;

/// The items of a list.
pub(super) struct Elements<'n, 't> {
    notes: &'n Notes<'t>,
    items: slice::Iter<'t, Value>,
}

impl<'n, 't> Elements<'n, 't> {
    pub(super) fn new(notes: &'n Notes<'t>, items: &'t [Value]) -> Self {
        Self {
            notes,
            items: items.iter(),
        }
    }
}

impl<'t> SeqAccess<'t> for Elements<'_, 't> {
    type Error = Refused;

    fn next_element_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Refused> {
        if self.notes.is_full() {
            return Ok(None);
        }
        self.items
            .next()
            .map(|item| seed.deserialize(Tolerant::new(self.notes, item)))
            .transpose()
    }
}

/// The fields of a structure: those that stand there, then those that do not.
pub(super) struct Fields<'n, 't> {
    reader: Tolerant<'n, 't>,
    /// None when there is no structure to look into.
    fields: Option<slice::Iter<'t, Field>>,
    /// Fields that were not given yet.
    open: Vec<&'static str>,
    expected: &'static [&'static str],
    /// Fields that an unknown one was probably meant for: they are not said
    /// to be missing on top of it.
    misspelt: Vec<&'static str>,
    next: Option<Next<'t>>,
}

enum Next<'t> {
    Given(&'t Value),
    Missing(&'static str),
}

impl<'n, 't> Fields<'n, 't> {
    pub(super) fn new(
        reader: Tolerant<'n, 't>,
        fields: Option<&'t [Field]>,
        expected: &'static [&'static str],
    ) -> Self {
        Self {
            reader,
            fields: fields.map(<[Field]>::iter),
            open: expected.to_vec(),
            expected,
            misspelt: Vec::new(),
            next: None,
        }
    }

    /// The next field that belongs here; others are noted and passed.
    fn next_given(&mut self) -> Option<(&'static str, &'t Value)> {
        let notes = self.reader.notes();
        for field in self.fields.as_mut()? {
            if notes.is_full() {
                return None;
            }
            let name = &notes.text[field.name.clone()];
            let place = Place::Bytes(field.name.clone());
            if let Some(at) = self.open.iter().position(|open| *open == name) {
                return Some((self.open.remove(at), &field.value));
            }
            if self.expected.contains(&name) {
                notes.add(Finding::new(
                    Code::RepeatedField,
                    place,
                    format!("the field `{name}` is given twice"),
                    "keep the one that is right",
                ));
                continue;
            }
            self.misspelt
                .extend(nearest(name, self.expected.iter().copied()));
            notes.add(
                Finding::new(
                    Code::UnknownField,
                    place,
                    format!("there is no field `{name}` here"),
                    suggest(name, self.expected),
                )
                .allowing(self.expected.join(", ")),
            );
        }
        None
    }
}

impl<'t> MapAccess<'t> for Fields<'_, 't> {
    type Error = Refused;

    fn next_key_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Refused> {
        let (name, next) = if let Some((name, value)) = self.next_given() {
            (name, Next::Given(value))
        } else if self.open.is_empty() {
            return Ok(None);
        } else {
            let name = self.open.remove(0);
            (name, Next::Missing(name))
        };
        self.next = Some(next);
        seed.deserialize(spelled(name)).map(Some)
    }

    fn next_value_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<S::Value, Refused> {
        match self.next.take() {
            Some(Next::Given(value)) => seed.deserialize(Tolerant::new(self.reader.notes(), value)),
            Some(Next::Missing(name)) => seed.deserialize(Missing {
                notes: self.reader.notes(),
                structure: self.reader.value(),
                name,
                is_known: self.fields.is_none() || self.misspelt.contains(&name),
            }),
            None => Err(Refused::NOTED),
        }
    }
}

/// Stands for a field that is not there.
struct Missing<'n, 't> {
    notes: &'n Notes<'t>,
    structure: &'t Value,
    name: &'static str,
    /// Whether its absence follows from a mistake that was noted.
    is_known: bool,
}

impl<'t> Deserializer<'t> for Missing<'_, 't> {
    type Error = Refused;

    fn deserialize_any<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        visitor.visit_unit()
    }

    fn deserialize_option<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        visitor.visit_none()
    }

    fn deserialize_seq<V: Visitor<'t>>(self, visitor: V) -> Result<V::Value, Refused> {
        visitor.visit_seq(Elements::new(self.notes, &[]))
    }

    fn deserialize_newtype_struct<V: Visitor<'t>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Refused> {
        // Only what a file must give is read as `Given`.
        if name == GIVEN && !self.is_known {
            let end = self.structure.range.end;
            self.notes.add(Finding::new(
                Code::MissingField,
                Place::Bytes(end.saturating_sub(1)..end),
                format!("the field `{}` is missing", self.name),
                format!("add `{}: ...` before the closing bracket", self.name),
            ));
        }
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        <V: Visitor<'t>>
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit
        unit_struct tuple tuple_struct map struct enum identifier ignored_any
    }
}

/// A fixed word, alone or with settings in brackets behind it.
pub(super) struct Variant<'n, 't> {
    reader: Tolerant<'n, 't>,
    word: &'t str,
}

impl<'n, 't> Variant<'n, 't> {
    pub(super) fn new(reader: Tolerant<'n, 't>, word: &'t str) -> Self {
        Self { reader, word }
    }
}

impl<'t> EnumAccess<'t> for Variant<'_, 't> {
    type Error = Refused;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<(S::Value, Self), Refused> {
        Ok((seed.deserialize(spelled(self.word))?, self))
    }
}

impl<'t> VariantAccess<'t> for Variant<'_, 't> {
    type Error = Refused;

    fn unit_variant(self) -> Result<(), Refused> {
        let value = self.reader.value();
        if !matches!(value.shape, Shape::Word) {
            self.reader.notes().add(Finding::new(
                Code::WrongType,
                Place::Bytes(value.range.clone()),
                format!("brackets stand behind `{}`", self.word),
                "this word stands alone, without brackets",
            ));
        }
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<S::Value, Refused> {
        let value = self.reader.value();
        if matches!(value.shape, Shape::Word) {
            self.reader.notes().add(Finding::new(
                Code::WrongType,
                Place::Bytes(value.range.clone()),
                format!(
                    "the settings in brackets are missing behind `{}`",
                    self.word
                ),
                format!(
                    "write `{0}(...)`, or `{0}()` when there is nothing to say",
                    self.word
                ),
            ));
            return Err(Refused::NOTED);
        }
        seed.deserialize(self.reader.behind_word())
    }

    fn tuple_variant<V: Visitor<'t>>(self, _: usize, visitor: V) -> Result<V::Value, Refused> {
        visitor.visit_unit()
    }

    fn struct_variant<V: Visitor<'t>>(
        self,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Refused> {
        visitor.visit_unit()
    }
}
