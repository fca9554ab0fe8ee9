//! Levenspiel, Chemical Reaction Engineering, 3rd edition (1999): laminar flow
//! in a pipe without diffusion (chapter 15), `F = 1 - 1 / (4 theta^2)` for
//! `theta >= 1/2`; and the stirred tank, `E = exp(-t / tau) / tau` (chapter 11).
//!
//! The book prints formulas. The ratios below follow from them by hand and are
//! given to six decimals; those of tube and tank together were worked out with
//! a general-purpose integrator to nine.

use bleedwright_hydraulics::{Tank, Tube, Washout, laminar_theta_for};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

fn ml(value: f64) -> Volume {
    Volume::new::<milliliter>(value)
}

#[test]
fn how_often_a_pipe_must_be_filled() {
    for (old, theta) in [
        (0.10, 1.581_139),
        (0.05, 2.236_068),
        (0.02, 3.535_534),
        (0.01, 5.0),
    ] {
        let found = laminar_theta_for(share(old)).get::<ratio>();
        assert!((found - theta).abs() <= 5e-7, "{old}: {found}");
    }
}

fn pipe() -> Tube {
    Tube::fresh(ml(1.0)).expect("1 ml is a volume")
}

/// The new fluid on the axis runs twice as fast as the mean, so nothing new
/// arrives before half of the contents was pushed.
#[test]
fn nothing_new_arrives_in_the_first_half() {
    for theta in [0.0, 0.25, 0.5] {
        let found = pipe().old_fraction_out(ml(theta)).get::<ratio>();
        assert!((found - 1.0).abs() < 1e-12, "{theta}: {found}");
    }
    let found = pipe().old_fraction_out(ml(2.0)).get::<ratio>();
    assert!((found - 1.0 / 16.0).abs() < 1e-12, "{found}");
}

/// What is inside is what has not left: 1 / (4 theta), by integrating F.
#[test]
fn five_per_cent_going_out_leaves_eleven_inside() {
    let theta = laminar_theta_for(share(0.05));
    let inside = pipe().old_left_inside(ml(1.0) * theta).get::<ratio>();
    assert!((inside - 0.111_803).abs() <= 1e-6, "{inside}");
}

/// A pipe of 40 ml and one stirred cavity of 15 ml behind it.
#[test]
fn pipe_and_cavity_together() {
    let cavity = Tank::full_of_old(ml(15.0)).expect("15 ml is a volume");
    let tube = Tube::fresh(ml(40.0)).expect("40 ml is a volume");
    let run = Washout::new(tube, vec![cavity], share(0.0)).expect("both are finite");
    for (pushed_ml, old) in [
        (40.0, 0.579_945_428),
        (80.0, 0.127_542_717),
        (120.0, 0.041_700_828),
    ] {
        let found = run.old_fraction_out(ml(pushed_ml)).get::<ratio>();
        assert!((found - old).abs() <= 1e-8, "{pushed_ml} ml: {found}");
    }
    let push = run.push_until(share(0.05)).expect("5 % can be reached");
    let push_ml = push.volume.get::<milliliter>();
    assert!((push_ml - 112.2).abs() <= 0.05, "{push_ml}");
}
