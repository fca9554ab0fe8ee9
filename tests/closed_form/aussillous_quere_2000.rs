//! Aussillous and Quere, "Quick deposition of a fluid on the wall of a tube",
//! Physics of Fluids 12 (2000), from memory:
//! `h / R = 1.34 Ca^(2/3) / (1 + 3.35 Ca^(2/3))`, with the bubble's velocity.
//!
//! The ratios of the bubble's velocity to the mean follow from the formula,
//! solved by a general-purpose root finder: density 1050 kg/m3, 15 mm2/s,
//! 35 mN/m.

use bleedwright_hydraulics::bubble::film::{film_share, pushed_speed};
use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, MassDensity, Ratio, SurfaceTension, Velocity};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::meter_per_second;

fn liquid() -> Liquid {
    Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
        KinematicViscosity::new::<square_millimeter_per_second>(15.0),
        SurfaceTension::new::<millinewton_per_meter>(35.0),
    )
    .expect("the liquid is sound")
}

#[test]
fn a_pushed_bubble_is_faster_than_the_mean_flow() {
    for (mean_m_s, quotient) in [
        (0.001, 1.0158),
        (0.01, 1.0737),
        (0.05, 1.2164),
        (0.1, 1.3395),
        (0.2, 1.5173),
        (0.44, 1.7789),
    ] {
        let mean = Velocity::new::<meter_per_second>(mean_m_s);
        let found = pushed_speed(mean, &liquid()).expect("inside the range");
        let found = (found / mean).get::<ratio>();
        assert!((found - quotient).abs() <= 5e-5, "{mean_m_s}: {found}");
    }
}

/// Without velocity there is no film, and for very thin ones the law becomes
/// that of Bretherton: 1.34 against 0.643 x 3^(2/3) = 1.3375.
#[test]
fn thin_films_follow_the_older_law() {
    let nothing = film_share(Ratio::new::<ratio>(0.0)).expect("nothing is a share");
    assert_eq!(nothing, Ratio::new::<ratio>(0.0));
    let capillary = 1e-9_f64;
    let found = film_share(Ratio::new::<ratio>(capillary)).expect("inside the range");
    let older = 0.643 * (3.0 * capillary).powf(2.0 / 3.0);
    // The two are printed with three digits each.
    assert!((found.get::<ratio>() / older - 1.34 / 1.3375).abs() < 1e-4);
}

#[test]
fn beyond_the_measurements_nothing_is_said() {
    assert!(film_share(Ratio::new::<ratio>(1.41)).is_err());
    let fast = Velocity::new::<meter_per_second>(3.0);
    assert!(pushed_speed(fast, &liquid()).is_err());
}
