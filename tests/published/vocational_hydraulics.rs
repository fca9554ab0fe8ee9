//! A vocational course in applied physics, public on the web, examples 15, 19
//! and 21 on hydraulic brakes (read). Example 15 prints no answers; those
//! below follow by hand.

use crate::pedal::{Stint, bar_of};
use std::f64::consts::FRAC_PI_4;
use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, millimeter};

/// Example 19: 360 N at the pedal, 8 : 1, a master cylinder of 3 cm.
///
/// Known difference: the source prints 407.64 N for each square centimetre, which pi = 3.14 gives; 2880 N over 7.0686 cm2
/// is 407.437. The example knows no springs and seals, so that the cylinder's are taken away.
#[test]
fn pedal_and_master_cylinder() {
    let stint = Stint {
        master_mm: 30.0,
        lever: 8.0,
        ..Stint::default()
    };
    let found = bar_of(&stint, 360.0);
    assert!((found - 40.743_7).abs() <= 5e-5, "{found}");
    let with_rough_pi = found * std::f64::consts::PI / (157.0 / 50.0);
    assert!((with_rough_pi - 40.764).abs() <= 5e-4, "{with_rough_pi}");
}

/// Example 21: 75 lb and 125 lb on 1 in2 are 75 and 125 psi. Example 15: 50 lb at 10 in against 1.25 in are 400 lb; on the
/// same area that many psi. (Its other lever, 16 : 1, is longer than a pedal's may be.)
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
