//! What stands inside a structure, a list or a kind.

use super::reader::{At, Reader, gap};
use crate::place::Step;
use crate::syntax::{Shape, Value};
use serde::de::value::{Error, StrDeserializer};
use serde::de::{
    DeserializeSeed, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use std::iter::Enumerate;
use std::{slice, vec};

/// The fields of a structure, those that stand there first, and the others.
pub(super) struct Fields<'n, 't> {
    reader: Reader<'n, 't>,
    fields: vec::IntoIter<(&'static str, At<'t>)>,
    next: Option<(&'static str, At<'t>)>,
}

impl<'n, 't> Fields<'n, 't> {
    pub(super) fn new(reader: Reader<'n, 't>, expected: &'static [&'static str]) -> Self {
        let mut open = expected.to_vec();
        let mut fields = Vec::new();
        if let At::Here(value) = &reader.at
            && let Shape::Structure { fields: given, .. } = &value.shape
        {
            for field in given {
                let name = &reader.text[field.name.clone()];
                if let Some(at) = open.iter().position(|open| *open == name) {
                    fields.push((open.remove(at), At::Here(&field.value)));
                }
            }
        }
        for name in open {
            let at = match &reader.at {
                At::Here(value) if matches!(value.shape, Shape::Structure { .. }) => At::Absent {
                    structure: value,
                    fields: vec![name],
                },
                At::Absent { structure, fields } => At::Absent {
                    structure,
                    fields: fields.iter().copied().chain([name]).collect(),
                },
                At::Here(_) | At::Nowhere => At::Nowhere,
            };
            fields.push((name, at));
        }
        Self {
            reader,
            fields: fields.into_iter(),
            next: None,
        }
    }
}

impl<'t> MapAccess<'t> for Fields<'_, 't> {
    type Error = Error;

    fn next_key_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Error> {
        self.next = self.fields.next();
        self.next
            .as_ref()
            .map(|(name, _)| seed.deserialize(spelled(name)))
            .transpose()
    }

    fn next_value_seed<S: DeserializeSeed<'t>>(&mut self, seed: S) -> Result<S::Value, Error> {
        let (name, at) = self.next.take().ok_or_else(gap)?;
        seed.deserialize(self.reader.below(Step::Field(name), at))
    }
}

/// The items of a list.
pub(super) struct Items<'n, 't> {
    reader: Reader<'n, 't>,
    items: Enumerate<slice::Iter<'t, Value>>,
}

impl<'n, 't> Items<'n, 't> {
    pub(super) fn new(reader: Reader<'n, 't>, items: &'t [Value]) -> Self {
        Self {
            reader,
            items: items.iter().enumerate(),
        }
    }
}

impl<'t> SeqAccess<'t> for Items<'_, 't> {
    type Error = Error;

    fn next_element_seed<S: DeserializeSeed<'t>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Error> {
        let next = self.items.next();
        next.map(|(index, item)| {
            seed.deserialize(self.reader.below(Step::Item(index), At::Here(item)))
        })
        .transpose()
    }
}

/// A kind with its settings in brackets.
pub(super) struct Kind<'n, 't> {
    reader: Reader<'n, 't>,
    word: &'t str,
}

impl<'n, 't> Kind<'n, 't> {
    pub(super) fn new(reader: Reader<'n, 't>, word: &'t str) -> Self {
        Self { reader, word }
    }
}

impl<'t> EnumAccess<'t> for Kind<'_, 't> {
    type Error = Error;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<(S::Value, Self), Error> {
        Ok((seed.deserialize(spelled(self.word))?, self))
    }
}

impl<'t> VariantAccess<'t> for Kind<'_, 't> {
    type Error = Error;

    fn unit_variant(self) -> Result<(), Error> {
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'t>>(self, seed: S) -> Result<S::Value, Error> {
        seed.deserialize(self.reader)
    }

    fn tuple_variant<V: Visitor<'t>>(self, _: usize, _: V) -> Result<V::Value, Error> {
        Err(gap())
    }

    fn struct_variant<V: Visitor<'t>>(
        self,
        _: &'static [&'static str],
        _: V,
    ) -> Result<V::Value, Error> {
        Err(gap())
    }
}

fn spelled(word: &str) -> StrDeserializer<'_, Error> {
    word.into_deserializer()
}
