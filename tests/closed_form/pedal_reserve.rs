//! The share of its travel that a pedal uses, by the formula of 49 CFR 570.55(c).

use bleedwright_inspection::limit::most_pedal_travel;
use bleedwright_inspection::pedal_reserve_used;
use uom::si::f64::Length;
use uom::si::length::millimeter;
use uom::si::ratio::percent;

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
