//! Figures of fluid as they stand in a sentence.

use crate::number::{hundredths, spelt};
use crate::said::{Said, figure};
use bleedwright_network::Bounds;
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::year;

/// `155 degC (311 degF)`.
pub(super) fn temperature(point: ThermodynamicTemperature) -> Said {
    figure(format!(
        "{:.0} degC ({:.0} degF)",
        point.get::<degree_celsius>(),
        point.get::<degree_fahrenheit>()
    ))
}

/// `180 degC (356 degF)`, with its tolerance where it has one.
pub(super) fn temperature_within(bounds: Bounds<ThermodynamicTemperature>) -> Said {
    let nominal = temperature(bounds.nominal);
    if bounds.low == bounds.high {
        return nominal;
    }
    figure(format!(
        "{nominal}, {:.0} to {:.0} degC",
        bounds.low.get::<degree_celsius>(),
        bounds.high.get::<degree_celsius>()
    ))
}

/// `2 %`.
pub(super) fn percent(share_percent: f64) -> Said {
    figure(format!("{share_percent} %"))
}

/// `2.5`: the digits that a tester shows, and no more than two.
fn share(share: Ratio) -> f64 {
    hundredths(share.get::<ratio::percent>())
}

/// `2.5 %`, or `2.5 % (2 to 3 %)`.
pub(super) fn share_within(bounds: Bounds<Ratio>) -> Said {
    let nominal = share(bounds.nominal);
    if bounds.low == bounds.high {
        return percent(nominal);
    }
    let low = share(bounds.low.max(Ratio::new::<ratio::percent>(0.0)));
    figure(format!("{nominal} % ({low} to {} %)", share(bounds.high)))
}

/// `30 months`, `5 days`: in the unit in which one speaks of it.
pub(super) fn age(age: Time) -> Said {
    let years = age.get::<year>();
    let (count, unit) = if years < 1.9 / 12.0 {
        ((years * 365.0).round(), "day")
    } else if years < 5.0 {
        ((years * 12.0).round(), "month")
    } else {
        (years.round(), "year")
    };
    let plural = if (count - 1.0).abs() < 0.5 { "" } else { "s" };
    figure(format!("{count} {unit}{plural}"))
}

/// `a month`, `a year`, `two years`: a time of a rule, in words.
pub(crate) fn span(years: f64) -> Said {
    let (count, unit) = if years < 1.0 {
        (years * 12.0, "month")
    } else {
        (years, "year")
    };
    figure(if (count - 1.0).abs() < 1e-9 {
        format!("a {unit}")
    } else {
        format!("{} {unit}s", spelt(count))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::time::day;

    #[test]
    fn figures_are_short() {
        let degc = ThermodynamicTemperature::new::<degree_celsius>(155.0);
        let exact = |value| Bounds::exact(Ratio::new::<ratio::percent>(value));
        for (said, text) in [
            (temperature(degc), "155 degC (311 degF)"),
            (share_within(exact(2.9)), "2.9 %"),
            (share_within(exact(3.0)), "3 %"),
            (age(Time::new::<year>(2.5)), "30 months"),
            (age(Time::new::<day>(1.0)), "1 day"),
            (age(Time::new::<day>(20.0)), "20 days"),
            (age(Time::new::<year>(10.0)), "10 years"),
            (span(1.0 / 12.0), "a month"),
            (span(4.0), "four years"),
        ] {
            assert_eq!(said.to_string(), text);
        }
    }
}
