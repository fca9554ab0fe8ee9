//! 49 CFR 571.105 and 571.135, both S5.4.2: a reservoir holds at least what all pistons displace from new linings, fully
//! retracted, to worn ones, fully applied (571.135 from memory). The law prints no example; piston and travel are numbers
//! of our own, and the volumes follow by hand.

use crate::pedal::Stint;
use bleedwright_pedal::{Capacity, CapacityVerdict, capacities};
use uom::si::volume::milliliter;

fn capacity(stint: Stint) -> Capacity {
    let network = stint.load();
    let all = capacities(&network);
    assert_eq!(all.len(), 1, "{all:?}");
    all[0].clone()
}

/// `pi / 4 x 5.4^2 cm2 x 1 cm` is 22.902 ml, `pi / 4 x 3.8^2 cm2 x 0.8 cm` 9.073 ml.
#[test]
fn wear_reserve_of_a_piston() {
    for (piston_mm, wear_mm, printed_ml, by_hand_ml) in
        [(54.0, 10.0, 22.9, 22.902), (38.0, 8.0, 9.07, 9.073)]
    {
        let found = capacity(Stint {
            piston_mm,
            wear_mm,
            ..Stint::default()
        });
        for needed in [found.needed.low, found.needed.nominal, found.needed.high] {
            let needed_ml = needed.get::<milliliter>();
            assert!((needed_ml - by_hand_ml).abs() <= 5e-4, "{needed_ml}");
            // As rounded to three figures.
            assert!((needed_ml - printed_ml).abs() <= 5e-3, "{needed_ml}");
        }
    }
}

/// The clearance is a part of "fully retracted": 0.2 mm more are `22.902 / 10 x 0.2` = 0.458 ml.
#[test]
fn the_clearance_counts() {
    let found = capacity(Stint {
        clearance_mm: 0.2,
        ..Stint::default()
    });
    let needed_ml = found.needed.nominal.get::<milliliter>();
    assert!((needed_ml - 23.360).abs() <= 5e-4, "{needed_ml}");
}

#[test]
fn enough_is_what_is_needed() {
    for (reservoir_ml, verdict) in [
        (22.91, CapacityVerdict::Pass),
        (22.90, CapacityVerdict::Fail),
    ] {
        let found = capacity(Stint {
            reservoir_ml,
            ..Stint::default()
        });
        assert_eq!(found.verdict, verdict, "{reservoir_ml}");
    }
}
