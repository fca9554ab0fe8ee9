//! Viscosity over temperature through two points.

use crate::range::{OutOfRange, between, positive};
use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::thermodynamic_temperature::kelvin;

/// The range of viscosities.
const RANGE_MM2_S: (f64, f64) = (0.21, 2e7);

fn z(nu_mm2_s: f64) -> f64 {
    nu_mm2_s + 0.7 + low_term(nu_mm2_s)
}

fn viscosity_mm2_s(z: f64) -> f64 {
    let mut nu = z - 0.7;
    // The function is convex and rises, so Newton's steps come down to the root from above without passing it.
    for _ in 0..50 {
        let slope = 1.0 - (1.84 + 1.02 * nu) * low_term(nu);
        nu -= (nu + 0.7 + low_term(nu) - z) / slope;
    }
    nu
}

fn low_term(nu_mm2_s: f64) -> f64 {
    (-1.47 - 1.84 * nu_mm2_s - 0.51 * nu_mm2_s * nu_mm2_s).exp()
}

/// The viscosity of a liquid over temperature, from two points.
///
/// Formula: `log10 log10 Z = A - B log10 T`, `Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2)`.
///
/// Symbols: `Z` the shifted viscosity, a function of `nu` alone; `nu` kinematic viscosity (mm2/s); `T` absolute
/// temperature (K); `A`, `B` from the two points (dimensionless).
///
/// Range: between the two points, viscosities from 0.21 mm2/s up. The equation was made for hydrocarbons and is used for other brake fluids without
/// proof; outside the points it is an extrapolation, which [`Walther::covers`] tells. The viscosity must fall from the
/// colder to the warmer point.
///
/// Source: [ASTMD341](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::fluid::Walther;
/// use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let celsius = ThermodynamicTemperature::new::<degree_celsius>;
/// let viscosity = KinematicViscosity::new::<square_millimeter_per_second>;
/// let curve = Walther::through(
///     (celsius(-40.0), viscosity(1200.0)),
///     (celsius(100.0), viscosity(2.5)),
/// )?;
/// let found = curve.viscosity_at(celsius(20.0))?.get::<square_millimeter_per_second>();
/// assert!((found - 18.226).abs() < 5e-4);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walther {
    a: f64,
    b: f64,
    coldest_k: f64,
    warmest_k: f64,
}

impl Walther {
    /// The curve through two points, given in either order.
    pub fn through(
        first: (ThermodynamicTemperature, KinematicViscosity),
        second: (ThermodynamicTemperature, KinematicViscosity),
    ) -> Result<Self, OutOfRange> {
        let plain = |(temperature, viscosity): (ThermodynamicTemperature, KinematicViscosity)| {
            let temperature_k = positive("temperature", temperature.get::<kelvin>(), "K")?;
            let nu = viscosity.get::<square_millimeter_per_second>();
            positive("kinematic viscosity", nu, "mm2/s")?;
            between("kinematic viscosity", nu, RANGE_MM2_S, "mm2/s")?;
            Ok((temperature_k, nu))
        };
        let (mut cold, mut warm) = (plain(first)?, plain(second)?);
        if cold.0 > warm.0 {
            (cold, warm) = (warm, cold);
        }
        if cold.0 >= warm.0 {
            return Err(OutOfRange::NotOrdered {
                smaller: "temperature of the colder point",
                larger: "temperature of the warmer point",
                smaller_value: cold.0,
                larger_value: warm.0,
                unit: "K",
            });
        }
        if warm.1 >= cold.1 {
            return Err(OutOfRange::NotOrdered {
                smaller: "viscosity of the warmer point",
                larger: "viscosity of the colder point",
                smaller_value: warm.1,
                larger_value: cold.1,
                unit: "mm2/s",
            });
        }
        let double_log = |nu: f64| z(nu).log10().log10();
        let (w_cold, w_warm) = (double_log(cold.1), double_log(warm.1));
        let (t_cold, t_warm) = (cold.0.log10(), warm.0.log10());
        let b = (w_cold - w_warm) / (t_warm - t_cold);
        Ok(Self {
            a: w_cold + b * t_cold,
            b,
            coldest_k: cold.0,
            warmest_k: warm.0,
        })
    }

    /// Whether a temperature lies between the two points, so that nothing is extrapolated.
    pub fn covers(&self, temperature: ThermodynamicTemperature) -> bool {
        // A point's own temperature must count as covered whatever the conversion of its unit rounded.
        let slack_k = 1e-9;
        (self.coldest_k - slack_k..=self.warmest_k + slack_k).contains(&temperature.get::<kelvin>())
    }

    /// The viscosity at a temperature; an error where it leaves the range.
    pub fn viscosity_at(
        &self,
        temperature: ThermodynamicTemperature,
    ) -> Result<KinematicViscosity, OutOfRange> {
        let temperature_k = positive("temperature", temperature.get::<kelvin>(), "K")?;
        let exponent = 10_f64.powf(self.a - self.b * temperature_k.log10());
        let nu = viscosity_mm2_s(10_f64.powf(exponent));
        // The ends of the range themselves come back with a rounding error.
        let (low, high) = RANGE_MM2_S;
        let range = (low * (1.0 - 1e-9), high * (1.0 + 1e-6));
        between("kinematic viscosity", nu, range, "mm2/s")?;
        Ok(KinematicViscosity::new::<square_millimeter_per_second>(nu))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn point(celsius: f64, nu_mm2_s: f64) -> (ThermodynamicTemperature, KinematicViscosity) {
        (
            ThermodynamicTemperature::new::<degree_celsius>(celsius),
            KinematicViscosity::new::<square_millimeter_per_second>(nu_mm2_s),
        )
    }

    #[test]
    fn both_points_come_back() {
        let (cold, warm) = (point(-40.0, 900.0), point(100.0, 0.8));
        let curve = Walther::through(warm, cold).expect("the points are good");
        for (temperature, viscosity) in [cold, warm] {
            let found = curve.viscosity_at(temperature).expect("inside");
            assert!(((found / viscosity).value - 1.0).abs() < 1e-10);
            assert!(curve.covers(temperature));
        }
        assert!(!curve.covers(point(100.1, 1.0).0));
    }

    #[test]
    fn bad_points_are_refused() {
        let good = point(0.0, 30.0);
        for bad in [
            point(0.0, 20.0),
            point(50.0, 30.0),
            point(50.0, 40.0),
            point(50.0, 0.0),
            point(50.0, -1.0),
            point(50.0, 0.2),
            point(50.0, f64::NAN),
            point(-300.0, 40.0),
            point(f64::INFINITY, 1.0),
        ] {
            assert!(Walther::through(good, bad).is_err());
        }
    }

    #[test]
    fn far_outside_there_is_an_error_and_no_number() {
        let curve =
            Walther::through(point(0.0, 30.0), point(100.0, 2.0)).expect("the points are good");
        for celsius in [-272.0, -300.0, 1e12, f64::NAN] {
            assert!(curve.viscosity_at(point(celsius, 1.0).0).is_err());
        }
    }
}
