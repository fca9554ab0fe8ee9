//! Air pockets under pressure: what is absorbed, what is left, how long it takes.

use crate::range::{OutOfRange, between, positive};
use crate::resistance::HydraulicResistance;
use uom::si::f64::{Pressure, Ratio, Time, Volume};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;

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

/// The volume of a gas pocket at another pressure.
///
/// Formula: `V = V0 (p0 / p)^(1/n)`.
///
/// Symbols: `V` volume (m3) at the absolute pressure `p` (Pa); `V0` volume at the absolute pressure `p0`; `n`
/// polytropic index (dimensionless).
///
/// Range: an ideal gas, pressures and index above zero, `n` from 1 (slow) to 1.4 (fast); nothing dissolves.
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::gas::{polytropic_volume, standard_atmosphere};
/// use uom::si::{f64::{Pressure, Ratio, Volume}, pressure::bar, ratio::ratio, volume::milliliter};
///
/// let pressed = polytropic_volume(
///     Volume::new::<milliliter>(1.0),
///     standard_atmosphere(),
///     standard_atmosphere() + Pressure::new::<bar>(20.0),
///     Ratio::new::<ratio>(1.0),
/// )?;
/// assert!((pressed.get::<milliliter>() - (1.0 - 0.951_780)).abs() < 5e-7);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn polytropic_volume(
    volume: Volume,
    start: Pressure,
    end: Pressure,
    polytropic_index: Ratio,
) -> Result<Volume, OutOfRange> {
    let start_pa = positive("absolute pressure at the start", start.value, "Pa")?;
    let end_pa = positive("absolute pressure at the end", end.value, "Pa")?;
    let index = positive("polytropic index", polytropic_index.value, "")?;
    Ok(volume * Ratio::new::<ratio>((start_pa / end_pa).powf(index.recip())))
}

/// A pocket of gas at the end of a dead leg, pressed together through the leg's resistance by a constant pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pocket {
    /// Its volume at the start.
    pub volume: Volume,
    /// Its absolute pressure at the start.
    pub pressure: Pressure,
}

impl Pocket {
    /// How long it takes until the pocket has shrunk to a volume.
    ///
    /// Formula: `t = R ((V0 - V) / ps + (c / ps^2) ln((ps V0 - c) / (ps V - c)))` with `c = p0 V0`: the integral of
    /// `dV/dt = -(ps - c / V) / R`.
    ///
    /// Symbols: `t` time (s); `R` resistance between source and pocket (Pa s/m3); `V0`, `p0` volume (m3) and absolute
    /// pressure (Pa) of the pocket at the start; `V` volume reached (m3); `ps` absolute pressure of the source (Pa).
    ///
    /// Range: slow compression (`n = 1`), laminar flow, no inertia: in a leg of 0.4 m the fluid swings, and the volume
    /// at one instant can be off by a quarter. `ps` above `p0`, `V` at most `V0` and above the volume `c / ps` at which
    /// the pocket comes to rest.
    ///
    /// Source: derived here from [Merritt1967](crate#sources) and [White2006](crate#sources).
    ///
    /// ```
    /// use bleedwright_hydraulics::HydraulicResistance;
    /// use bleedwright_hydraulics::gas::{Pocket, standard_atmosphere};
    /// use uom::si::{f64::{Pressure, Volume}, pressure::bar, time::millisecond, volume::milliliter};
    ///
    /// let pocket = Pocket { volume: Volume::new::<milliliter>(0.5), pressure: standard_atmosphere() };
    /// let time = pocket.time_to_shrink(
    ///     Volume::new::<milliliter>(0.3),
    ///     standard_atmosphere() + Pressure::new::<bar>(1.0),
    ///     HydraulicResistance::new(2.164_436_689e9),
    /// )?;
    /// assert!((time.get::<millisecond>() - 6.577_072).abs() < 5e-7);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn time_to_shrink(
        &self,
        volume: Volume,
        source: Pressure,
        resistance: HydraulicResistance,
    ) -> Result<Time, OutOfRange> {
        let start_m3 = positive("volume of the pocket", self.volume.value, "m3")?;
        let start_pa = positive("absolute pressure of the pocket", self.pressure.value, "Pa")?;
        let source_pa = positive("absolute pressure of the source", source.value, "Pa")?;
        let resistance = positive(
            "resistance",
            resistance.pascal_seconds_per_cubic_metre(),
            "Pa s/m3",
        )?;
        if start_pa >= source_pa {
            return Err(OutOfRange::NotOrdered {
                smaller: "pressure of the pocket",
                larger: "pressure of the source",
                smaller_value: start_pa,
                larger_value: source_pa,
                unit: "Pa",
            });
        }
        let content = start_pa * start_m3;
        let rest_m3 = content / source_pa;
        let end_m3 = between("volume reached", volume.value, (rest_m3, start_m3), "m3")?;
        let logarithm = ((source_pa * start_m3 - content) / (source_pa * end_m3 - content)).ln();
        let time_s = resistance
            * ((start_m3 - end_m3) / source_pa + content / (source_pa * source_pa) * logarithm);
        // At the volume of rest itself the time is without end.
        positive("volume above the one at rest", end_m3 - rest_m3, "m3")?;
        Ok(Time::new::<second>(time_s))
    }

    /// The volume at which the pocket comes to rest under a constant pressure, slowly: `p0 V0 / ps`.
    ///
    /// ```
    /// use bleedwright_hydraulics::gas::{Pocket, standard_atmosphere};
    /// use uom::si::{f64::{Pressure, Volume}, pressure::bar, volume::milliliter};
    ///
    /// let pocket = Pocket { volume: Volume::new::<milliliter>(0.5), pressure: standard_atmosphere() };
    /// let rest = pocket.volume_at_rest(standard_atmosphere() + Pressure::new::<bar>(1.0))?;
    /// assert!((rest.get::<milliliter>() - 0.251_645_350).abs() < 5e-10);
    /// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
    /// ```
    pub fn volume_at_rest(&self, source: Pressure) -> Result<Volume, OutOfRange> {
        polytropic_volume(self.volume, self.pressure, source, Ratio::new::<ratio>(1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::pressure::{bar, megapascal};

    fn absorbed(gauge: Pressure, index: f64) -> f64 {
        absorbed_share(standard_atmosphere(), gauge, Ratio::new::<ratio>(index)).get::<ratio>()
    }

    /// By hand from the gas law: 5, 20 and 100 bar gauge.
    #[test]
    fn shares_at_braking_pressures() {
        for (gauge_bar, slow, fast) in [
            (5.0, 0.831_497, 0.719_730),
            (20.0, 0.951_780, 0.885_331),
            (100.0, 0.989_969, 0.962_642),
        ] {
            let gauge = Pressure::new::<bar>(gauge_bar);
            assert!((absorbed(gauge, 1.0) - slow).abs() < 5e-7);
            assert!((absorbed(gauge, 1.4) - fast).abs() < 5e-7);
        }
    }

    /// By hand from the gas law: one millilitre of air at 10, 35, 70 and 100 bar gauge.
    #[test]
    fn almost_everything_is_gone_by_one_megapascal() {
        for (gauge_mpa, slow, fast) in [
            (1.0, 0.908, 0.818),
            (3.5, 0.972, 0.922),
            (7.0, 0.986, 0.952),
            (10.0, 0.990, 0.963),
        ] {
            let gauge = Pressure::new::<megapascal>(gauge_mpa);
            assert!((absorbed(gauge, 1.0) - slow).abs() < 5e-4);
            assert!((absorbed(gauge, 1.4) - fast).abs() < 5e-4);
        }
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
