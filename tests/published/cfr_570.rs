//! 49 CFR 570 and 393, vehicles in use, and what the trade does beside them.
//!
//! Read: 570.51, 570.55(b) and (c), 570.59(b) and (c), 393.47(d). 570.5 second-hand.

use bleedwright_inspection::limit::{
    DISC_AND_DRUM, LINING_OF_THE_LAW, Place, hold_force, hold_time, lining_floor,
    lining_of_the_law, reserve_force,
};
use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, millimeter};
use uom::si::time::second;

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

/// 570.59(c): 1/32 in over the fastener, 1/16 in over the shoe of a bonded lining; 570.5: 1/32 in over either.
#[test]
fn linings_in_use() {
    for (is_heavy, is_riveted, thirty_seconds) in [
        (Some(true), Some(true), 1.0),
        (Some(true), Some(false), 2.0),
        (Some(true), None, 2.0),
        // What nobody says is held against the stricter figure.
        (None, None, 2.0),
        (Some(false), Some(false), 1.0),
        (Some(false), Some(true), 1.0),
    ] {
        let (least, _) = lining_of_the_law(is_heavy, is_riveted);
        assert!((least.get::<inch>() - thirty_seconds / 32.0).abs() < 1e-12);
    }
}

/// 570.51: these sections are for more than 10,000 lb. 570.60, which stood here, is steering.
#[test]
fn sections_by_the_mass() {
    for (limit, heavy) in [
        (DISC_AND_DRUM, "49 CFR 570.59(b)"),
        (LINING_OF_THE_LAW, "49 CFR 570.59(c)"),
    ] {
        for (is_heavy, place) in [
            (Some(true), Place::Clause(heavy)),
            (Some(false), Place::Clause("49 CFR 570.5")),
            (None, Place::ByMass(heavy, "570.5")),
        ] {
            assert_eq!(limit.of(is_heavy).place, place);
        }
    }
}
