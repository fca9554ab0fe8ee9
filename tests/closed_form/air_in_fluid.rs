//! The bulk modulus of fluid with free air, in the form that Gholizadeh, Burton
//! and Schoenau quote, International Journal of Fluid Power 12 (2011).
//!
//! One per cent of air at 101325 Pa, 1.8e9 Pa, n = 1.4; the values follow from
//! the formula by hand.

use bleedwright_hydraulics::elastic::modulus::Mixture;
use bleedwright_hydraulics::gas::standard_atmosphere;
use uom::si::f64::{Pressure, Ratio};
use uom::si::pressure::{bar, gigapascal, pascal};
use uom::si::ratio::{percent, ratio};

#[test]
fn one_per_cent_of_air() {
    let mixture = Mixture {
        liquid_modulus: Pressure::new::<gigapascal>(1.8),
        air_share: Ratio::new::<percent>(1.0),
        polytropic_index: Ratio::new::<ratio>(1.4),
    };
    for (pressure_bar, modulus_gpa) in [
        (1.013_25, 0.014_076),
        (6.0, 0.255_041),
        (21.0, 1.053_697),
        (101.0, 1.717_703),
    ] {
        let found = mixture
            .modulus(standard_atmosphere(), Pressure::new::<bar>(pressure_bar))
            .expect("at or above the atmosphere")
            .get::<gigapascal>();
        assert!(
            (found - modulus_gpa).abs() <= 5e-7,
            "{pressure_bar}: {found}"
        );
    }
}

/// The modulus is the slope of the volume, by a difference of the two volumes.
#[test]
fn the_modulus_is_the_slope_of_the_volume() {
    let (share, index, fluid_pa, start_pa) = (0.03_f64, 1.2_f64, 1.5e9_f64, 101_325.0_f64);
    let volume = |pressure_pa: f64| {
        (1.0 - share) * (-(pressure_pa - start_pa) / fluid_pa).exp()
            + share * (start_pa / pressure_pa).powf(1.0 / index)
    };
    let mixture = Mixture {
        liquid_modulus: Pressure::new::<pascal>(fluid_pa),
        air_share: Ratio::new::<ratio>(share),
        polytropic_index: Ratio::new::<ratio>(index),
    };
    for pressure_pa in [2e5, 1e6, 1e7] {
        let step = 1e-4 * pressure_pa;
        let slope = (volume(pressure_pa + step) - volume(pressure_pa - step)) / (2.0 * step);
        let found = mixture
            .modulus(standard_atmosphere(), Pressure::new::<pascal>(pressure_pa))
            .expect("above the atmosphere");
        let modulus = -volume(pressure_pa) / slope;
        // The error of the central difference is of the order of its step squared.
        assert!((found.value / modulus - 1.0).abs() < 1e-6, "{pressure_pa}");
    }
}
