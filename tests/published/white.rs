//! White, Viscous Fluid Flow, 3rd edition (2006): laminar flow in a round
//! pipe, `Q = pi D^4 dp / (128 mu L)` (from memory; the formula is in every
//! text of fluid mechanics).
//!
//! The values follow from the formula by hand; the general-purpose library
//! `fluids` 1.3.1 gives the same flow to all digits.

use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::pipe::{Pipe, mean_velocity, reynolds_number};
use uom::si::f64::{
    KinematicViscosity, Length, MassDensity, Pressure, Ratio, SurfaceTension, Velocity, VolumeRate,
};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::{meter, millimeter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::milliliter_per_second;

fn liquid(nu_mm2_s: f64) -> Liquid {
    Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
        KinematicViscosity::new::<square_millimeter_per_second>(nu_mm2_s),
        SurfaceTension::new::<millinewton_per_meter>(35.0),
    )
    .expect("the liquid is sound")
}

/// The flow under one bar, its mean velocity and its Reynolds number.
fn under_one_bar(bore_mm: f64, length_m: f64, nu_mm2_s: f64) -> (VolumeRate, Velocity, Ratio) {
    let (bore, liquid) = (Length::new::<millimeter>(bore_mm), liquid(nu_mm2_s));
    let pipe = Pipe::new(bore, Length::new::<meter>(length_m)).expect("the pipe is sound");
    let resistance = pipe.resistance(liquid.dynamic_viscosity());
    let flow = resistance.flow(Pressure::new::<bar>(1.0));
    let speed = mean_velocity(flow, bore);
    (
        flow,
        speed,
        reynolds_number(speed, bore, liquid.kinematic_viscosity()),
    )
}

#[test]
fn five_metres_under_one_bar() {
    let (flow, speed, reynolds) = under_one_bar(3.33, 5.0, 15.0);
    let flow_ml_s = flow.get::<milliliter_per_second>();
    assert!((flow_ml_s - 3.832_359_788).abs() <= 5e-10, "{flow_ml_s}");
    let speed = speed.get::<meter_per_second>();
    assert!((speed - 0.440_036).abs() <= 5e-7, "{speed}");
    let reynolds = reynolds.get::<ratio>();
    assert!((reynolds - 97.688).abs() <= 5e-4, "{reynolds}");
}

/// `L = dp D^3 / (64000 rho nu^2)` is where a pipe of 3.3 mm reaches a Reynolds
/// number of 2000 at 1 bar: printed to two digits for each viscosity.
#[test]
fn warm_thin_fluid_in_short_pipe_is_not_laminar() {
    for (nu_mm2_s, length_m, half_digit) in [
        (15.0, 0.24, 0.005),
        (10.0, 0.53, 0.005),
        (5.0, 2.1, 0.05),
        (3.0, 5.9, 0.05),
    ] {
        let is_laminar =
            |length_m| under_one_bar(3.3, length_m, nu_mm2_s).2.get::<ratio>() < 2000.0;
        assert!(!is_laminar(length_m - half_digit), "{nu_mm2_s}");
        assert!(is_laminar(length_m + half_digit), "{nu_mm2_s}");
    }
}
