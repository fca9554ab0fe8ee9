//! Viscosity over temperature by ASTM D341, `log10 log10 (nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2)) = A - B log10 T`,
//! through points at -40 and 100 degC; by hand, with halving for the way back.

use bleedwright_hydraulics::fluid::Walther;
use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::thermodynamic_temperature::degree_celsius;

fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

fn viscosity(value: f64) -> KinematicViscosity {
    KinematicViscosity::new::<square_millimeter_per_second>(value)
}

struct Row {
    cold_mm2_s: f64,
    hot_mm2_s: f64,
    /// At -20, 0, 20 and 40 degC, each with half of its last digit.
    between: [(f64, f64); 4],
}

#[test]
fn viscosities_between_two_points() {
    let (two, three) = (5e-3, 5e-4);
    for row in [
        Row {
            cold_mm2_s: 1500.0,
            hot_mm2_s: 1.5,
            between: [(141.20, two), (31.06, two), (11.188, three), (5.421, three)],
        },
        Row {
            cold_mm2_s: 1800.0,
            hot_mm2_s: 1.5,
            between: [(156.38, two), (32.92, two), (11.568, three), (5.524, three)],
        },
        Row {
            cold_mm2_s: 1200.0,
            hot_mm2_s: 2.5,
            between: [(174.83, two), (46.68, two), (18.226, three), (9.093, three)],
        },
        Row {
            cold_mm2_s: 700.0,
            hot_mm2_s: 2.0,
            between: [(110.35, two), (31.50, two), (12.968, three), (6.740, three)],
        },
        Row {
            cold_mm2_s: 900.0,
            hot_mm2_s: 1.5,
            between: [(105.78, two), (26.31, two), (10.162, three), (5.132, three)],
        },
        Row {
            cold_mm2_s: 600.0,
            hot_mm2_s: 15.0,
            between: [(249.06, two), (122.90, two), (68.98, two), (42.70, two)],
        },
    ] {
        let curve = Walther::through(
            (celsius(-40.0), viscosity(row.cold_mm2_s)),
            (celsius(100.0), viscosity(row.hot_mm2_s)),
        )
        .expect("the points are sound");
        for (at, (value, half_digit)) in [-20.0, 0.0, 20.0, 40.0].into_iter().zip(row.between) {
            let found = curve
                .viscosity_at(celsius(at))
                .expect("between the points")
                .get::<square_millimeter_per_second>();
            assert!((found - value).abs() <= half_digit, "{at} degC: {found}");
        }
    }
}
