//! How quantities are taken from a record: with their unit, and within what is believable.

use super::entry::{Entry, Measured};
use super::form::{FieldKind, QuantityField};
use super::slot::{Given, NOT_CHECKED, Slot, Written, Wrong, is_blank_word, one_text, wrong_type};
use bleedwright_network::{Code, Quantity, QuantityError, parse_quantity, unit_list};
use uom::si::f64::{Force, Length, Ratio, ThermodynamicTemperature, Time, Torque};
use uom::si::{force, length, ratio, thermodynamic_temperature, time, torque};

/// A quantity that is read off a vehicle, and what is believable of it.
pub(crate) trait Readable: Quantity {
    /// The least believable value.
    fn least() -> Self;
    /// The largest believable value.
    fn most() -> Self;
    /// Both in words.
    const ALLOWED: &'static str;
}

macro_rules! readable {
    ($quantity:ty, $unit:ty, $least:literal, $most:literal, $allowed:literal) => {
        impl Readable for $quantity {
            fn least() -> Self {
                Self::new::<$unit>($least)
            }
            fn most() -> Self {
                Self::new::<$unit>($most)
            }
            const ALLOWED: &'static str = $allowed;
        }
    };
}

// These bounds catch a slip of the unit or of the decimal point; they judge nothing.
readable!(Length, length::millimeter, 0.0, 700.0, "0 mm to 700 mm");
readable!(Torque, torque::newton_meter, 0.0, 200.0, "0 N m to 200 N m");
readable!(Force, force::newton, 0.0, 5000.0, "0 N to 5000 N");
readable!(Time, time::second, 0.0, 3600.0, "0 s to 60 min");
readable!(Ratio, ratio::percent, 0.0, 20.0, "0 % to 20 %");
readable!(
    ThermodynamicTemperature,
    thermodynamic_temperature::degree_celsius,
    90.0,
    350.0,
    "90 degC to 350 degC"
);

impl<Q: Readable> Slot for Entry<Measured<Q>> {
    fn take(&mut self, given: Given<'_>) -> Result<(), Wrong> {
        let text = one_text(given, Q::NAME, example::<Q>())?;
        if is_blank_word(text) {
            *self = Self::NotChecked;
            return Ok(());
        }
        let has_sign = text.contains('%') || text.to_ascii_lowercase().contains("percent");
        if Q::UNITLESS && !has_sign {
            // Half a per cent and one half are told apart by the sign alone.
            return Err(Wrong {
                code: Code::MissingUnit,
                message: format!("`{text}` has no sign"),
                allowed: Some("a share with its sign".to_owned()),
                help: format!("write it in quotes, like {}", example::<Q>()),
            });
        }
        let bounds = parse_quantity::<Q>(text).map_err(|error| not_a_quantity::<Q>(&error))?;
        if matches!(given, Given::Bare(_)) {
            // A unit can only stand behind a bare number in a broken file, so this is a number alone.
            return Err(wrong_type(
                text,
                Q::NAME,
                "put the value and its unit in quotes",
            ));
        }
        if bounds.low < Q::least() || bounds.high > Q::most() {
            return Err(Wrong {
                code: Code::Implausible,
                message: format!("`{text}` cannot be a reading"),
                allowed: Some(Q::ALLOWED.to_owned()),
                help: "look at the unit and at the decimal point".to_owned(),
            });
        }
        *self = Self::Found(Measured {
            bounds,
            text: text.to_owned(),
        });
        Ok(())
    }

    fn written(&self) -> Written<'_> {
        match self {
            Self::NotChecked => Written::Blank,
            Self::Found(measured) => Written::Text((&measured.text).into()),
        }
    }

    fn kind(&self) -> FieldKind {
        FieldKind::Quantity(QuantityField::of(Q::least(), Q::most(), Q::ALLOWED))
    }
}

/// How one writes it; a share stands in a record with its sign.
fn example<Q: Quantity>() -> &'static str {
    if Q::UNITLESS { "\"2.5 %\"" } else { Q::EXAMPLE }
}

fn not_a_quantity<Q: Quantity>(error: &QuantityError) -> Wrong {
    let (code, allowed) = match error {
        QuantityError::MissingUnit { units, .. } => (Code::MissingUnit, Some(units.clone())),
        QuantityError::UnknownUnit { units, .. } => (Code::UnknownUnit, Some(units.clone())),
        QuantityError::NotFinite { .. } => (Code::NotFinite, None),
        QuantityError::Tolerance { .. } => (Code::BadTolerance, None),
        _ => (Code::NotANumber, Some(unit_list::<Q>())),
    };
    Wrong {
        code,
        message: error.to_string(),
        allowed: allowed.map(|units| format!("a number with one of {units}")),
        help: format!("{}, or {NOT_CHECKED}", error.help(example::<Q>())),
    }
}
