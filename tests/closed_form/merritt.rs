//! Merritt, Hydraulic Control Systems (1967), chapter 2: `p V^n` is constant,
//! and softnesses add (from memory).
//!
//! The figures follow from the gas law by hand with an atmosphere of
//! 101325 Pa. The times of a pocket that is pressed together are the integral
//! of the gas law with laminar flow; a general-purpose integrator of ordinary
//! differential equations gives the same course.

use bleedwright_hydraulics::HydraulicResistance;
use bleedwright_hydraulics::elastic::modulus::effective_modulus;
use bleedwright_hydraulics::gas::{Pocket, absorbed_share, polytropic_volume, standard_atmosphere};
use uom::si::f64::{Pressure, Ratio, Volume};
use uom::si::pressure::{bar, gigapascal, pascal};
use uom::si::ratio::ratio;
use uom::si::time::millisecond;
use uom::si::volume::milliliter;

fn ml(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

#[test]
fn what_braking_pressures_absorb() {
    for (gauge_bar, slow, fast) in [
        (5.0, 0.831_497, 0.719_730),
        (20.0, 0.951_780, 0.885_331),
        (100.0, 0.989_969, 0.962_642),
    ] {
        let gauge = Pressure::new::<bar>(gauge_bar);
        for (index, share) in [(1.0, slow), (1.4, fast)] {
            let index = Ratio::new::<ratio>(index);
            let found = absorbed_share(standard_atmosphere(), gauge, index).get::<ratio>();
            assert!((found - share).abs() <= 5e-7, "{gauge_bar}: {found}");
            let end = standard_atmosphere() + gauge;
            let left = polytropic_volume(ml(1.0), standard_atmosphere(), end, index)
                .expect("the pressures are above zero")
                .get::<milliliter>();
            assert!((left - (1.0 - share)).abs() <= 5e-7, "{gauge_bar}: {left}");
        }
    }
}

/// Half a millilitre behind 0.4 m of 3.3 mm pipe, 15.75 mPa s, one bar.
#[test]
fn how_long_a_pocket_takes_to_shrink() {
    let pocket = Pocket {
        volume: ml(0.5),
        pressure: standard_atmosphere(),
    };
    let source = standard_atmosphere() + Pressure::new::<pascal>(1e5);
    // 128 mu L / (pi D^4) with the figures above, which is 2.164436689e9.
    let resistance = 128.0 * 15.75e-3 * 0.4 / (std::f64::consts::PI * 3.3e-3_f64.powi(4));
    assert!((resistance - 2.164_436_689e9).abs() <= 0.5);
    for (volume_ml, time_ms) in [
        (0.45, 1.145_731_460),
        (0.375, 3.237_113_148),
        (0.30, 6.577_072_067),
        (0.275, 8.814_765_768),
        (0.255, 14.279_530_081),
    ] {
        let found = pocket
            .time_to_shrink(ml(volume_ml), source, HydraulicResistance::new(resistance))
            .expect("between start and rest")
            .get::<millisecond>();
        assert!((found - time_ms).abs() <= 5e-10, "{volume_ml}: {found}");
    }
    let rest = pocket.volume_at_rest(source).expect("above zero");
    assert!((rest.get::<milliliter>() - 0.251_645_350).abs() <= 5e-10);
    for volume_ml in [0.251_645_34, 0.2, 0.51, 0.0] {
        let resistance = HydraulicResistance::new(resistance);
        assert!(
            pocket
                .time_to_shrink(ml(volume_ml), source, resistance)
                .is_err()
        );
    }
}

/// Nothing in it and a vessel as soft as the fluid: half of the modulus.
#[test]
fn softnesses_add() {
    let fluid = Pressure::new::<gigapascal>(1.8);
    let nothing = Ratio::new::<ratio>(0.0);
    let one = Ratio::new::<ratio>(1.0);
    let whole = effective_modulus(fluid, Some(fluid), nothing, one, standard_atmosphere())
        .expect("all are above zero");
    assert!((whole.get::<gigapascal>() - 0.9).abs() < 1e-12);
}
