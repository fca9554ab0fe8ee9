//! Where a measured boiling point changes the verdict.

use super::estimate::Curves;
use super::limits::{least_dry, least_wet as class_wet};
use super::trade::RENEW_SOON_PERCENT;
use super::verdict::Verdict;
use bleedwright_network::Fluid;
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The boiling points at which the verdict changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoilingLines {
    /// The grade whose lines they are.
    pub grade: Fluid,
    /// Below it is renewed soon.
    pub fit_from: ThermodynamicTemperature,
    /// The least wet boiling point: below it is renewed now.
    pub least_wet: ThermodynamicTemperature,
    /// Below it is not driven.
    pub unsafe_below: ThermodynamicTemperature,
}

impl BoilingLines {
    /// The lines for a grade; none where no law states a boiling point. A label does not move them: a good fluid that has
    /// fallen to the level of its class is judged like one.
    ///
    /// ASSUMPTION: renewed soon below the boiling point that the least fluid of the class has at 2 % of water, for silicone
    /// fluid, which takes up none, below the least dry one; renewed now below the least wet boiling point.
    pub(super) fn of(grade: Fluid) -> Option<Self> {
        let fit_from = match Curves::of(grade, None) {
            Some(curves) => curves.class_at(RENEW_SOON_PERCENT),
            None => least_dry(grade)?,
        };
        Some(Self {
            grade,
            fit_from,
            least_wet: class_wet(grade)?,
            unsafe_below: unsafe_below(grade)?,
        })
    }

    /// The verdict on the lower end of a reading.
    pub(super) fn judge(&self, boiling: ThermodynamicTemperature) -> Verdict {
        let is_below = |line| is_below(boiling, line);
        if is_below(self.unsafe_below) {
            Verdict::Unsafe
        } else if is_below(self.least_wet) {
            Verdict::RenewNow
        } else if is_below(self.fit_from) {
            Verdict::RenewSoon
        } else {
            Verdict::Fit
        }
    }
}

/// Below this measured boiling point nobody drives: the lowest wet minimum of any class, DOT 3's, or more.
///
/// ASSUMPTION: 6 K more for DOT 4, 16 and 30 for the grades that must boil higher.
fn unsafe_below(grade: Fluid) -> Option<ThermodynamicTemperature> {
    let more_k = match grade {
        Fluid::Dot4 => 6.0,
        Fluid::Dot4LowViscosity => 16.0,
        Fluid::Dot51 => 30.0,
        Fluid::Dot3 | Fluid::Dot5 | Fluid::Mineral => 0.0,
    };
    let lowest = lowest_wet()?.get::<degree_celsius>();
    Some(ThermodynamicTemperature::new::<degree_celsius>(
        lowest + more_k,
    ))
}

/// Converted from degF a limit may be missed by a hair.
pub(super) fn is_below(boiling: ThermodynamicTemperature, line: ThermodynamicTemperature) -> bool {
    boiling.get::<degree_celsius>() < line.get::<degree_celsius>() - 1e-6
}

/// The lowest wet minimum of any class, DOT 3's.
pub fn lowest_wet() -> Option<ThermodynamicTemperature> {
    class_wet(Fluid::Dot3)
}

/// Whether it boils lower than any class may when wet, so that no name of the fluid excuses it.
///
/// ASSUMPTION: what boils below the lowest wet minimum of any class, DOT 3's, boils too early in any brake.
pub(super) fn is_below_every_class(boiling: ThermodynamicTemperature) -> bool {
    lowest_wet().is_some_and(|line| is_below(boiling, line))
}
