//! Merritt, Hydraulic Control Systems (1967), chapter 2: `p V^n` is constant
//! (from memory).
//!
//! The figures follow from the gas law by hand with an atmosphere of 101325 Pa.

use bleedwright_hydraulics::gas::{absorbed_share, standard_atmosphere};
use uom::si::f64::{Pressure, Ratio};
use uom::si::pressure::bar;
use uom::si::ratio::ratio;

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
        }
    }
}
