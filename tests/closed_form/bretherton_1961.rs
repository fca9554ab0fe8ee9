//! Bretherton, "The motion of long bubbles in tubes", Journal of Fluid
//! Mechanics 10 (1961), abstract read: a bubble rises only if
//! `rho g R^2 / sigma` exceeds 0.842; just above it the speed follows
//! `rho g R^2 / sigma - 0.842 = 1.25 Ca^(2/9) + 2.24 Ca^(1/3)`; a pushed bubble
//! leads by `1.29 (3 Ca)^(2/3)` and costs `3.58 (3 Ca)^(2/3) sigma / R`.
//!
//! The paper prints the formulas; bores and speeds follow by hand with
//! g = 9.80665 m/s2. The surface tensions are those of the program's table and
//! of water at 20 degC (72.8 mN/m, from memory).

use bleedwright_hydraulics::bubble::creep::creep_speed;
use bleedwright_hydraulics::bubble::eotvos::{critical_bore, eotvos_number};
use bleedwright_hydraulics::bubble::film::slow_bubble;
use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension, Velocity};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::{meter_per_second, millimeter_per_second};

fn density(kg_m3: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(kg_m3)
}

fn tension(mn_m: f64) -> SurfaceTension {
    SurfaceTension::new::<millinewton_per_meter>(mn_m)
}

fn liquid(tension_mn_m: f64) -> Liquid {
    let viscosity = KinematicViscosity::new::<square_millimeter_per_second>(15.0);
    Liquid::new(density(1050.0), viscosity, tension(tension_mn_m)).expect("the liquid is sound")
}

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
        let found = critical_bore(density(density_kg_m3), tension(tension_mn_m))
            .expect("both are above zero");
        let found_mm = found.get::<millimeter>();
        assert!(
            (found_mm - bore_mm).abs() <= 5e-4,
            "{tension_mn_m}: {found_mm}"
        );
        let number = eotvos_number(found, density(density_kg_m3), tension(tension_mn_m));
        assert!((number.get::<ratio>() - 4.0 * 0.842).abs() < 1e-12);
    }
}

/// At 0.95 a bubble creeps 0.007 mm/s, at 1.04 0.07 mm/s.
#[test]
fn just_above_the_threshold_it_creeps() {
    let liquid = liquid(33.0);
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

/// The lead is the film: what the bubble leaves on the wall it must make good.
/// To first order `U_b / U = 1 + 2 h / R`, and 2 x 0.643 is 1.29.
#[test]
fn a_slow_bubble_leads_by_twice_its_film() {
    let bore = Length::new::<millimeter>(3.3);
    let speed = Velocity::new::<meter_per_second>(0.001);
    let found = slow_bubble(speed, bore, &liquid(35.0)).expect("slow enough");
    let lead = found.velocity.get::<meter_per_second>() / 0.001 - 1.0;
    let film = found.film_share.get::<ratio>();
    assert!(
        (lead / (2.0 * film) - 1.29 / 1.286).abs() < 1e-9,
        "{lead} {film}"
    );
    // By hand: Ca = 0.00045, (3 Ca)^(2/3) = 0.012215, 3.58 x 0.012215 x 0.035 / 0.00165.
    let pressure_pa = found.pressure.get::<pascal>();
    assert!((pressure_pa - 0.9276).abs() <= 5e-4, "{pressure_pa}");
    // At the speed of bleeding the law does not hold, and the program says so.
    let fast = Velocity::new::<meter_per_second>(0.44);
    assert!(slow_bubble(fast, bore, &liquid(35.0)).is_err());
}
