//! 49 CFR 570 and 393, vehicles in use, and what the trade does beside them.
//!
//! Read: 570.55(b) and (c), 570.60(b), 393.47(d). "Common practice" has no source.

use bleedwright_inspection::limit::{
    hold_force, hold_time, lining_floor, most_pedal_travel, reserve_force,
};
use bleedwright_inspection::pedal_reserve_used;
use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, millimeter};
use uom::si::ratio::percent;
use uom::si::time::second;

/// 570.55(c): percent = (A - B) / A x 100. The formula is the law's, A = 150 mm and B = 45 mm are numbers of our own
/// put into it by hand: 105 / 150 = 70 %, and the limit is 80 %.
#[test]
fn pedal_reserve() {
    let mm = Length::new::<millimeter>;
    let used = pedal_reserve_used(mm(150.0), mm(45.0)).expect("B is smaller than A");
    assert!((used.get::<percent>() - 70.0).abs() < 1e-9);
    assert!(used < most_pedal_travel());
    assert!((most_pedal_travel().get::<percent>() - 80.0).abs() < 1e-9);
}

/// The law prints pounds; newtons are those printed beside them, whole numbers.
#[test]
fn forces_and_times() {
    let printed = |lbf: f64| Force::new::<pound_force>(lbf).get::<newton>();
    assert!((reserve_force().get::<newton>() - printed(50.0)).abs() <= 0.5);
    assert!((hold_force().get::<newton>() - printed(125.0)).abs() <= 0.5);
    assert!((hold_time().get::<second>() - 10.0).abs() < 1e-9);
}

/// 393.47(d): 1.6 mm (1/16 in).
#[test]
fn lining_of_a_commercial_vehicle() {
    let printed = Length::new::<inch>(1.0 / 16.0).get::<millimeter>();
    assert!((lining_floor().get::<millimeter>() - printed).abs() <= 0.05);
}
