//! Rules of the trade for fluid that takes up water, and where this program draws a line of its own.

use super::limits::{Certainty, Limit, LimitValue, Property};
use uom::si::f64::{Ratio, Time};
use uom::si::ratio::percent;
use uom::si::time::year;

/// Water from which fluid is renewed soon, in percent.
///
/// ASSUMPTION: our own line, no rule of anybody.
pub const RENEW_SOON_PERCENT: f64 = 2.0;

/// Water from which fluid is renewed, in percent. Common practice, no source; no law has one.
pub const RENEW_NOW_PERCENT: f64 = 3.0;

/// Water from which fluid is not driven with, in percent.
///
/// ASSUMPTION: our own line, no rule of anybody.
pub const UNSAFE_PERCENT: f64 = 4.0;

/// Water from which new fluid is not filled in, in percent.
///
/// ASSUMPTION: our own line. The rule is a sealed bottle within its date, whatever a tester shows.
pub const NEW_PERCENT: f64 = 1.0;

/// The age at which fluid is due where the maker states no interval, in years. Common practice, no source.
pub const RENEWAL_YEARS: f64 = 2.0;

/// The age in years at which renewal no longer waits, whatever the interval.
///
/// ASSUMPTION: twice the two years.
pub const OVERDUE_YEARS: f64 = 4.0;

/// How long an opened bottle may stand before a sealed one is better, whatever a tester shows, in years.
///
/// ASSUMPTION: a month. Common practice says only that an opened bottle is used up soon.
pub const OPENED_MONTH_YEARS: f64 = 1.0 / 12.0;

/// How long an opened bottle may stand before it is not used at all, in years.
///
/// ASSUMPTION: a year.
pub const OPENED_LONGEST_YEARS: f64 = 1.0;

/// The rules as limits, for the list beside those of the law.
pub(super) fn rules() -> Vec<Limit> {
    vec![
        Limit {
            property: Property::Moisture,
            value: LimitValue::ShareBelow(Ratio::new::<percent>(RENEW_NOW_PERCENT)),
            clause: None,
            certainty: Certainty::CommonPractice,
        },
        Limit {
            property: Property::Age,
            value: LimitValue::TimeAtMost(Time::new::<year>(RENEWAL_YEARS)),
            clause: None,
            certainty: Certainty::CommonPractice,
        },
    ]
}

/// Whether a value reaches a limit. Conversion of units may leave a hair; it counts as reached.
pub(super) fn reaches(value: f64, limit: f64) -> bool {
    value >= limit - 1e-9
}
