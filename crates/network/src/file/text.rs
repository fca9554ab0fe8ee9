//! Values that may be written in more than one way.

use super::Name;
use serde::de::{Deserialize, Deserializer, Error, SeqAccess, Visitor};
use std::fmt;

/// A quantity as written: a string with a unit, or a bare number.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Text {
    Written(String),
    Bare(f64),
}

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct TextVisitor;
        impl Visitor<'_> for TextVisitor {
            type Value = Text;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a quantity in quotes with its unit, such as \"3.3 mm\"")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Text, E> {
                Ok(Text::Written(text.to_owned()))
            }

            fn visit_f64<E: Error>(self, number: f64) -> Result<Text, E> {
                Ok(Text::Bare(number))
            }

            fn visit_i64<E: Error>(self, number: i64) -> Result<Text, E> {
                Ok(Text::Bare(number as f64))
            }

            fn visit_u64<E: Error>(self, number: u64) -> Result<Text, E> {
                Ok(Text::Bare(number as f64))
            }
        }
        deserializer.deserialize_any(TextVisitor)
    }
}

/// One name, or a list of names.
#[derive(Clone, Debug)]
pub(crate) struct OneOrMany {
    pub(crate) names: Vec<Name>,
}

impl<'de> Deserialize<'de> for OneOrMany {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct NamesVisitor;
        impl<'de> Visitor<'de> for NamesVisitor {
            type Value = OneOrMany;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a name in quotes, or a list of names")
            }

            fn visit_str<E: Error>(self, name: &str) -> Result<OneOrMany, E> {
                Ok(OneOrMany {
                    names: vec![Name::Value(name.to_owned())],
                })
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<OneOrMany, A::Error> {
                let mut names = Vec::new();
                while let Some(name) = seq.next_element()? {
                    names.push(name);
                }
                Ok(OneOrMany { names })
            }
        }
        deserializer.deserialize_any(NamesVisitor)
    }
}
