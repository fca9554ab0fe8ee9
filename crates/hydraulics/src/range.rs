//! What can be wrong with the numbers given to an equation.

/// Why an equation gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OutOfRange {
    /// A quantity that must be above zero is not, or it is not a finite number.
    #[error("{what} must be above zero and finite, found {value}{}", spaced(unit))]
    NotPositive {
        /// Which quantity.
        what: &'static str,
        /// What was found.
        value: f64,
        /// The unit of what was found.
        unit: &'static str,
    },
    /// A quantity that must not be below zero is, or it is not a finite number.
    #[error(
        "{what} must be zero or more and finite, found {value}{}",
        spaced(unit)
    )]
    Negative {
        /// Which quantity.
        what: &'static str,
        /// What was found.
        value: f64,
        /// The unit of what was found.
        unit: &'static str,
    },
    /// A quantity lies outside the range for which the equation holds.
    #[error("{what} must lie between {low} and {high}{unit}, found {value}{unit}", unit = spaced(unit))]
    Outside {
        /// Which quantity.
        what: &'static str,
        /// What was found.
        value: f64,
        /// The lower end of the range.
        low: f64,
        /// The upper end of the range.
        high: f64,
        /// The unit of all three.
        unit: &'static str,
    },
    /// Two quantities that must differ in one direction do not.
    #[error(
        "{smaller} must be below {larger}, found {smaller_value} and {larger_value}{}",
        spaced(unit)
    )]
    NotOrdered {
        /// The quantity that must be the smaller one.
        smaller: &'static str,
        /// The quantity that must be the larger one.
        larger: &'static str,
        /// What was found for the first.
        smaller_value: f64,
        /// What was found for the second.
        larger_value: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// The source of the equation has no figure for what was asked.
    #[error("no figure is known for {what}")]
    NoFigure {
        /// What was asked for.
        what: &'static str,
    },
}

/// The unit behind its space; a quantity without a unit needs none.
fn spaced(unit: &str) -> String {
    if unit.is_empty() {
        String::new()
    } else {
        format!(" {unit}")
    }
}

/// The value, if it is finite and above zero.
pub(crate) fn positive(
    what: &'static str,
    value: f64,
    unit: &'static str,
) -> Result<f64, OutOfRange> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(OutOfRange::NotPositive { what, value, unit })
    }
}

/// The value, if it is finite and not below zero.
pub(crate) fn zero_or_more(
    what: &'static str,
    value: f64,
    unit: &'static str,
) -> Result<f64, OutOfRange> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(OutOfRange::Negative { what, value, unit })
    }
}

/// The value, if it lies between the two ends.
pub(crate) fn between(
    what: &'static str,
    value: f64,
    (low, high): (f64, f64),
    unit: &'static str,
) -> Result<f64, OutOfRange> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(OutOfRange::Outside {
            what,
            value,
            low,
            high,
            unit,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_name_what_was_found_and_what_is_allowed() {
        let say = |result: Result<f64, OutOfRange>| result.map_err(|error| error.to_string());
        assert_eq!(
            say(positive("bore", -1.0, "m")),
            Err("bore must be above zero and finite, found -1 m".to_owned())
        );
        assert_eq!(
            say(between("share of gas", 1.5, (0.0, 1.0), "")),
            Err("share of gas must lie between 0 and 1, found 1.5".to_owned())
        );
        assert_eq!(
            say(between("temperature", 120.0, (-40.0, 100.0), "degC")),
            Err("temperature must lie between -40 and 100 degC, found 120 degC".to_owned())
        );
        assert!(positive("bore", f64::INFINITY, "m").is_err());
        assert!(between("bore", f64::NAN, (0.0, 1.0), "m").is_err());
        assert_eq!(between("bore", 1.0, (0.0, 1.0), "m"), Ok(1.0));
    }
}
