//! Reads one quantity of the file: number, unit, tolerance, range.

use super::odd_unit::Lengths;
use super::range::{Allowed, DISTANCE};
use crate::bounds::{Bounds, Figure};
use crate::code::Code;
use crate::file::{Amount, PositionFile, Text, known};
use crate::finding::Finding;
use crate::layout::{Guess, Position};
use crate::place::Walk;
use crate::quantity::parse_quantity;
use crate::quantity_error::QuantityError;
use crate::units::{Quantity, Unit, find_unit};
use std::borrow::Cow;
use uom::si::f64::Length;

/// Collects the findings while values are read.
#[derive(Default)]
pub(crate) struct Reader {
    pub(crate) findings: Vec<Finding>,
    pub(crate) guesses: Vec<Guess>,
    pub(super) lengths: Lengths,
    /// Whether the file is written in inches, so that these are offered first.
    pub(super) is_in_inches: bool,
}

impl Reader {
    /// Reads a value; none when it cannot be read or used, which is a finding
    /// here or was one already.
    pub(crate) fn read<Q: Quantity>(
        &mut self,
        amount: &Amount,
        walk: &Walk<'_>,
        allowed: &Allowed<Q>,
    ) -> Option<Bounds<Q>> {
        let text = amount.value()?;
        let written = written(text);
        let (quantity, is_guess) = without_mark(&written);
        let bounds = match parse_quantity::<Q>(quantity) {
            Ok(bounds) => bounds,
            Err(error) => {
                let mut finding = describe::<Q>(&error, text, walk);
                if let QuantityError::MissingUnit { found, .. } = &error
                    && let texts = plausible_texts::<Q>(found, allowed, self.is_in_inches, |_| true)
                    && !texts.is_empty()
                {
                    let texts = one_of(&texts, "\"");
                    finding.help = format!("write it in quotes with its unit: {texts}?");
                }
                self.findings.push(finding);
                return None;
            }
        };
        self.lengths.note(quantity, bounds, walk);
        if let Some(finding) = implausibility(bounds, text, walk, allowed, self.is_in_inches) {
            self.findings.push(finding);
            return None;
        }
        self.note_guess(is_guess, walk);
        Some(bounds)
    }

    pub(super) fn note_guess(&mut self, is_guess: bool, walk: &Walk<'_>) {
        if is_guess {
            self.guesses.extend(Guess::at(walk.place()));
        }
    }

    /// Reads a value; the lowest allowed one stands for what is not known, so
    /// that the pipework can still be checked.
    pub(crate) fn value<Q: Quantity>(
        &mut self,
        amount: &Amount,
        walk: &Walk<'_>,
        allowed: &Allowed<Q>,
    ) -> Bounds<Q> {
        self.read(amount, walk, allowed)
            .unwrap_or_else(|| Bounds::exact(allowed.limits()[0]))
    }

    /// Reads a value that may be left out.
    pub(crate) fn optional<'f, Q: Quantity>(
        &mut self,
        amount: impl Into<Option<&'f Amount>>,
        walk: &Walk<'_>,
        allowed: &Allowed<Q>,
    ) -> Option<Bounds<Q>> {
        self.read(amount.into()?, walk, allowed)
    }

    /// Reads a value that is assumed where the file is silent.
    pub(crate) fn figure<'f, Q: Quantity>(
        &mut self,
        amount: impl Into<Option<&'f Amount>>,
        walk: &Walk<'_>,
        allowed: &Allowed<Q>,
        assumed: Figure<Q>,
    ) -> Figure<Q> {
        self.optional(amount, walk, allowed)
            .map_or(assumed, Figure::stated)
    }

    pub(crate) fn position<'f>(
        &mut self,
        file: impl Into<Option<&'f PositionFile>>,
        walk: &Walk<'_>,
    ) -> Option<Position> {
        let file = file.into()?;
        let x = self.coordinate(&file.x, &walk.field("x"));
        let y = self.coordinate(&file.y, &walk.field("y"));
        let z = self.coordinate(&file.z, &walk.field("z"));
        Some(Position { x: x?, y: y?, z })
    }

    fn coordinate<'f>(
        &mut self,
        amount: impl Into<Option<&'f Amount>>,
        walk: &Walk<'_>,
    ) -> Option<Bounds<Length>> {
        let text = known(amount)?;
        let written = written(text);
        let (quantity, is_guess) = without_mark(&written);
        let bounds = match parse_quantity::<Length>(quantity) {
            Ok(bounds) => bounds,
            Err(error) => {
                self.findings.push(describe::<Length>(&error, text, walk));
                return None;
            }
        };
        let [_, most] = DISTANCE.limits();
        if bounds.low < -most || bounds.high > most {
            let most = shown_in_metres(most);
            self.findings.push(
                Finding::new(
                    Code::Implausible,
                    walk.place(),
                    format!("a distance of {}", shown(text)),
                    "give the distance from any fixed point of the vehicle",
                )
                .allowing(format!("-{most} to {most}")),
            );
            return None;
        }
        self.note_guess(is_guess, walk);
        Some(bounds)
    }
}

/// The quantity without the `?` that marks a guess, and whether it had one.
pub(super) fn without_mark(text: &str) -> (&str, bool) {
    match text.trim_end().strip_suffix('?') {
        Some(quantity) => (quantity, true),
        None => (text, false),
    }
}

fn shown_in_metres(length: Length) -> String {
    format!("{} m", length.get::<uom::si::length::meter>())
}

fn written(text: &Text) -> Cow<'_, str> {
    match text {
        Text::Written(written) => Cow::Borrowed(written),
        Text::Bare(number) => Cow::Owned(number.to_string()),
    }
}

/// What is wrong with a value that reads well, if anything is. Both corners
/// count: a bore that may be next to nothing makes the strokes unbounded.
fn implausibility<Q: Quantity>(
    bounds: Bounds<Q>,
    text: &Text,
    walk: &Walk<'_>,
    allowed: &Allowed<Q>,
    is_in_inches: bool,
) -> Option<Finding> {
    let number = |value: Q| (Q::units()[0].read)(&value);
    let (nominal, lowest) = (number(bounds.nominal), number(bounds.low));
    let [low, high] = allowed.limits();
    let is_above_zero = nominal > 0.0 || (nominal == 0.0 && allowed.zero);
    let (code, message, help) = if Q::FROM_ZERO && !is_above_zero {
        let what = if nominal < 0.0 { "negative" } else { "zero" };
        (
            Code::NotPositive,
            format!("{} is {what}", shown(text)),
            "give the size of the real part".to_owned(),
        )
    } else if Q::FROM_ZERO && (lowest < 0.0 || (lowest == 0.0 && !allowed.zero)) {
        let how_far = if lowest < 0.0 { "below" } else { "down to" };
        (
            Code::BadTolerance,
            format!("the tolerance of {} reaches {how_far} zero", shown(text)),
            "give a middle value and a tolerance smaller than it".to_owned(),
        )
    } else if bounds.high > high
        || (bounds.nominal < low && !(allowed.zero && nominal == 0.0))
        || (bounds.low < low && allowed.is_low_end_held)
    {
        let message = if bounds.nominal < low || bounds.nominal > high {
            format!("{} is implausible here", shown(text))
        } else {
            let end = if bounds.high > high { "upper" } else { "lower" };
            format!("the {end} end of {} is implausible here", shown(text))
        };
        let help = unit_hint::<Q>(text, allowed, is_in_inches)
            .unwrap_or_else(|| "check the unit, the decimal point and the tolerance".to_owned());
        (Code::Implausible, message, help)
    } else {
        return None;
    };
    Some(Finding::new(code, walk.place(), message, help).allowing(allowed.text()))
}

/// The value as the file has it.
fn shown(text: &Text) -> String {
    format!("`{}`", written(text).trim())
}

/// The number with each of the units in which it would be plausible. A fraction
/// is a fraction of an inch where inches are plausible.
fn plausible_texts<Q: Quantity>(
    number: &str,
    allowed: &Allowed<Q>,
    is_in_inches: bool,
    can_be_meant: impl Fn(&Unit<Q>) -> bool,
) -> Vec<String> {
    let [low, high] = allowed.limits();
    let mut units: Vec<&str> = Q::units()
        .iter()
        .filter(|unit| can_be_meant(unit))
        .map(|unit| unit.names[0])
        .filter(|name| {
            parse_quantity::<Q>(&format!("{number} {name}"))
                .is_ok_and(|bounds| bounds.nominal >= low && bounds.nominal <= high)
        })
        .collect();
    if number.contains('/') && units.contains(&"in") {
        units = vec!["in"];
    }
    let has_inches = is_in_inches && units.contains(&"in");
    if has_inches {
        units.sort_by_key(|unit| *unit != "in");
    }
    // The usual unit says it all; only a doubtful one needs company.
    if units.first() == Q::units().first().map(|unit| &unit.names[0]) {
        units.truncate(1);
    }
    units
        .into_iter()
        .take(3)
        .map(|unit| format!("{number} {unit}"))
        .collect()
}

/// The texts as a choice, each between these marks.
fn one_of(texts: &[String], mark: &str) -> String {
    let quoted: Vec<String> = texts
        .iter()
        .map(|text| format!("`{mark}{text}{mark}`"))
        .collect();
    quoted.join(" or ")
}

/// The same number with the unit that was probably meant: one of another
/// prefix, or inches for a fraction. What a number means in a unit of another
/// kind, only its writer knows.
fn unit_hint<Q: Quantity>(text: &Text, allowed: &Allowed<Q>, is_in_inches: bool) -> Option<String> {
    let written = written(text);
    let (quantity, _) = without_mark(&written);
    let share = format!("{} %", quantity.trim());
    if Q::UNITLESS
        && let Ok(bounds) = parse_quantity::<Q>(&share)
        && let [low, high] = allowed.limits()
        && bounds.low >= low
        && bounds.high <= high
    {
        return Some(format!(
            "a share is written in per cent or below 1: did you mean `\"{share}\"`?"
        ));
    }
    if matches!(text, Text::Bare(_)) {
        return None;
    }
    let number = quantity
        .trim()
        .trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.')
        .trim();
    // With a tolerance the unit stands twice, and either may be meant.
    if !number
        .chars()
        .all(|c| c.is_ascii_digit() || " ./-".contains(c))
    {
        return None;
    }
    let unit = find_unit::<Q>(quantity.trim().strip_prefix(number)?.trim())?;
    let texts = plausible_texts::<Q>(number, allowed, is_in_inches, |meant| {
        number.contains('/')
            || is_other_prefix(unit, meant)
            || (is_in_inches && meant.names[0] == "in")
    });
    (!texts.is_empty()).then(|| format!("did you mean {}?", one_of(&texts, "")))
}

/// Whether a power of ten lies between two units, as between mm and m.
fn is_other_prefix<Q: Quantity>(unit: &Unit<Q>, other: &Unit<Q>) -> bool {
    let size = |unit: &Unit<Q>| {
        let number = |of: f64| (Q::units()[0].read)(&(unit.make)(of));
        number(1.0) - number(0.0)
    };
    let powers = (size(unit) / size(other)).log10();
    (powers - powers.round()).abs() < 1e-9
}

fn describe<Q: Quantity>(error: &QuantityError, text: &Text, walk: &Walk<'_>) -> Finding {
    let (code, help, allowed) = match error {
        QuantityError::MissingUnit { found, units } => (
            Code::MissingUnit,
            format!(
                "write it in quotes with its unit: `\"{found} {}\"`",
                Q::units()[0].names[0]
            ),
            units.clone(),
        ),
        // A unit that looks alike may be of another size, so none is guessed.
        QuantityError::UnknownUnit { units, .. } => (
            Code::UnknownUnit,
            format!("use one of the units allowed, as in {}", Q::EXAMPLE),
            units.clone(),
        ),
        QuantityError::NotANumber { found, example, .. } => {
            let help = if found.contains(',') {
                "use a point in decimal numbers, and nothing between thousands".to_owned()
            } else {
                format!("write it like {example}, or with a tolerance like `1.1 ± 0.1`")
            };
            (
                Code::NotANumber,
                help,
                format!("{} such as {example}", Q::NAME),
            )
        }
        QuantityError::DecimalComma { .. } => (
            Code::NotANumber,
            error.help(Q::EXAMPLE),
            format!("{} such as {}", Q::NAME, Q::EXAMPLE),
        ),
        QuantityError::NotFinite { .. } => (
            Code::NotFinite,
            "give the measured number".to_owned(),
            "a finite number".to_owned(),
        ),
        QuantityError::Tolerance { .. } => (
            Code::BadTolerance,
            "give a tolerance smaller than the value, as in `\"1.2 m ± 0.1 m\"`".to_owned(),
            "0 up to the value itself".to_owned(),
        ),
    };
    let message = match text {
        Text::Bare(number) if code == Code::MissingUnit => {
            format!("the bare number `{number}` has no unit")
        }
        _ => error.to_string(),
    };
    Finding::new(code, walk.place(), message, help).allowing(allowed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::resolve::range::TORQUE;

    fn help(torque: &str) -> String {
        let mut reader = Reader::default();
        let amount = Amount::Value(Text::Written(torque.to_owned()));
        reader.read(&amount, &Walk::ROOT, &TORQUE);
        let finding = reader.findings.pop().expect("the torque is refused");
        finding.help
    }

    #[test]
    fn a_unit_of_another_size_is_never_offered() {
        for torque in ["30 ozf in", "0.8 dNm", "1 kgf m", "8 Nmm"] {
            let help = help(torque);
            assert_eq!(help, "use one of the units allowed, as in \"8 N m\"");
        }
        // These are units, but no screw has such a torque.
        assert!(!help("80 Ncm").contains("did you mean"));
        assert_eq!(help("800 N m"), "did you mean `800 N cm`?");
    }
}
