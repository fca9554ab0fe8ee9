//! What stands inside a structure, a list or a kind.

use super::notes::At;
use super::refused::Refused;
use super::tolerant::Tolerant;
use crate::code::Code;
use crate::finding::Finding;
use crate::guess::{nearest, suggest};
use crate::place::{PathStep, Place};
use crate::syntax::{Field, Shape, Value};
use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use std::iter::Enumerate;
use std::slice;

/// The items of a list.
pub(super) struct Elements<'n, 't> {
    reader: Tolerant<'n, 't>,
    items: Enumerate<slice::Iter<'t, Value>>,
}

impl<'n, 't> Elements<'n, 't> {
    pub(super) fn new(reader: Tolerant<'n, 't>, items: &'t [Value]) -> Self {
        Self {
            reader,
            items: items.iter().enumerate(),
        }
    }
}

impl<'t> SeqAccess<'t> for Elements<'_, 't> {
    type Error = Refused;

    fn next_element_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Refused> {
        if self.reader.notes.is_full() {
            return Ok(None);
        }
        let next = self.items.next();
        next.map(|(index, item)| {
            seed.deserialize(self.reader.below(PathStep::Item(index), At::Here(item)))
        })
        .transpose()
    }
}

/// The fields of a structure: those that stand there, then those that do not.
pub(super) struct Fields<'n, 't> {
    reader: Tolerant<'n, 't>,
    fields: slice::Iter<'t, Field>,
    /// Fields that were not given yet.
    open: Vec<&'static str>,
    expected: &'static [&'static str],
    /// Fields that an unknown one was probably meant for: they are not said
    /// to be missing on top of it.
    misspelt: Vec<&'static str>,
    next: Option<(&'static str, At<'t>)>,
}

impl<'n, 't> Fields<'n, 't> {
    pub(super) fn new(
        reader: Tolerant<'n, 't>,
        fields: &'t [Field],
        expected: &'static [&'static str],
    ) -> Self {
        Self {
            reader,
            fields: fields.iter(),
            open: expected.to_vec(),
            expected,
            misspelt: Vec::new(),
            next: None,
        }
    }

    /// The next field that belongs here; others are noted and passed.
    fn next_given(&mut self) -> Option<(&'static str, At<'t>)> {
        let notes = self.reader.notes;
        for field in &mut self.fields {
            if notes.is_full() {
                return None;
            }
            let name = &notes.text[field.name.clone()];
            let place = Place::Bytes(field.name.clone());
            if let Some(at) = self.open.iter().position(|open| *open == name) {
                return Some((self.open.remove(at), At::Here(&field.value)));
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
    /// What stands in place of a field that is not given.
    fn absent(&self, name: &'static str) -> At<'t> {
        match &self.reader.at {
            At::Here(_) if self.misspelt.contains(&name) && !self.reader.notes.is_outline => {
                At::Nowhere
            }
            At::Here(structure) => At::Absent {
                structure,
                fields: vec![name],
            },
            At::Absent { structure, fields } => At::Absent {
                structure,
                fields: fields.iter().copied().chain([name]).collect(),
            },
            At::Nowhere => At::Nowhere,
        }
    }
}

impl<'t> MapAccess<'t> for Fields<'_, 't> {
    type Error = Refused;

    fn next_key_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Refused> {
        let next = self.next_given().or_else(|| {
            let name = (!self.open.is_empty()).then(|| self.open.remove(0))?;
            Some((name, self.absent(name)))
        });
        self.next = next;
        self.next
            .as_ref()
            .map(|(name, _)| seed.deserialize(spelled(name)))
            .transpose()
    }

    fn next_value_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<S::Value, Refused> {
        let (name, at) = self.next.take().ok_or(Refused::NOTED)?;
        seed.deserialize(self.reader.below(PathStep::Field(name), at))
    }
}

/// A fixed word, alone or with settings in brackets behind it.
pub(super) struct Variant<'n, 't> {
    reader: Tolerant<'n, 't>,
    value: &'t Value,
    word: &'t str,
}

impl<'n, 't> Variant<'n, 't> {
    pub(super) fn new(reader: Tolerant<'n, 't>, value: &'t Value, word: &'t str) -> Self {
        Self {
            reader,
            value,
            word,
        }
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
        if !matches!(self.value.shape, Shape::Word) {
            self.reader.notes.add(Finding::new(
                Code::WrongType,
                Place::Bytes(self.value.range.clone()),
                format!("brackets stand behind `{}`", self.word),
                "this word stands alone, without brackets",
            ));
        }
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<S::Value, Refused> {
        if matches!(self.value.shape, Shape::Word) {
            self.reader.notes.add(Finding::new(
                Code::WrongType,
                Place::Bytes(self.value.range.clone()),
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

/// A word or the name of a field as serde wants it.
fn spelled(word: &str) -> StrDeserializer<'_, Refused> {
    word.into_deserializer()
}
