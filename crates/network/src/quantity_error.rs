//! What can be wrong with a quantity.

use thiserror::Error;

/// Why a text is not a quantity.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum QuantityError {
    /// A number without a unit.
    #[error("`{found}` has no unit")]
    MissingUnit {
        /// The text found.
        found: String,
        /// The units allowed.
        units: String,
    },
    /// A unit that is not one of this quantity's.
    #[error("`{unit}` is not a unit for {quantity}")]
    UnknownUnit {
        /// The unit found.
        unit: String,
        /// The kind of quantity wanted.
        quantity: &'static str,
        /// The units allowed.
        units: String,
    },
    /// No number where one was expected.
    #[error("`{found}` is not {quantity}")]
    NotANumber {
        /// The text found.
        found: String,
        /// The kind of quantity wanted.
        quantity: &'static str,
        /// How one writes it.
        example: &'static str,
    },
    /// A comma where a decimal point belongs.
    #[error("`{found}` has a comma where its decimal point belongs")]
    DecimalComma {
        /// The text found.
        found: String,
        /// The same with a point.
        meant: String,
    },
    /// NaN, infinity, or a number too large to hold.
    #[error("`{found}` is not a finite number")]
    NotFinite {
        /// The text found.
        found: String,
    },
    /// A tolerance that is negative or reaches down to zero or below.
    #[error("the tolerance of `{found}` is not smaller than the value itself")]
    Tolerance {
        /// The text found.
        found: String,
    },
}

impl QuantityError {
    /// What to write instead; like `example` where nothing nearer is known.
    pub fn help(&self, example: &str) -> String {
        match self {
            Self::DecimalComma { meant, .. } => format!("write `{meant}`"),
            // A fraction is one of an inch.
            Self::MissingUnit { found, units }
                if found.contains('/') && units.split(", ").any(|unit| unit == "in") =>
            {
                format!("write `{found} in`")
            }
            _ => format!("write it like {example}"),
        }
    }
}
