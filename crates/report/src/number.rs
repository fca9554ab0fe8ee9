//! Numbers as a technician reads them.

use bleedwright_network::Bounds;
use uom::si::f64::{Length, Time, Volume};
use uom::si::length::{inch, meter, millimeter};
use uom::si::time::second;
use uom::si::volume::milliliter;

/// A number with the decimals that it needs, three at most.
pub(crate) fn plain(value: f64) -> String {
    at_most(value, 3)
}

/// The same with so many decimals at most, one or more.
pub(crate) fn at_most(value: f64, decimals: usize) -> String {
    let digits = format!("{value:.decimals$}");
    digits
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// Two decimals, a half rounded away from zero: so many does a tester show.
pub(crate) fn hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0 + 0.0
}

/// A time in the unit that a clock on the wall shows, its nominal value only.
pub(crate) fn duration(time: Bounds<Time>) -> String {
    let seconds = time.nominal.get::<second>();
    if !seconds.is_finite() {
        return "does not run".to_owned();
    }
    let (unit, word) = unit_of(seconds);
    format!("{} {word}", two_figures(seconds / unit))
}

/// The unit of a time, and how many seconds it is.
fn unit_of(seconds: f64) -> (f64, &'static str) {
    if seconds < 90.0 {
        (1.0, "s")
    } else if seconds < 90.0 * 60.0 {
        (60.0, "min")
    } else {
        (3600.0, "h")
    }
}

/// The same with its bounds, in the unit of the nominal value.
pub(crate) fn duration_within(time: Bounds<Time>) -> String {
    let (unit, _) = unit_of(time.nominal.get::<second>());
    let bound = |time: Time| {
        let value = time.get::<second>() / unit;
        if value.is_finite() {
            two_figures(value)
        } else {
            "?".to_owned()
        }
    };
    format!(
        "{} ({}-{})",
        duration(time),
        bound(time.low),
        bound(time.high)
    )
}

/// Two figures of any number, without an exponent.
pub(crate) fn two_figures(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value:.0}");
    }
    let decimals = 1 - value.abs().log10().floor() as i32;
    if decimals > 0 {
        format!("{value:.*}", decimals as usize)
    } else {
        let step = 10_f64.powi(-decimals);
        format!("{:.0}", (value / step).round() * step)
    }
}

/// Millilitres to two figures: more than the bore's tolerance allows would be
/// false precision.
pub(crate) fn ml(volume: Volume) -> String {
    let rounded = rounded_ml(volume);
    let is_in_tenths = rounded != 0.0 && volume.get::<milliliter>().abs() < TENTHS_BELOW_ML;
    let decimals = usize::from(is_in_tenths);
    format!("{rounded:.decimals$}")
}

/// The same as a number.
pub(crate) fn rounded_ml(volume: Volume) -> f64 {
    let value = volume.get::<milliliter>();
    if value.abs() < 0.05 {
        return 0.0;
    }
    if value.abs() < TENTHS_BELOW_ML {
        return (value / 0.1).round() / 10.0;
    }
    let mut step = 1.0;
    while value.abs() >= step * 99.5 {
        step *= 10.0;
    }
    (value / step).round() * step
}

/// Below this two figures are tenths of a millilitre.
const TENTHS_BELOW_ML: f64 = 9.95;

/// A least amount of a few millilitres, rounded down.
pub(crate) fn ml_at_least(volume: Volume) -> String {
    let tenths = (volume.get::<milliliter>() * 10.0 + 1e-6).floor();
    format!("{:.1}", tenths / 10.0)
}

/// Whole millilitres: amounts to work by, which must add up on the jar.
pub(crate) fn ml_mark(volume: Volume) -> String {
    format!("{:.0}", volume.get::<milliliter>() + 0.0)
}

/// `low-high`, or one number where both print alike.
pub(crate) fn ml_range(bounds: Bounds<Volume>) -> String {
    let (low, high) = (ml(bounds.low), ml(bounds.high));
    if low == high {
        low
    } else {
        format!("{low}-{high}")
    }
}

/// A volume with its bounds, if they differ as printed.
pub(crate) fn ml_within(bounds: Bounds<Volume>) -> String {
    let (nominal, range) = (ml(bounds.nominal), ml_range(bounds));
    if nominal == range {
        format!("{nominal} ml")
    } else {
        format!("{nominal} ml ({range})")
    }
}

/// Litres from a thousand millilitres on.
pub(crate) fn ml_or_l(volume: Volume) -> String {
    let value = volume.get::<milliliter>();
    if value >= 999.5 {
        format!("{} l", at_most(value / 1000.0, 2))
    } else {
        format!("{value:.0} ml")
    }
}

/// Metres to the centimetre.
pub(crate) fn metres(length: Length) -> String {
    format!("{:.2} m", length.get::<meter>() + 0.0)
}

/// Metres with their range, where there is one.
pub(crate) fn metres_range(bounds: Bounds<Length>) -> String {
    let (low, high) = (metres(bounds.low), metres(bounds.high));
    if low == high {
        metres(bounds.nominal)
    } else {
        format!(
            "{} ({:.2}-{high})",
            metres(bounds.nominal),
            bounds.low.get::<meter>() + 0.0
        )
    }
}

/// Whole millimetres.
pub(crate) fn mm(length: Length) -> String {
    format!("{:.0} mm", length.get::<millimeter>())
}

/// A fraction of an inch: `1/16 in`.
pub(crate) fn in_inches(length: Length) -> String {
    format!("1/{:.0} in", 1.0 / length.get::<inch>())
}

/// A small number as it is said: `four`.
pub(crate) fn spelt(count: f64) -> String {
    const WORDS: [&str; 11] = [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    let word = WORDS
        .get(count as usize)
        .filter(|_| count.fract().abs() < 1e-9);
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// A share as it is said: `a third`, `nine tenths`.
pub(crate) fn fraction(share: f64) -> String {
    for (parts, part) in [(3.0, "third"), (10.0, "tenth"), (20.0, "twentieth")] {
        let count = share * parts;
        if (count - count.round()).abs() < 1e-9 {
            return match count.round() {
                1.0 => format!("a {part}"),
                more => format!("{} {part}s", spelt(more)),
            };
        }
    }
    share.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_figures() {
        let shown = |value| ml(Volume::new::<milliliter>(value));
        for (value, text) in [
            (0.0, "0"),
            (-0.0, "0"),
            (0.04, "0"),
            (0.12, "0.1"),
            (3.46, "3.5"),
            (9.94, "9.9"),
            (9.96, "10"),
            (48.4, "48"),
            (99.4, "99"),
            (99.6, "100"),
            (154.0, "150"),
            (156.0, "160"),
            (1460.0, "1500"),
        ] {
            assert_eq!(shown(value), text, "{value}");
        }
    }

    #[test]
    fn litres_from_a_thousand_on() {
        let shown = |value| ml_or_l(Volume::new::<milliliter>(value));
        assert_eq!(shown(250.0), "250 ml");
        assert_eq!(shown(1000.0), "1 l");
        assert_eq!(shown(1325.0), "1.32 l");
    }
}
