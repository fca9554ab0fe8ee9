//! Levers and pistons, worked by hand: force over area is the same in both cylinders, and work is kept.

use crate::pedal::{Stint, bar_of};
use std::f64::consts::FRAC_PI_4;
use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, millimeter};

/// 360 N at the pedal, 8 : 1, a master cylinder of 3 cm: 2880 N over pi / 4 x 30^2 = 706.858 mm2 is 4.07437 N/mm2. Springs and
/// seals are taken away.
#[test]
fn pedal_and_master_cylinder() {
    let stint = Stint {
        master_mm: 30.0,
        lever: 8.0,
        ..Stint::default()
    };
    let found = bar_of(&stint, 360.0);
    assert!((found - 40.743_7).abs() <= 5e-5, "{found}");
}

/// 75 lb and 125 lb on 1 in2 are 75 and 125 psi; 50 lb at 10 in against 1.25 in are 400 lb, on the same area that many psi.
#[test]
fn levers_and_a_piston_of_one_square_inch() {
    // 1 in2 is 28.6619 mm across.
    let master_mm = Length::new::<inch>(FRAC_PI_4.sqrt().recip()).get::<millimeter>();
    for (push_lb, lever, psi) in [(75.0, 1.0, 75.0), (125.0, 1.0, 125.0), (50.0, 8.0, 400.0)] {
        let stint = Stint {
            master_mm,
            lever,
            ..Stint::default()
        };
        let found = bar_of(&stint, Force::new::<pound_force>(push_lb).get::<newton>());
        let by_hand = psi * 0.068_947_57;
        assert!((found / by_hand - 1.0).abs() < 1e-6, "{found}, {by_hand}");
    }
}
