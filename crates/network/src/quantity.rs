//! Reads a quantity with its unit and tolerance: `"1.2 m ± 0.1 m"`, `"3/16 in"`.

use crate::bounds::Bounds;
use crate::number::{has_number, split_decimal, split_fraction, split_whole};
use crate::quantity_error::QuantityError;
use crate::units::{Quantity, find_unit, unit_list};
use uom::si::f64::Length;

/// Reads a quantity with an optional tolerance.
///
/// The unit may stand after the value, after the tolerance, or after both; a
/// tolerance may also be a share of the value (`± 10 %`). `+-` and `+/-` mean
/// `±`.
///
/// ```
/// use bleedwright_network::parse_quantity;
/// use uom::si::{f64::Length, length::millimeter};
///
/// let bore = parse_quantity::<Length>("3/16 in").unwrap();
/// assert!((bore.nominal.get::<millimeter>() - 4.7625).abs() < 1e-12);
/// let pipe = parse_quantity::<Length>("1.2 m +- 0.1 m").unwrap();
/// assert!((pipe.high.get::<millimeter>() - 1300.0).abs() < 1e-9);
/// ```
pub fn parse_quantity<Q: Quantity>(text: &str) -> Result<Bounds<Q>, QuantityError> {
    read(text).map_err(|error| decimal_comma::<Q>(text).unwrap_or(error))
}

/// Whether a length is written in inches, feet or thou; none where it has no unit that is known.
pub fn is_in_inches(text: &str) -> Option<bool> {
    let (value, tolerance) = split_tolerance(text);
    let unit = [Some(value), tolerance]
        .into_iter()
        .flatten()
        .find_map(|part| {
            let (_, unit) = split_number::<Length>(part, text).ok()?;
            find_unit::<Length>(unit)
        })?;
    Some(matches!(unit.names[0], "in" | "ft" | "thou"))
}

/// The error of a quantity that reads well with points for its commas. What
/// `1,200 mm` means nobody can tell.
fn decimal_comma<Q: Quantity>(text: &str) -> Option<QuantityError> {
    let found = text.trim();
    let is_decimal = |(at, _): (usize, &str)| {
        let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
        let whole = found[..at].trim_end_matches(|c: char| c.is_ascii_digit());
        digits(&found[at + 1..]) != 3 || &found[whole.len()..at] == "0"
    };
    if !found.contains(',') || !found.match_indices(',').all(is_decimal) {
        return None;
    }
    let meant = found.replace(',', ".");
    read::<Q>(&meant)
        .is_ok()
        .then(|| QuantityError::DecimalComma {
            found: found.to_owned(),
            meant,
        })
}

fn read<Q: Quantity>(text: &str) -> Result<Bounds<Q>, QuantityError> {
    let (value, tolerance) = split_tolerance(text);
    let (number, unit) = split_number::<Q>(value, text)?;
    let Some(tolerance) = tolerance else {
        let nominal = finite(number, text)?;
        let unit = named_unit::<Q>(unit, None, text)?;
        return checked(Bounds::exact((unit.make)(nominal)), Q::units(), text);
    };
    let (spread, spread_unit) = split_number::<Q>(tolerance, text)?;
    let (number, spread) = (finite(number, text)?, finite(spread, text)?);
    let unit_name = if unit.is_empty() && spread_unit != "%" {
        spread_unit
    } else {
        unit
    };
    let unit = named_unit::<Q>(unit_name, None, text)?;
    let bad_tolerance = || QuantityError::Tolerance {
        found: text.trim().to_owned(),
    };
    let (low, high) = if spread_unit == "%" && unit_name != "%" {
        let share = spread / 100.0 * number;
        (number - share, number + share)
    } else {
        // A tolerance in another unit of the same quantity is converted by
        // way of the quantity, so that `"1.2 m ± 50 mm"` works. Zero of the
        // tolerance's unit is subtracted for scales that do not start there.
        let spread_unit = named_unit::<Q>(spread_unit, Some(unit_name), text)?;
        let span = (unit.read)(&(spread_unit.make)(spread)) - (unit.read)(&(spread_unit.make)(0.0));
        (number - span, number + span)
    };
    if spread < 0.0 || (Q::FROM_ZERO && number > 0.0 && low < 0.0) {
        return Err(bad_tolerance());
    }
    let bounds = Bounds {
        low: (unit.make)(low),
        nominal: (unit.make)(number),
        high: (unit.make)(high),
    };
    checked(bounds, Q::units(), text)
}

/// Refuses a value that left the range of numbers while its unit was applied.
fn checked<Q: Quantity>(
    bounds: Bounds<Q>,
    units: &'static [crate::units::Unit<Q>],
    text: &str,
) -> Result<Bounds<Q>, QuantityError> {
    for value in [bounds.low, bounds.nominal, bounds.high] {
        finite((units[0].read)(&value), text)?;
    }
    Ok(bounds)
}

fn split_tolerance(text: &str) -> (&str, Option<&str>) {
    // Most quantities have no tolerance, so one look at each character tells.
    for (at, _) in text.match_indices(['±', '+']) {
        for sign in ["±", "+/-", "+-"] {
            if let Some(tolerance) = text[at..].strip_prefix(sign) {
                return (text[..at].trim(), Some(tolerance.trim()));
            }
        }
    }
    (text.trim(), None)
}

fn finite(number: f64, text: &str) -> Result<f64, QuantityError> {
    if number.is_finite() {
        Ok(number)
    } else {
        Err(QuantityError::NotFinite {
            found: text.trim().to_owned(),
        })
    }
}

/// Splits `"1 3/16 in"` into its number and its unit.
fn split_number<'t, Q: Quantity>(
    part: &'t str,
    text: &str,
) -> Result<(f64, &'t str), QuantityError> {
    let not_a_number = || QuantityError::NotANumber {
        found: text.trim().to_owned(),
        quantity: Q::NAME,
        example: Q::EXAMPLE,
    };
    let (sign, part) = match part.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, part.strip_prefix('+').unwrap_or(part).trim_start()),
    };
    for name in ["nan", "infinity", "inf"] {
        if let Some(head) = part.get(..name.len())
            && head.eq_ignore_ascii_case(name)
            && !part[name.len()..].starts_with(|c: char| c.is_alphabetic())
        {
            return Ok((f64::NAN, part[name.len()..].trim()));
        }
    }
    let (first, rest) = split_decimal(part).ok_or_else(not_a_number)?;
    if rest.trim_start().starts_with('/') {
        let (share, rest) = split_fraction(part).ok_or_else(not_a_number)?;
        return Ok((sign * share, rest.trim()));
    }
    // A mixed number: a whole number, a space or a hyphen, then a fraction.
    let after = rest.trim_start_matches([' ', '-']);
    if after.len() < rest.len() && split_decimal(after).is_some() {
        let (whole, _) = split_whole(part).ok_or_else(not_a_number)?;
        let (share, rest) = split_fraction(after).ok_or_else(not_a_number)?;
        return Ok((sign * (whole + share), rest.trim()));
    }
    // `3,3 mm`, `1.3.5 mm` and `1.0 to 1.2 m` hold more than one number, and
    // none of them is a unit. `cm3` is one.
    let unit = rest.trim();
    let holds_more = unit.contains([',', '.', '⁄']) || has_number(unit);
    if holds_more && find_unit::<Q>(unit).is_none() {
        return Err(not_a_number());
    }
    Ok((sign * first, unit))
}

fn named_unit<Q: Quantity>(
    name: &str,
    fallback: Option<&str>,
    text: &str,
) -> Result<&'static crate::units::Unit<Q>, QuantityError> {
    let name = if name.is_empty() {
        fallback.unwrap_or(name)
    } else {
        name
    };
    if let Some(unit) = find_unit::<Q>(name) {
        return Ok(unit);
    }
    if name.is_empty() {
        return Err(QuantityError::MissingUnit {
            found: text.trim().to_owned(),
            units: unit_list::<Q>(),
        });
    }
    Err(QuantityError::UnknownUnit {
        unit: name.to_owned(),
        quantity: Q::NAME,
        units: unit_list::<Q>(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::f64::{
        Force, Length, Pressure, Ratio, ThermodynamicTemperature, Time, Torque, Volume,
    };
    use uom::si::force::newton;
    use uom::si::length::{meter, millimeter};
    use uom::si::pressure::bar;
    use uom::si::ratio::ratio;
    use uom::si::thermodynamic_temperature::degree_celsius;
    use uom::si::time::second;
    use uom::si::torque::newton_meter;
    use uom::si::volume::milliliter;

    fn length_mm(text: &str) -> f64 {
        parse_quantity::<Length>(text)
            .expect(text)
            .nominal
            .get::<millimeter>()
    }

    #[test]
    fn reads_metric_inch_and_fractions() {
        for (text, wanted) in [
            ("3.3 mm", 3.3),
            ("3.3mm", 3.3),
            ("3/16 in", 4.7625),
            ("1 3/16 in", 30.1625),
            ("1-3/16 in", 30.1625),
            ("0.5 m", 500.0),
            (".5 m", 500.0),
            ("1e-2 m", 10.0),
            ("7/8\"", 22.225),
        ] {
            assert!((length_mm(text) - wanted).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn a_fraction_takes_whole_numbers_only() {
        for text in [
            "1e1/2 m",
            "1.5/2 in",
            "1/2.5 in",
            "1/2e1 in",
            "1.5 3/16 in",
            "1e0 3/16 in",
            "1 3.0/16 in",
            "1-3/1.6e1 in",
        ] {
            let error = parse_quantity::<Length>(text).expect_err(text);
            assert!(matches!(error, QuantityError::NotANumber { .. }), "{text}");
        }
    }

    #[test]
    fn harmless_spellings_of_a_unit_are_read() {
        for (text, wanted) in [
            ("0.6 metres", 600.0),
            ("0.6 meters", 600.0),
            ("60 cms", 600.0),
            ("60 centimetres", 600.0),
            ("600 mm.", 600.0),
            ("2 inches", 50.8),
            ("2 ins", 50.8),
            ("2 in.", 50.8),
            ("2 thou", 0.0508),
        ] {
            assert!((length_mm(text) - wanted).abs() < 1e-9, "{text}");
        }
        // 1 lbf is 0.453 592 37 kg times 9.806 65 m/s2, 1 ft is 0.3048 m.
        let pound_foot = 0.453_592_37 * 9.806_65 * 0.3048;
        for (text, wanted) in [
            ("5 ft-lb", 5.0 * pound_foot),
            ("5 lb-ft", 5.0 * pound_foot),
            ("5 ft lbs", 5.0 * pound_foot),
            ("5 ft.lbs", 5.0 * pound_foot),
            ("5 ftlbs", 5.0 * pound_foot),
            ("5 lbf-ft", 5.0 * pound_foot),
            ("5 foot pounds", 5.0 * pound_foot),
            ("5 foot-pounds", 5.0 * pound_foot),
            ("30 in-lb", 2.5 * pound_foot),
            ("30 lb in", 2.5 * pound_foot),
            ("30 in lbs", 2.5 * pound_foot),
            ("30 inch pounds", 2.5 * pound_foot),
            ("80 Ncm", 0.8),
            ("0.8 daNm", 8.0),
            ("8 N-m", 8.0),
            ("8 N.m", 8.0),
        ] {
            let torque = parse_quantity::<Torque>(text).expect(text).nominal;
            let torque = torque.get::<newton_meter>();
            // uom has the factors of both pound units in seven digits.
            assert!((torque / wanted - 1.0).abs() < 1e-6, "{text}: {torque}");
        }
        let warm = parse_quantity::<ThermodynamicTemperature>("20 degrees C").expect("reads");
        assert!((warm.nominal.get::<degree_celsius>() - 20.0).abs() < 1e-9);
        // Ounces of two sizes, and a sign that is no unit.
        assert!(parse_quantity::<Volume>("1 fl oz").is_err());
        assert!(parse_quantity::<Ratio>("4.2 -").is_err());
    }

    #[test]
    fn a_decimal_comma_is_told_with_what_was_meant() {
        for (text, wanted) in [
            ("3,3 mm", "3.3 mm"),
            ("1,2 m ± 0,05 m", "1.2 m ± 0.05 m"),
            ("0,125 in", "0.125 in"),
        ] {
            match parse_quantity::<Length>(text) {
                Err(QuantityError::DecimalComma { meant, .. }) => assert_eq!(meant, wanted),
                other => panic!("{text}: {other:?}"),
            }
        }
        for text in ["1,200 mm", "1,2,3 m", "3,3", "3,3 lb", "a,b m"] {
            let error = parse_quantity::<Length>(text).expect_err(text);
            let is_guess = matches!(error, QuantityError::DecimalComma { .. });
            assert!(!is_guess, "{text}");
        }
    }

    #[test]
    fn reads_tolerances_in_every_spelling() {
        for text in [
            "1.2 m ± 0.1 m",
            "1.2 ± 0.1 m",
            "1.2 m +- 100 mm",
            "1.2 m +/- 0.1",
            "1.2m±0.1m",
        ] {
            let bounds = parse_quantity::<Length>(text).unwrap_or_else(|e| panic!("{text}: {e}"));
            assert!((bounds.low.get::<meter>() - 1.1).abs() < 1e-12, "{text}");
            assert!((bounds.high.get::<meter>() - 1.3).abs() < 1e-12, "{text}");
        }
        let share = parse_quantity::<Volume>("200 ml ± 10 %").expect("a share is a tolerance");
        assert!((share.low.get::<milliliter>() - 180.0).abs() < 1e-9);
        let warm = parse_quantity::<ThermodynamicTemperature>("20 degC ± 5 degC").expect("reads");
        assert!((warm.high.get::<degree_celsius>() - 25.0).abs() < 1e-9);
        let cold = parse_quantity::<ThermodynamicTemperature>("-10 °C").expect("reads");
        assert!((cold.nominal.get::<degree_celsius>() + 10.0).abs() < 1e-9);
    }

    #[test]
    fn reads_the_other_quantities() {
        let pressure = parse_quantity::<Pressure>("14.5038 psi")
            .expect("reads")
            .nominal;
        assert!((pressure.get::<bar>() - 1.0).abs() < 1e-5);
        let torque = parse_quantity::<Torque>("8 N m").expect("reads").nominal;
        assert!((torque.get::<newton_meter>() - 8.0).abs() < 1e-12);
        let force = parse_quantity::<Force>("125 lbf").expect("reads").nominal;
        // 49 CFR 570.55(b) prints 125 lbf as 556 N.
        assert!((force.get::<newton>() - 556.0).abs() < 0.5);
        let time = parse_quantity::<Time>("1.5 min").expect("reads").nominal;
        assert!((time.get::<second>() - 90.0).abs() < 1e-12);
        for text in ["0.3", "30 %", "30%"] {
            let share = parse_quantity::<Ratio>(text).expect("reads").nominal;
            assert!((share.get::<ratio>() - 0.3).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn names_what_is_wrong() {
        use QuantityError as E;
        let error = |text| parse_quantity::<Length>(text).expect_err(text);
        assert!(matches!(error("3.3"), E::MissingUnit { .. }));
        assert!(matches!(error("3.3 ml"), E::UnknownUnit { .. }));
        assert!(matches!(error("thick mm"), E::NotANumber { .. }));
        assert!(matches!(error(""), E::NotANumber { .. }));
        assert!(matches!(error("3,3 mm"), E::DecimalComma { .. }));
        assert!(matches!(error("1.3.5 mm"), E::NotANumber { .. }));
        assert!(matches!(error("1⁄2 in"), E::NotANumber { .. }));
        assert!(matches!(error("1.0 to 1.2 m"), E::NotANumber { .. }));
        assert!(matches!(error("2 cm3"), E::UnknownUnit { .. }));
        assert!(matches!(error("NaN mm"), E::NotFinite { .. }));
        assert!(matches!(error("-inf m"), E::NotFinite { .. }));
        assert!(matches!(error("1e999 m"), E::NotFinite { .. }));
        assert!(matches!(error("1/0 in"), E::NotFinite { .. }));
        assert!(matches!(error("1 m ± 2 m"), E::Tolerance { .. }));
        assert!(matches!(error("1 m ± -0.1 m"), E::Tolerance { .. }));
    }

    #[test]
    fn a_fraction_without_a_unit_is_one_of_an_inch() {
        let help = |text| parse_quantity::<Length>(text).map_err(|error| error.help("\"62 mm\""));
        assert_eq!(help("3/4"), Err("write `3/4 in`".to_owned()));
        assert_eq!(help("20"), Err("write it like \"62 mm\"".to_owned()));
    }
}
