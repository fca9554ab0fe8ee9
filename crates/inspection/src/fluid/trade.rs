//! Rules of the trade for fluid that takes up water, and where this program draws a line of its own.

use super::limits::{Certainty, Limit, LimitValue, Property};
use uom::si::f64::{Ratio, Time};
use uom::si::ratio::percent;
use uom::si::time::year;

/// Moisture from which fluid is renewed soon, in percent.
///
/// ASSUMPTION: our own, one per cent below the rule of the trade, so that nobody is surprised at the next service.
pub(super) const RENEW_SOON_PERCENT: f64 = 2.0;

/// Moisture from which fluid is renewed, in percent. A rule of the trade, second-hand; no law.
pub(super) const RENEW_NOW_PERCENT: f64 = 3.0;

/// Moisture from which fluid is dangerous, in percent: "about 4". Common practice, no source.
pub(super) const UNSAFE_PERCENT: f64 = 4.0;

/// Moisture below which new fluid should read, in percent. Common practice, no source.
pub(super) const NEW_PERCENT: f64 = 1.0;

/// The age at which fluid is renewed, in years. Common practice, no source.
pub(super) const RENEWAL_YEARS: f64 = 2.0;

/// The age in years at which renewal no longer waits.
///
/// ASSUMPTION: twice the two years.
pub(super) const OVERDUE_YEARS: f64 = 4.0;

/// How long an opened bottle may stand before it is trusted only by a moisture reading, in years.
///
/// ASSUMPTION: a month. Common practice says only that an opened bottle is used up soon.
pub(super) const OPENED_MONTH_YEARS: f64 = 1.0 / 12.0;

/// How long an opened bottle may stand before it is not used at all, in years.
///
/// ASSUMPTION: a year.
pub(super) const OPENED_LONGEST_YEARS: f64 = 1.0;

/// The rules as limits, for the list beside those of the law.
pub(super) fn rules() -> Vec<Limit> {
    let below = |property, value, certainty| Limit {
        property,
        value: LimitValue::ShareBelow(Ratio::new::<percent>(value)),
        clause: None,
        certainty,
    };
    vec![
        below(
            Property::MoistureSoon,
            RENEW_SOON_PERCENT,
            Certainty::Assumption,
        ),
        below(
            Property::MoistureNow,
            RENEW_NOW_PERCENT,
            Certainty::SecondHand,
        ),
        below(
            Property::MoistureUnsafe,
            UNSAFE_PERCENT,
            Certainty::CommonPractice,
        ),
        below(
            Property::NewMoisture,
            NEW_PERCENT,
            Certainty::CommonPractice,
        ),
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
