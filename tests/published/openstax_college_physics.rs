//! College Physics (`OpenStax`), section on Pascal's principle, example of a
//! hydraulic brake system (read): 500 N on a master cylinder of 0.500 cm; each
//! of the four slave cylinders, 2.50 cm, gives 1.25 x 10^4 N.

use crate::pedal::{Stint, bar_of};

/// By hand: 500 N over 19.635 mm2 are 254.648 bar; on 490.874 mm2 that is the force printed.
#[test]
fn five_hundred_newtons_on_the_master_cylinder() {
    let stint = Stint {
        master_mm: 5.0,
        lever: 1.0,
        // So little fluid must do for the brake that the piston meets no stop.
        piston_mm: 10.0,
        ..Stint::default()
    };
    let found = bar_of(&stint, 500.0);
    assert!((found - 254.648).abs() <= 5e-4, "{found}");
    let slave_n = found * 0.1 * 490.873_9;
    assert!((slave_n - 1.25e4).abs() <= 0.01, "{slave_n}");
}
