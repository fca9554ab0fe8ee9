//! How water brings the boiling point of a fluid down.

use super::saturation::saturation_mpa;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// Atmospheric pressure in megapascals. High ground is not counted: the law's boiling points are stated for this pressure too.
const ATMOSPHERE_MPA: f64 = 0.101_325;

/// Molar mass of water in g/mol.
const WATER_G_MOL: f64 = 18.015;

/// Molar mass of the fluid in g/mol.
///
/// ASSUMPTION: that of triethylene glycol monomethyl ether, the reference fluid of FMVSS 116 S6.2. What a fluid differs
/// from it by goes into the water factor.
const FLUID_G_MOL: f64 = 164.2;

/// Heat of vaporisation of the fluid, divided by the gas constant and its boiling point.
///
/// ASSUMPTION: 12; liquids with hydrogen bonds show about that (from memory, no source). From 10.5 to 13.5 a curve through
/// both minima of a class moves by less than 1.5 K.
const VAPORISATION: f64 = 12.0;

/// The lowest boiling point that is looked for, in kelvin: that of water.
const WATER_BOILS_K: f64 = 373.124;

/// The halvings after which an interval of 300 K is narrower than a number can hold.
const HALVINGS: u32 = 64;

/// The boiling point of one fluid over its share of water.
///
/// It is the temperature at which the vapour pressures of water and of dry fluid, each in its share of the molecules, add
/// up to that of the atmosphere.
///
/// Formula: `a x p_w(T) + (1 - x) p0 exp(k (1 - T_d / T)) = p0`, `x = (w / M_w) / (w / M_w + (1 - w) / M_f)`.
///
/// Symbols: `T` boiling point (K), `T_d` the dry one (K), `w` share of water by mass, `x` the same by molecules, `p0` 101325
/// Pa, `p_w` vapour pressure of water (Pa), `M_w` 18.015 and `M_f` 164.2 g/mol, `k` 12, `a` water factor: 1 where water
/// and fluid do not notice each other, smaller where the fluid holds its water, as borate esters do.
///
/// Range: 0 to 8 % of water, dry points up to 350 degC. The boiling point falls with more water, always.
///
/// Source: the sum [Raoult1887](crate#sources); `p_w` [IAPWS97](crate#sources); `k` is assumed. That brake fluid obeys it is
/// not proven.
///
/// ```
/// use bleedwright_inspection::fluid::WaterCurve;
/// use uom::si::f64::{Ratio, ThermodynamicTemperature};
/// use uom::si::{ratio::percent, thermodynamic_temperature::degree_celsius};
///
/// let degc = ThermodynamicTemperature::new::<degree_celsius>;
/// let share = Ratio::new::<percent>;
/// let least_dot4 = WaterCurve::through(degc(230.0), share(3.7), degc(155.0));
/// assert!((least_dot4.boiling(share(3.7)).get::<degree_celsius>() - 155.0).abs() < 1e-6);
/// assert!((least_dot4.boiling(share(2.0)).get::<degree_celsius>() - 171.3).abs() < 0.05);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaterCurve {
    dry_k: f64,
    factor: f64,
}

impl WaterCurve {
    /// A fluid with this dry boiling point and this water factor.
    pub fn new(dry: ThermodynamicTemperature, factor: Ratio) -> Self {
        Self {
            dry_k: dry.get::<kelvin>(),
            factor: factor.get::<ratio>(),
        }
    }

    /// The fluid with this dry boiling point that boils at `boiling` with `water` in it. `boiling` lies below the dry point
    /// and above 100 degC.
    pub fn through(
        dry: ThermodynamicTemperature,
        water: Ratio,
        boiling: ThermodynamicTemperature,
    ) -> Self {
        let dry_k = dry.get::<kelvin>();
        Self {
            dry_k,
            factor: factor_of(dry_k, water.get::<ratio>(), boiling.get::<kelvin>()),
        }
    }

    /// The dry boiling point.
    pub fn dry(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<kelvin>(self.dry_k)
    }

    /// The water factor.
    pub fn factor(&self) -> Ratio {
        Ratio::new::<ratio>(self.factor)
    }

    /// The boiling point with this share of water.
    pub fn boiling(&self, water: Ratio) -> ThermodynamicTemperature {
        let x = molecules(water.get::<ratio>());
        let is_below = |t_k: f64| {
            let water_part = self.factor * x * saturation_mpa(t_k) / ATMOSPHERE_MPA;
            water_part + (1.0 - x) * fluid_part(t_k, self.dry_k) < 1.0
        };
        ThermodynamicTemperature::new::<kelvin>(highest_below(
            [WATER_BOILS_K, self.dry_k],
            is_below,
        ))
    }
}

/// The place between two ends up to which something holds, by halving.
fn highest_below([mut below, mut above]: [f64; 2], holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(below, above);
        if holds(middle) {
            below = middle;
        } else {
            above = middle;
        }
    }
    f64::midpoint(below, above)
}

/// The share of the molecules that are water.
fn molecules(water: f64) -> f64 {
    let of_water = water / WATER_G_MOL;
    of_water / (of_water + (1.0 - water) / FLUID_G_MOL)
}

/// The vapour pressure of dry fluid, as a share of the atmosphere's.
fn fluid_part(t_k: f64, dry_k: f64) -> f64 {
    (VAPORISATION * (1.0 - dry_k / t_k)).exp()
}

/// The water factor of the fluid that boils at `boiling_k` with `water` in it.
fn factor_of(dry_k: f64, water: f64, boiling_k: f64) -> f64 {
    let x = molecules(water);
    (1.0 - (1.0 - x) * fluid_part(boiling_k, dry_k))
        / (x * saturation_mpa(boiling_k) / ATMOSPHERE_MPA)
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::ratio::percent;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn degc(value: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(value)
    }

    fn share(value: f64) -> Ratio {
        Ratio::new::<percent>(value)
    }

    /// Closed form: without water the fluid boils at its dry point.
    #[test]
    fn dry_fluid_boils_at_its_dry_point() {
        for dry in [205.0, 230.0, 260.0, 350.0] {
            let curve = WaterCurve::new(degc(dry), Ratio::new::<ratio>(0.7));
            let found = curve.boiling(share(0.0)).get::<degree_celsius>();
            assert!((found - dry).abs() < 1e-9, "{dry}: {found}");
        }
    }

    /// Closed form: where the dry fluid has no vapour pressure to speak of and the factor is 1, the boiling point is
    /// that of water under `p0 / x`. At 7.3 bar water boils at 166.1 degC (steam tables, from memory).
    #[test]
    fn much_water_boils_like_water_under_pressure() {
        let curve = WaterCurve::new(degc(350.0), Ratio::new::<ratio>(1.0));
        // 1.013 bar / 7.3 bar of the molecules are water.
        let x = 0.101_325 / 0.73;
        let water = x * WATER_G_MOL / (x * WATER_G_MOL + (1.0 - x) * FLUID_G_MOL);
        let found = curve.boiling(Ratio::new::<ratio>(water));
        assert!(
            (found.get::<degree_celsius>() - 166.1).abs() < 1.0,
            "{found:?}"
        );
    }

    #[test]
    fn the_point_is_met() {
        let curve = WaterCurve::through(degc(230.0), share(3.7), degc(155.0));
        let found = curve.boiling(share(3.7)).get::<degree_celsius>();
        assert!((found - 155.0).abs() < 1e-6, "{found}");
    }
}
