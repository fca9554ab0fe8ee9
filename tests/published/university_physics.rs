//! A problem of a university's physics course, public on the web (read): a
//! hydraulic lift with pistons of 1.04 cm and 2.10 cm; the large one gives
//! 3.25 kN, the small one moves 8.80 mm. It prints no answers; those below
//! follow by hand.

use bleedwright_hydraulics::press::Press;
use uom::si::f64::{Force, Length};
use uom::si::force::newton;
use uom::si::length::{centimeter, meter, millimeter};

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
