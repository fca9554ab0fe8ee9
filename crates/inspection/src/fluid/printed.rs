//! Figures as they stand in a sentence.

use bleedwright_network::Bounds;
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::year;

/// `155 degC (311 degF)`.
pub(super) fn temperature(point: ThermodynamicTemperature) -> String {
    format!(
        "{:.0} degC ({:.0} degF)",
        point.get::<degree_celsius>(),
        point.get::<degree_fahrenheit>()
    )
}

/// `2.5 %`: the digits that a tester shows, and no more than two.
pub(super) fn share(share: Ratio) -> String {
    let hundredths = (share.get::<percent>() * 100.0).round() / 100.0;
    format!("{hundredths} %")
}

/// `2.5 %`, or `2.5 % (2 to 3 %)`.
pub(super) fn share_within(bounds: Bounds<Ratio>) -> String {
    if bounds.low == bounds.high {
        return share(bounds.nominal);
    }
    let low = share(bounds.low.max(Ratio::new::<percent>(0.0)));
    format!(
        "{} ({} to {})",
        share(bounds.nominal),
        low.trim_end_matches(" %"),
        share(bounds.high)
    )
}

/// `180 degC (356 degF)`, with its tolerance where it has one.
pub(super) fn temperature_within(bounds: Bounds<ThermodynamicTemperature>) -> String {
    let nominal = temperature(bounds.nominal);
    if bounds.low == bounds.high {
        return nominal;
    }
    format!(
        "{nominal}, {:.0} to {:.0} degC",
        bounds.low.get::<degree_celsius>(),
        bounds.high.get::<degree_celsius>()
    )
}

/// `30 months`, `5 days`: in the unit in which one speaks of it.
pub(super) fn age(age: Time) -> String {
    let years = age.get::<year>();
    let (count, unit) = if years < 1.9 / 12.0 {
        ((years * 365.0).round(), "day")
    } else if years < 5.0 {
        ((years * 12.0).round(), "month")
    } else {
        (years.round(), "year")
    };
    let plural = if (count - 1.0).abs() < 0.5 { "" } else { "s" };
    format!("{count} {unit}{plural}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::time::day;

    #[test]
    fn figures_are_short() {
        let degc = ThermodynamicTemperature::new::<degree_celsius>(155.0);
        assert_eq!(temperature(degc), "155 degC (311 degF)");
        assert_eq!(share(Ratio::new::<percent>(2.9)), "2.9 %");
        assert_eq!(share(Ratio::new::<percent>(3.0)), "3 %");
        for (time, text) in [
            (Time::new::<year>(2.5), "30 months"),
            (Time::new::<day>(1.0), "1 day"),
            (Time::new::<day>(20.0), "20 days"),
            (Time::new::<year>(10.0), "10 years"),
        ] {
            assert_eq!(age(time), text);
        }
    }
}
