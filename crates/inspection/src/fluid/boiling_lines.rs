//! Where a measured boiling point changes the verdict.

use super::estimate::Curves;
use super::judgement::Verdict;
use super::limits::{least_dry, least_wet as class_wet};
use super::printed::temperature;
use super::trade::{RENEW_SOON_PERCENT, UNSAFE_PERCENT};
use bleedwright_network::Fluid;
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The boiling points at which the verdict changes.
pub(super) struct Lines {
    fit_from: ThermodynamicTemperature,
    least_wet: ThermodynamicTemperature,
    unsafe_below: ThermodynamicTemperature,
    /// What the first and the last rest on.
    basis: &'static str,
}

impl Lines {
    /// The lines for a grade; none where no law states a boiling point. A label does not move them: a good fluid that has
    /// fallen to the level of its class is judged like one.
    ///
    /// ASSUMPTION: renewed soon below the boiling point that the least fluid of the class has at 2 % of water, renewed
    /// now below the least wet boiling point, unsafe below that of the nominal fluid at 4 %. For silicone fluid, which
    /// takes up no water: fit from the least dry boiling point on, unsafe below the lowest wet minimum of any class, DOT 3's.
    pub(super) fn of(grade: Fluid) -> Option<Self> {
        let least_wet = class_wet(grade)?;
        if let Some(curves) = Curves::of(grade, None) {
            return Some(Self {
                fit_from: curves.class_at(RENEW_SOON_PERCENT),
                least_wet,
                unsafe_below: curves.nominal_at(UNSAFE_PERCENT),
                basis: "from what fluid of the class boils at with 2 and 4 % of water",
            });
        }
        Some(Self {
            fit_from: least_dry(grade)?,
            least_wet,
            unsafe_below: class_wet(Fluid::Dot3)?,
            basis: "from the dry minimum and from DOT 3's wet one",
        })
    }

    /// The verdict on the lower end of a reading, and why. `shown` is the reading as printed.
    pub(super) fn judge(
        &self,
        boiling: ThermodynamicTemperature,
        shown: &str,
    ) -> (Verdict, String) {
        let is_below = |line| is_below(boiling, line);
        let verdict = if is_below(self.unsafe_below) {
            Verdict::Unsafe
        } else if is_below(self.least_wet) {
            Verdict::RenewNow
        } else if is_below(self.fit_from) {
            Verdict::RenewSoon
        } else {
            Verdict::Fit
        };
        let against = if is_below(self.least_wet) {
            "below"
        } else {
            "not below"
        };
        let reason = format!(
            "{shown}: {against} the least wet boiling point of new fluid, {}; soon below {:.0}, unsafe below {:.0} degC, \
             {} (assumption)",
            temperature(self.least_wet),
            self.fit_from.get::<degree_celsius>(),
            self.unsafe_below.get::<degree_celsius>(),
            self.basis
        );
        (verdict, reason)
    }
}

/// Whether it boils lower than any class may when wet, so that no name of the fluid excuses it.
///
/// ASSUMPTION: what boils below the lowest wet minimum of any class, DOT 3's, boils too early in any brake.
pub(super) fn is_below_every_class(boiling: ThermodynamicTemperature) -> bool {
    class_wet(Fluid::Dot3).is_some_and(|line| is_below(boiling, line))
}

/// Converted from degF a limit may be missed by a hair.
fn is_below(boiling: ThermodynamicTemperature, line: ThermodynamicTemperature) -> bool {
    boiling.get::<degree_celsius>() < line.get::<degree_celsius>() - 1e-6
}
