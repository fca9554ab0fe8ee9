//! Levers and pistons, worked by hand: force over area is the same in both cylinders, and work is kept.

use crate::pedal::Stint;
use bleedwright_hydraulics::press::{Press, force_from_pressure, lever_force, pressure_from_force};
use std::f64::consts::FRAC_PI_4;
use uom::si::f64::{Force, Length, Ratio};
use uom::si::force::{newton, pound_force};
use uom::si::length::{centimeter, inch, meter, millimeter};
use uom::si::pressure::{bar, psi};
use uom::si::ratio::ratio;

fn pounds(value: f64) -> Force {
    Force::new::<pound_force>(value)
}

/// The diameter of a piston of this area.
fn diameter_of(area_square_inch: f64) -> Length {
    Length::new::<inch>((area_square_inch / FRAC_PI_4).sqrt())
}

/// 500 N over pi / 4 x 5^2 = 19.635 mm2 are 25465 kPa.
#[test]
fn a_small_master_cylinder() {
    let push = Force::new::<newton>(500.0);
    let pressure = pressure_from_force(push, Length::new::<centimeter>(0.5)).expect("above zero");
    assert!((pressure.value - 2.546_5e7).abs() <= 0.5e3, "{pressure:?}");
}

/// 360 N at the pedal, 8 : 1, a master cylinder of 3 cm and caliper pistons of 3.2 cm: 2880 N over 7.0686 cm2 is 407.437 N
/// for each square centimetre, and 2880 x (3.2 / 3)^2 is 3276.8 N.
#[test]
fn pedal_master_cylinder_and_caliper() {
    let rod = lever_force(Force::new::<newton>(360.0), Ratio::new::<ratio>(8.0));
    assert!((rod.get::<newton>() - 2880.0).abs() < 1e-9);
    let pressure = pressure_from_force(rod, Length::new::<centimeter>(3.0)).expect("above zero");
    let per_square_centimetre = pressure.value * 1e-4;
    assert!(
        (per_square_centimetre - 407.437).abs() <= 5e-4,
        "{per_square_centimetre}"
    );
    let force = force_from_pressure(pressure, Length::new::<centimeter>(3.2)).get::<newton>();
    assert!((force - 3276.8).abs() <= 1e-9, "{force}");
}

/// The same through a whole pedal: 360 N x 8 over pi / 4 x 30^2 = 706.858 mm2 is 4.07437 N/mm2, 40.7437 bar. Springs and seals
/// are taken away.
#[test]
fn pedal_and_master_cylinder_of_a_vehicle() {
    let mechanism = Stint {
        master_mm: 30.0,
        lever: 8.0,
        ..Stint::default()
    }
    .without_drag();
    let feel = mechanism.feel(&bleedwright_pedal::Press {
        force_n: 360.0,
        ..bleedwright_pedal::Press::default()
    });
    let circuit = &feel.circuits[0];
    for pressure in [&circuit.pressure, &circuit.brakes[0].pressure] {
        for corner in [pressure.low, pressure.nominal, pressure.high] {
            let found = corner.get::<bar>();
            assert!((found - 40.743_7).abs() <= 5e-5, "{found}");
        }
    }
}

/// 75 lb on 1 in2 gives 37.5 lb on 0.5 in2; 125 lb on 1 in2 gives
/// 875 lb on 7 in2 and 93.75 lb on 0.75 in2.
#[test]
fn areas() {
    for (push_lb, pressure_psi, area_square_inch, force_lb) in [
        (75.0, 75.0, 0.5, 37.5),
        (125.0, 125.0, 7.0, 875.0),
        (125.0, 125.0, 0.75, 93.75),
    ] {
        let pressure = pressure_from_force(pounds(push_lb), diameter_of(1.0)).expect("above zero");
        // The conversions of pound and inch in the library of units have seven digits.
        assert!((pressure.get::<psi>() / pressure_psi - 1.0).abs() < 1e-6);
        let force = force_from_pressure(pressure, diameter_of(area_square_inch));
        assert!((force.get::<pound_force>() - force_lb).abs() < 1e-9);
    }
}

/// 50 lb at 10 in against 1.25 in; 400 lb on 1 in, out 3.25 in;
/// 30 lb at 8 in against 0.5 in.
#[test]
fn levers_and_a_press() {
    for (push_lb, long_in, short_in, force_lb) in
        [(50.0, 10.0, 1.25, 400.0), (30.0, 8.0, 0.5, 480.0)]
    {
        let arms = Ratio::new::<ratio>(long_in / short_in);
        let force = lever_force(pounds(push_lb), arms).get::<pound_force>();
        assert!((force - force_lb).abs() < 1e-9, "{force}");
    }
    let press = Press::new(Length::new::<inch>(1.0), Length::new::<inch>(3.25))
        .expect("both are above zero");
    let force = press.force_on_second(pounds(400.0)).get::<pound_force>();
    assert!((force - 4225.0).abs() < 1e-9, "{force}");
}

/// A lift with pistons of 1.04 cm and 2.10 cm; the large one gives 3.25 kN, the small one moves 8.80 mm.
#[test]
fn force_travel_and_work_of_a_lift() {
    let small = Length::new::<centimeter>(1.04);
    let large = Length::new::<centimeter>(2.10);
    let backwards = Press::new(large, small).expect("both are above zero");
    let push = backwards.force_on_second(Force::new::<newton>(3250.0));
    assert!((push.get::<newton>() - 797.1).abs() <= 0.05, "{push:?}");
    let lift = Press::new(small, large).expect("both are above zero");
    let stroke = Length::new::<millimeter>(8.80);
    let travel = lift.travel_of_second(stroke);
    assert!(
        (travel.get::<millimeter>() - 2.158).abs() <= 5e-4,
        "{travel:?}"
    );
    let work_in = push.get::<newton>() * stroke.get::<meter>();
    let work_out = 3250.0 * travel.get::<meter>();
    assert!((work_in - 7.014).abs() <= 5e-4, "{work_in}");
    assert!((work_in - work_out).abs() < 1e-9);
}
