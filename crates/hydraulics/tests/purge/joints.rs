//! What mixing at the joints does to a push.

use crate::{ml, run, share, tube};
use bleedwright_hydraulics::{Washout, fully_mixed_theta_for, laminar_theta_for};
use uom::si::ratio::ratio;

#[test]
fn the_larger_of_the_two_rules_is_quoted() {
    for residual in [0.07, 0.1, 0.2, 0.5, 0.8] {
        let pieces = [ml(20.0), ml(20.0)];
        let fresh =
            Washout::new(tube(&[(20.0, 0.0), (20.0, 0.0)]), vec![], share(0.0)).expect("finite");
        let push = fresh.push_until(share(residual)).expect("reachable");
        let mixed = fully_mixed_theta_for(&pieces, share(residual)).expect("reachable");
        let larger = mixed.max(laminar_theta_for(share(residual)));
        assert!(
            (push.volume / ml(40.0) - larger).get::<ratio>().abs() < 1e-8,
            "{residual}"
        );
        assert_eq!(
            push.is_governed_by_mixing(),
            mixed > laminar_theta_for(share(residual))
        );
    }
}

#[test]
fn some_residuals_are_governed_by_each_rule() {
    let fresh = run(&[(20.0, 0.0), (20.0, 0.0)], &[], 0.0);
    let governed = |residual: f64| {
        fresh
            .push_until(share(residual))
            .expect("reachable")
            .is_governed_by_mixing()
    };
    assert!(governed(0.25));
    assert!(!governed(0.07));
    assert!(!governed(0.05));
}

/// What leaves two pieces with full mixing between them: the second one's law over the flow shares of the first, by the
/// midpoint rule.
fn mixed_out(first_ml: f64, second_ml: f64, pushed_ml: f64) -> f64 {
    let shares = 2000;
    let sum: f64 = (0..shares)
        .map(|nth| {
            let taken_ml = 0.5 * first_ml / ((f64::from(nth) + 0.5) / f64::from(shares)).sqrt();
            (0.5 * second_ml / (pushed_ml - taken_ml).max(0.5 * second_ml)).powi(2)
        })
        .sum();
    sum / f64::from(shares)
}

/// With a cavity behind the tube the ratio of the fresh tube is applied to the whole push. It must cover what full
/// mixing really asks for: the mixed outflow sent through the cavity's kernel by the midpoint rule.
#[test]
fn the_ratio_covers_a_tube_with_a_cavity() {
    for (first, second, cavity_ml) in [(20.0, 20.0, 15.0), (30.0, 10.0, 3.0), (25.0, 5.0, 0.5)] {
        for residual in [0.5, 0.2, 0.1] {
            let run = run(&[(first, 0.0), (second, 0.0)], &[(cavity_ml, 1.0)], 0.0);
            let push = run.push_until(share(residual)).expect("reachable").volume;
            let total = first + second;
            let pushed = (push / ml(1.0)).get::<ratio>();
            let start = total / 2.0;
            let intervals = 2000;
            let width = (pushed - start) / f64::from(intervals);
            let sum: f64 = (0..intervals)
                .map(|i| {
                    let at = start + (f64::from(i) + 0.5) * width;
                    mixed_out(first, second, at) * ((at - pushed) / cavity_ml).exp()
                })
                .sum();
            let fraction = ((start - pushed) / cavity_ml).exp() + sum * width / cavity_ml;
            assert!(
                fraction <= residual + 1e-4,
                "{first} {second} {cavity_ml} {residual}: {fraction}"
            );
        }
    }
}
