//! How quantities are taken from a record: with their unit, and within what is believable.

use super::entry::{Entry, Measured};
use super::slot::{
    FieldKind, FieldUnit, Given, NOT_CHECKED, QuantityField, Slot, Written, Wrong, is_blank_word,
    one_text, wrong_type,
};
use bleedwright_network::{Code, Quantity, QuantityError, Unit, parse_quantity, unit_list};
use uom::si::f64::{Force, Length, Ratio, ThermodynamicTemperature, Time, Torque, Volume};
use uom::si::{force, length, ratio, thermodynamic_temperature, time, torque, volume};

/// The values of a field that are believable.
pub(crate) struct Believable<Q> {
    pub(crate) least: Q,
    /// The largest.
    pub(crate) most: Q,
    /// Both in words.
    pub(crate) allowed: &'static str,
}

impl QuantityField {
    fn of<Q: Quantity>(believable: &Believable<Q>) -> Self {
        let named = |unit: &&Unit<Q>| !unit.names[0].is_empty();
        let units: Vec<_> = Q::units().iter().filter(named).collect();
        let read = units[0].read;
        Self {
            least: read(&believable.least),
            most: read(&believable.most),
            allowed: believable.allowed,
            units: units
                .iter()
                .map(|unit| {
                    let zero = read(&(unit.make)(0.0));
                    FieldUnit {
                        names: unit.names.to_vec(),
                        scale: read(&(unit.make)(1.0)) - zero,
                        zero,
                    }
                })
                .collect(),
        }
    }
}

/// A quantity that is read off a vehicle.
pub(crate) trait Readable: Quantity {
    fn believable(field: &str) -> Believable<Self>;
}

macro_rules! readable {
    ($quantity:ty, $unit:ty { $($field:pat => $least:literal, $most:literal, $allowed:literal;)+ }) => {
        impl Readable for $quantity {
            fn believable(field: &str) -> Believable<Self> {
                let (least, most, allowed) = match field {
                    $($field => ($least, $most, $allowed),)+
                };
                Believable {
                    least: Self::new::<$unit>(least),
                    most: Self::new::<$unit>(most),
                    allowed,
                }
            }
        }
    };
}

/// The least and the largest that is believed of a length, in the field of that name.
pub fn believable_length(field: &str) -> [Length; 2] {
    let Believable { least, most, .. } = Length::believable(field);
    [least, most]
}

/// The same of a torque.
pub fn believable_torque(field: &str) -> [Torque; 2] {
    let Believable { least, most, .. } = Torque::believable(field);
    [least, most]
}

// These bounds catch a slip of the unit or of the decimal point, and a limit that is none; they judge nothing.
//
// ASSUMPTION: all of them, from motorcycles to heavy trucks with hydraulic brakes. Those of parts stand on the sheet.
readable!(Length, length::millimeter {
    "disc" | "disc_minimum" => 2.0, 60.0, "2 mm to 60 mm";
    "drum" | "drum_maximum" => 75.0, 500.0, "75 mm to 500 mm";
    "lining" => 0.0, 30.0, "0 mm to 30 mm";
    "lining_minimum" => 0.5, 15.0, "0.5 mm to 15 mm";
    "free" => 20.0, 700.0, "20 mm to 700 mm";
    _ => 0.0, 700.0, "0 mm to 700 mm";
});
readable!(Torque, torque::newton_meter {
    "torque_wanted" => 1.0, 60.0, "1 N m to 60 N m";
    _ => 0.0, 100.0, "0 N m to 100 N m";
});
readable!(Force, force::newton { _ => 0.0, 5000.0, "0 N to 5000 N"; });
readable!(Time, time::second { _ => 0.0, 3600.0, "0 s to 60 min"; });
readable!(Volume, volume::milliliter { _ => 0.0, 100_000.0, "0 ml to 100 l"; });
readable!(Ratio, ratio::percent { _ => 0.0, 20.0, "0 % to 20 %"; });
readable!(ThermodynamicTemperature, thermodynamic_temperature::degree_celsius {
    _ => 90.0, 350.0, "90 degC to 350 degC";
});

impl<Q: Readable> Slot for Entry<Measured<Q>> {
    fn take(&mut self, field: &str, given: Given<'_>) -> Result<(), Wrong> {
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
        let mut bounds = parse_quantity::<Q>(text).map_err(|error| not_a_quantity::<Q>(&error))?;
        if matches!(given, Given::Bare(_)) {
            // A unit can only stand behind a bare number in a broken file, so this is a number alone.
            return Err(wrong_type(
                text,
                Q::NAME,
                "put the value and its unit in quotes",
            ));
        }
        let believable = Q::believable(field);
        // Nothing, read to a millimetre, is nothing to one millimetre.
        let is_nothing = |it: Q| (Q::units()[0].read)(&it) == 0.0;
        if Q::FROM_ZERO && is_nothing(believable.least) && is_nothing(bounds.nominal) {
            bounds.low = bounds.nominal;
        }
        // Records of earlier days hold a least thickness of nothing. They load, and no check takes it for a limit.
        let is_kept = matches!(field, "disc_minimum" | "lining_minimum")
            && is_nothing(bounds.nominal)
            && !matches!(given, Given::Command(_));
        if bounds.low < believable.least && !is_kept || bounds.high > believable.most {
            return Err(implausible(field, text, believable.allowed));
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

    fn kind(&self, field: &str) -> FieldKind {
        FieldKind::Quantity(QuantityField::of(&Q::believable(field)))
    }
}

fn implausible(field: &str, text: &str, allowed: &'static str) -> Wrong {
    let is_limit = matches!(
        field,
        "disc_minimum" | "drum_maximum" | "lining_minimum" | "torque_wanted"
    );
    let (what, help) = if is_limit {
        (
            "a limit",
            format!(
                "look at the unit and at the decimal point; write {NOT_CHECKED} where nobody knows it"
            ),
        )
    } else {
        (
            "a reading",
            "look at the unit and at the decimal point".to_owned(),
        )
    };
    Wrong {
        code: Code::Implausible,
        message: format!("`{text}` cannot be {what}"),
        allowed: Some(allowed.to_owned()),
        help,
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
