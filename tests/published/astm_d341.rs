//! ASTM D341, viscosity-temperature equations (read second-hand):
//! `log10 log10 (nu + 0.7) = A - B log10 T`, with one more term in `nu` below
//! 2 mm2/s.

use bleedwright_hydraulics::fluid::Walther;
use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

fn viscosity(value: f64) -> KinematicViscosity {
    KinematicViscosity::new::<square_millimeter_per_second>(value)
}

/// The standard gives `Z` as a function of the viscosity and, apart from it, a
/// polynomial for the way back (read in public code):
/// `nu = x - exp(-0.7487 - 3.295 x + 0.6119 x^2 - 0.3193 x^3)` with
/// `x = Z - 0.7`. The program solves the first; the second must agree to what
/// the polynomial itself is off: at most 1.2184e-4 from 0.4 to 5 mm2/s, at 0.549,
/// found by putting `Z` into it every 1e-4 mm2/s.
#[test]
fn low_viscosities_follow_the_standards_own_way_back() {
    let (cold, hot) = ((0.0, 12.0_f64), (150.0, 0.4_f64));
    let z = |nu: f64| nu + 0.7 + (-1.47 - 1.84 * nu - 0.51 * nu * nu).exp();
    let curve = Walther::through(
        (celsius(cold.0), viscosity(cold.1)),
        (celsius(hot.0), viscosity(hot.1)),
    )
    .expect("the points are sound");
    let log_t = |at: f64| celsius(at).get::<kelvin>().log10();
    let b = (z(cold.1).log10().log10() - z(hot.1).log10().log10()) / (log_t(hot.0) - log_t(cold.0));
    for at in [20.0, 50.0, 80.0, 100.0, 120.0, 140.0] {
        let double_log = z(cold.1).log10().log10() - b * (log_t(at) - log_t(cold.0));
        let x = 10_f64.powf(10_f64.powf(double_log)) - 0.7;
        let back = x - (-0.7487 - 3.295 * x + 0.6119 * x * x - 0.3193 * x * x * x).exp();
        let found = curve
            .viscosity_at(celsius(at))
            .expect("between the points")
            .get::<square_millimeter_per_second>();
        assert!(
            (found / back - 1.0).abs() <= 1.2185e-4,
            "{at} degC: {found} {back}"
        );
    }
}
