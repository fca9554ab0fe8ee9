//! Values that a file must give, and any value that may turn out unreadable.

use serde::de::{Deserialize, Deserializer, Error, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// The name under which [`Given`] asks a reader for its value.
pub(crate) const GIVEN: &str = "Given";

/// A value, or the gap left where it is missing or unreadable.
///
/// The RON reader fails at a gap. The tolerant reader has noted the mistake
/// and leaves the gap, so that everything around it is still read.
#[derive(Clone, Debug)]
pub(crate) enum Given<T> {
    Value(T),
    Unread,
}

impl<T> Given<T> {
    pub(crate) fn value(&self) -> Option<&T> {
        match self {
            Self::Value(value) => Some(value),
            Self::Unread => None,
        }
    }
}

/// The value of a field that may be left out, if it is given and readable.
pub(crate) fn known<'f, T: 'f>(field: impl Into<Option<&'f Given<T>>>) -> Option<&'f T> {
    field.into()?.value()
}

/// A name or any other text; empty where it could not be read, which was
/// reported then.
pub(crate) fn words(text: &Given<String>) -> String {
    text.value().cloned().unwrap_or_default()
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Given<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct GivenVisitor<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for GivenVisitor<T> {
            type Value = Given<T>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value")
            }

            /// The RON reader: an error is an error.
            fn visit_newtype_struct<D: Deserializer<'de>>(
                self,
                reader: D,
            ) -> Result<Given<T>, D::Error> {
                T::deserialize(reader).map(Given::Value)
            }

            /// The tolerant reader: an error was noted and leaves a gap.
            fn visit_some<D: Deserializer<'de>>(self, reader: D) -> Result<Given<T>, D::Error> {
                Ok(T::deserialize(reader).map_or(Given::Unread, Given::Value))
            }

            /// The tolerant reader: the field is missing.
            fn visit_unit<E: Error>(self) -> Result<Given<T>, E> {
                Ok(Given::Unread)
            }
        }
        deserializer.deserialize_newtype_struct(GIVEN, GivenVisitor(PhantomData))
    }
}
