//! Why a value was not read.

use serde::de::{Error, Expected, Unexpected};
use std::fmt;

/// A value could not be read; why was noted, unless the message says it.
#[derive(Debug)]
pub(super) struct Refused {
    pub(super) expected: Option<String>,
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
