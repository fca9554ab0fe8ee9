//! Viana, Pardo, Yanez, Trallero and Joseph, "Universal correlation for the
//! rise velocity of long gas bubbles in round pipes", Journal of Fluid
//! Mechanics 494 (2003). The two limiting forms were read in the abstract; the
//! constants of the universal form are from memory. Its first set equals the
//! limit for thin liquids exactly, the others meet that for thick liquids to
//! 4 %; both are tested beside the code.
//!
//! The speeds follow from the formula by hand: 1050 kg/m3, 15 mm2/s, 35 mN/m,
//! g = 9.80665 m/s2.

use bleedwright_hydraulics::bubble::drift::{Rise, rise};
use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::millimeter_per_second;

fn rise_in(bore_mm: f64) -> Rise {
    let liquid = Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
        KinematicViscosity::new::<square_millimeter_per_second>(15.0),
        SurfaceTension::new::<millinewton_per_meter>(35.0),
    )
    .expect("the liquid is sound");
    rise(Length::new::<millimeter>(bore_mm), &liquid).expect("a bore above zero")
}

fn drift_mm_s(bore_mm: f64) -> Option<f64> {
    match rise_in(bore_mm) {
        Rise::Drifts(speed) => Some(speed.get::<millimeter_per_second>()),
        Rise::Stuck | Rise::Creeps(_) => None,
    }
}

#[test]
fn speeds_in_wide_bores() {
    for (bore_mm, speed_mm_s, half_digit) in [
        (4.8, 8.9, 0.05),
        (6.0, 31.8, 0.05),
        (8.0, 69.9, 0.05),
        (10.0, 93.1, 0.05),
        (15.0, 127.0, 0.5),
        (20.6, 151.0, 0.5),
        (25.4, 169.0, 0.5),
        (38.0, 207.0, 0.5),
        (54.0, 247.0, 0.5),
    ] {
        let found = drift_mm_s(bore_mm).expect("wide enough to drift");
        assert!(
            (found - speed_mm_s).abs() <= half_digit,
            "{bore_mm}: {found}"
        );
    }
}

/// The fit alone gives 0.56 mm/s in 3.3 mm pipe, where nothing moves.
#[test]
fn in_thin_pipe_the_threshold_comes_first() {
    assert_eq!(rise_in(3.3), Rise::Stuck);
    assert!(matches!(rise_in(3.5), Rise::Creeps(_)));
    assert!(drift_mm_s(3.8).is_some());
}
