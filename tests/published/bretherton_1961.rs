//! Bretherton, "The motion of long bubbles in tubes", Journal of Fluid
//! Mechanics 10 (1961), abstract read: a bubble rises only if
//! `rho g R^2 / sigma` exceeds 0.842; just above it the speed follows
//! `rho g R^2 / sigma - 0.842 = 1.25 Ca^(2/9) + 2.24 Ca^(1/3)`.
//!
//! The paper prints the formulas; bores and speeds follow by hand with
//! g = 9.80665 m/s2. The surface tensions are those of the program's table and
//! of water at 20 degC (72.8 mN/m, from memory).

use bleedwright_hydraulics::bubble::creep::creep_speed;
use bleedwright_hydraulics::bubble::drift::{Rise, rise};
use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::millimeter_per_second;

fn liquid(density_kg_m3: f64, tension_mn_m: f64) -> Liquid {
    Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(density_kg_m3),
        KinematicViscosity::new::<square_millimeter_per_second>(15.0),
        SurfaceTension::new::<millinewton_per_meter>(tension_mn_m),
    )
    .expect("the liquid is sound")
}

/// The bores are printed to a thousandth of a millimetre.
#[test]
fn critical_bores() {
    for (density_kg_m3, tension_mn_m, bore_mm) in [
        (1050.0, 30.0, 3.133),
        (1050.0, 32.7, 3.270),
        (1050.0, 35.0, 3.383),
        (1050.0, 40.0, 3.617),
        (960.0, 20.5, 2.708),
        (870.0, 30.0, 3.441),
        (998.2, 72.8, 5.005),
    ] {
        let liquid = liquid(density_kg_m3, tension_mn_m);
        let rise = |bore_mm| rise(Length::new::<millimeter>(bore_mm), &liquid);
        assert_eq!(rise(bore_mm - 5e-4), Ok(Rise::Stuck), "{tension_mn_m}");
        let wider = rise(bore_mm + 5e-4);
        assert!(matches!(wider, Ok(Rise::Creeps(_))), "{tension_mn_m}");
    }
}

/// At 0.95 a bubble creeps 0.007 mm/s, at 1.04 0.07 mm/s.
#[test]
fn just_above_the_threshold_it_creeps() {
    let liquid = liquid(1050.0, 33.0);
    let weight = 1050.0 * 9.806_65;
    let bore = |bond: f64| Length::new::<millimeter>(2e3 * (bond * 0.033 / weight).sqrt());
    for (bond, speed_mm_s, half_digit) in [(0.95, 0.007, 0.0005), (1.039_999, 0.07, 0.005)] {
        let found = creep_speed(bore(bond), &liquid)
            .expect("inside the range")
            .get::<millimeter_per_second>();
        assert!((found - speed_mm_s).abs() <= half_digit, "{bond}: {found}");
        let capillary = found * 1e-3 * liquid.dynamic_viscosity().value / 0.033;
        let law = 1.25 * capillary.powf(2.0 / 9.0) + 2.24 * capillary.powf(1.0 / 3.0);
        assert!((law - (bond - 0.842)).abs() < 1e-9, "{law}");
    }
    for bond in [0.84, 1.05] {
        assert!(creep_speed(bore(bond), &liquid).is_err());
    }
}
