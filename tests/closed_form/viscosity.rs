//! Viscosity over temperature by the form of ASTM D341 without its term for low viscosities,
//! `log10 log10 (nu + 0.7) = A - B log10 T`, through points at -40 and 100 degC; by hand.

use bleedwright_hydraulics::fluid::{Form, Walther};
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
    a: f64,
    b: f64,
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
            a: 11.715_500,
            b: 4.736_193,
            between: [(140.87, two), (30.96, two), (11.150, three), (5.402, three)],
        },
        Row {
            cold_mm2_s: 1800.0,
            hot_mm2_s: 1.5,
            a: 11.850_098,
            b: 4.788_528,
            between: [(156.01, two), (32.81, two), (11.528, three), (5.505, three)],
        },
        Row {
            cold_mm2_s: 1200.0,
            hot_mm2_s: 2.5,
            a: 9.588_748,
            b: 3.843_614,
            between: [(174.83, two), (46.68, two), (18.225, three), (9.093, three)],
        },
        Row {
            cold_mm2_s: 700.0,
            hot_mm2_s: 2.0,
            a: 9.951_688,
            b: 4.011_397,
            between: [(110.33, two), (31.49, two), (12.964, three), (6.738, three)],
        },
        Row {
            cold_mm2_s: 900.0,
            hot_mm2_s: 1.5,
            a: 11.319_799,
            b: 4.582_337,
            between: [(105.55, two), (26.23, two), (10.129, three), (5.115, three)],
        },
        Row {
            cold_mm2_s: 600.0,
            hot_mm2_s: 15.0,
            a: 4.688_120,
            b: 1.792_626,
            between: [(249.06, two), (122.90, two), (68.98, two), (42.70, two)],
        },
    ] {
        let curve = Walther::through(
            Form::WithoutLowTerm,
            (celsius(-40.0), viscosity(row.cold_mm2_s)),
            (celsius(100.0), viscosity(row.hot_mm2_s)),
        )
        .expect("the points are sound");
        assert!((curve.a() - row.a).abs() <= 5e-7, "{}", curve.a());
        assert!((curve.b() - row.b).abs() <= 5e-7, "{}", curve.b());
        for (at, (value, half_digit)) in [-20.0, 0.0, 20.0, 40.0].into_iter().zip(row.between) {
            let found = curve
                .viscosity_at(celsius(at))
                .expect("between the points")
                .get::<square_millimeter_per_second>();
            assert!((found - value).abs() <= half_digit, "{at} degC: {found}");
        }
    }
}
