//! Air under pressure: how much of it is absorbed.

use uom::si::f64::{Pressure, Ratio};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

/// The pressure of the standard atmosphere, 101325 Pa.
///
/// Source: [ISO2533](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::gas::standard_atmosphere;
/// use uom::si::pressure::pascal;
///
/// assert_eq!(standard_atmosphere().get::<pascal>(), 101_325.0);
/// ```
pub fn standard_atmosphere() -> Pressure {
    Pressure::new::<pascal>(101_325.0)
}

/// The share of an air pocket's volume that disappears under a gauge pressure.
///
/// Formula: `s = 1 - (p0 / (p0 + p))^(1/n)`, which is `p V^n = const` with absolute pressures.
///
/// Symbols: `s` share absorbed (dimensionless); `p0` absolute pressure at the start, normally the atmosphere's
/// (Pa); `p` gauge pressure above it (Pa); `n` polytropic index (dimensionless).
///
/// Range: an ideal gas, `p >= 0`, `n` from 1 (slow, isothermal: the rule for small bubbles within a second) to 1.4
/// (fast, adiabatic). Air that dissolves while the pressure is held is not counted. A pressure at or below zero
/// absorbs nothing.
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::gas::{absorbed_share, standard_atmosphere};
/// use uom::si::{f64::{Pressure, Ratio}, pressure::bar, ratio::ratio};
///
/// let slow = Ratio::new::<ratio>(1.0);
/// let share = absorbed_share(standard_atmosphere(), Pressure::new::<bar>(20.0), slow);
/// assert!((share.get::<ratio>() - 0.951_780).abs() < 1e-6);
/// ```
pub fn absorbed_share(start: Pressure, gauge: Pressure, polytropic_index: Ratio) -> Ratio {
    let (start, gauge, index) = (start.value, gauge.value, polytropic_index.value);
    let share = if start > 0.0 && gauge > 0.0 && index > 0.0 {
        // The same as 1 - (p0 / (p0 + p))^(1/n), without losing digits at small pressures.
        -(-(gauge / start).ln_1p() / index).exp_m1()
    } else {
        0.0
    };
    Ratio::new::<ratio>(share)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn absorbed(gauge: Pressure, index: f64) -> f64 {
        absorbed_share(standard_atmosphere(), gauge, Ratio::new::<ratio>(index)).get::<ratio>()
    }

    #[test]
    fn small_pressures_follow_the_linear_law() {
        // For p much below p0 the share is p / (n p0).
        let share = absorbed(Pressure::new::<pascal>(1e-6), 1.4);
        assert!((share * 1.4 * 101_325.0 / 1e-6 - 1.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_is_absorbed_without_pressure() {
        for gauge in [0.0, -5.0, f64::NAN] {
            assert!(absorbed(Pressure::new::<pascal>(gauge), 1.0).abs() < f64::EPSILON);
        }
    }
}
