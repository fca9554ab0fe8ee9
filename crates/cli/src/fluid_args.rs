//! What was read on a fluid, on the command line.

use bleedwright_network::{Bounds, Fluid, Quantity, parse_quantity};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::time::{day, year};

/// A share of water with its sign, and with a tolerance if one is known. Without the sign `2.5` would be two and a half
/// times the whole, and `0.4` as likely forty per cent as less than one.
pub(crate) fn moisture(text: &str) -> Result<Bounds<Ratio>, String> {
    let has_sign = text.contains('%') || text.to_ascii_lowercase().contains("percent");
    let number = text.trim();
    if !has_sign && number.parse::<f64>().is_ok() {
        return Err(format!(
            "`{number}` has no sign; write a share with its sign, as in \"{number} %\""
        ));
    }
    if !has_sign {
        return Err("write a share with its sign, as in \"2.5 %\" or \"2.5 % ± 0.5 %\"".to_owned());
    }
    let bounds = parse_quantity::<Ratio>(text)
        .map_err(|error| format!("{error}; write it like \"2.5 %\" or \"2.5 % ± 0.5 %\""))?;
    Ok(bounds)
}

/// A temperature, with a tolerance if one is known.
pub(crate) fn boiling(text: &str) -> Result<Bounds<ThermodynamicTemperature>, String> {
    let example = "\"180 degC\", \"356 degF\" or \"180 degC ± 5 degC\"";
    parse_quantity(text).map_err(|error| format!("{error}; write it like {example}"))
}

/// A temperature on a label, which states no tolerance.
pub(crate) fn label(text: &str) -> Result<ThermodynamicTemperature, String> {
    type Temperature = ThermodynamicTemperature;
    let hint = format!(
        "write it like \"311 degF\" or {}, as the label has it",
        Temperature::EXAMPLE
    );
    let bounds = parse_quantity::<Temperature>(text).map_err(|error| format!("{error}; {hint}"))?;
    if bounds.low == bounds.high {
        Ok(bounds.nominal)
    } else {
        Err(format!(
            "a label states a minimum without a tolerance; {hint}"
        ))
    }
}

/// An age as people say it. A month is the twelfth part of a year of 365 days.
pub(crate) fn age(text: &str) -> Result<Time, String> {
    const HINT: &str =
        "write it like \"30 months\" or \"2.5 years\"; allowed are days, weeks, months and years";
    let text = text.trim();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || c == '.'))
        .unwrap_or(text.len());
    let (number, unit) = (&text[..end], text[end..].trim().to_ascii_lowercase());
    let number: f64 = number.parse().map_err(|_| HINT.to_owned())?;
    match unit.as_str() {
        "d" | "day" | "days" => Ok(Time::new::<day>(number)),
        "week" | "weeks" => Ok(Time::new::<day>(7.0 * number)),
        "month" | "months" => Ok(Time::new::<year>(number / 12.0)),
        "y" | "year" | "years" => Ok(Time::new::<year>(number)),
        "" => Err(format!("`{text}` has no unit; {HINT}")),
        _ => Err(format!("`{unit}` is no unit for an age; {HINT}")),
    }
}

/// A grade, however it is spelt.
pub(crate) fn grade(text: &str) -> Result<Fluid, String> {
    crate::quantity_args::fluid(text)
}
