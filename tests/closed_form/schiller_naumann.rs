//! Schiller and Naumann's drag, in Clift, Grace and Weber, Bubbles, Drops and
//! Particles (1978), from memory: `1 + 0.15 Re^0.687` times Stokes' drag.
//!
//! Speeds of bubbles in 15 mm2/s from the formula, solved by a general-purpose
//! root finder.

use bleedwright_hydraulics::bubble::free::{free_speed, stokes_speed};
use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::millimeter_per_second;

fn liquid(nu_mm2_s: f64) -> Liquid {
    Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
        KinematicViscosity::new::<square_millimeter_per_second>(nu_mm2_s),
        SurfaceTension::new::<millinewton_per_meter>(33.0),
    )
    .expect("the liquid is sound")
}

#[test]
fn four_small_bubbles() {
    for (diameter_mm, speed_mm_s, half_digit) in [
        (0.2, 1.44, 0.005),
        (0.5, 8.54, 0.005),
        (1.0, 29.3, 0.05),
        (2.0, 81.9, 0.05),
    ] {
        let found = free_speed(Length::new::<millimeter>(diameter_mm), &liquid(15.0))
            .expect("inside the range")
            .get::<millimeter_per_second>();
        assert!(
            (found - speed_mm_s).abs() <= half_digit,
            "{diameter_mm}: {found}"
        );
    }
}

/// Without inertia it is Stokes' speed; with too much of it nothing is said.
#[test]
fn the_ends_of_the_law() {
    let tiny = Length::new::<millimeter>(0.001);
    let creeping = stokes_speed(tiny, liquid(15.0).kinematic_viscosity());
    let found = free_speed(tiny, &liquid(15.0)).expect("inside the range");
    // The bubble's Reynolds number is 2.4e-9, and 0.15 Re^0.687 is 1.8e-7.
    assert!((found / creeping).value > 1.0 - 2e-7);
    assert!((found / creeping).value <= 1.0);
    assert!(free_speed(Length::new::<millimeter>(20.0), &liquid(1.0)).is_err());
}
