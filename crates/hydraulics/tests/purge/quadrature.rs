//! Runs without a closed form, against plain sums over very small intervals.

use crate::closed_forms::tube_and_cavity;
use crate::{ml, out, push_ml, run, tube};
use uom::si::ratio::ratio;

/// Two cavities: the first one's closed form is sent through the second one's kernel by Simpson's rule.
#[test]
fn a_tube_and_two_cavities() {
    for (tube_ml, first_ml, second_ml) in [
        (40.0, 15.0, 15.0),
        (30.0, 3.0, 8.0),
        (60.0, 20.0, 1.5),
        (10.0, 2.0, 40.0),
    ] {
        let run = run(&[(tube_ml, 0.0)], &[(first_ml, 1.0), (second_ml, 1.0)], 0.0);
        for factor in [0.7, 1.5, 3.0, 6.0] {
            let pushed = tube_ml * factor;
            let start = tube_ml / 2.0;
            let intervals = 20_000;
            let width = (pushed - start) / f64::from(intervals);
            let sum: f64 = (0..=intervals)
                .map(|i| {
                    let at = start + f64::from(i) * width;
                    let weight = if i == 0 || i == intervals {
                        1.0
                    } else if i % 2 == 1 {
                        4.0
                    } else {
                        2.0
                    };
                    weight
                        * tube_and_cavity(tube_ml, first_ml, at)
                        * ((at - pushed) / second_ml).exp()
                })
                .sum();
            let exact = ((start - pushed) / second_ml).exp() + sum * width / 3.0 / second_ml;
            let found = out(&run, pushed);
            assert!(
                (found - exact).abs() < 2e-9,
                "{tube_ml} {first_ml} {second_ml} {pushed}: {found} against {exact}"
            );
        }
    }
}

/// Tubes with history: their outflow through one cavity's kernel by the midpoint rule.
#[test]
fn a_tube_with_history_and_a_cavity() {
    for parts in [
        vec![(40.0, 130.0), (5.0, 0.0)],
        vec![(30.0, 90.0), (10.0, 25.0), (20.0, 0.0)],
        vec![(10.0, 200.0), (10.0, 120.0), (10.0, 12.0), (10.0, 4.0)],
    ] {
        for old in [1.0, 0.3] {
            let cavity_ml = 15.0;
            let run = run(&parts, &[(cavity_ml, old)], 0.0);
            let tube = tube(&parts);
            for pushed in [3.0, 11.0, 40.0, 90.0] {
                let intervals = 100_000;
                let width = pushed / f64::from(intervals);
                let sum: f64 = (0..intervals)
                    .map(|i| {
                        let at = (f64::from(i) + 0.5) * width;
                        tube.old_fraction_out(ml(at)).get::<ratio>()
                            * ((at - pushed) / cavity_ml).exp()
                    })
                    .sum();
                let exact = old * (-pushed / cavity_ml).exp() + sum * width / cavity_ml;
                let found = out(&run, pushed);
                assert!(
                    (found - exact).abs() < 3e-9,
                    "{parts:?} {old} {pushed}: {found} against {exact}"
                );
            }
        }
    }
}

/// Six unlike cavities: Heun's method with very small intervals, started where the tube first gives new fluid.
#[test]
fn a_tube_and_six_unlike_cavities() {
    let cavities = [
        (3.0, 1.0),
        (15.0, 0.4),
        (1.5, 0.0),
        (8.0, 0.9),
        (2.5, 0.1),
        (4.0, 1.0),
    ];
    let parts = [(25.0, 60.0), (10.0, 0.0)];
    let run = run(&parts, &cavities, 0.0);
    let tube = tube(&parts);
    let mut states = cavities.map(|(_, old)| old);
    let slopes = |states: &[f64; 6], inflow: f64| {
        let mut before = inflow;
        let mut slopes = [0.0; 6];
        for (index, (state, (volume_ml, _))) in states.iter().zip(cavities).enumerate() {
            slopes[index] = (before - state) / volume_ml;
            before = *state;
        }
        slopes
    };
    let intervals_per_ml = 8000;
    let width = 1.0 / f64::from(intervals_per_ml);
    for pushed_ml in 1..=120 {
        for i in 0..intervals_per_ml {
            let from = f64::from(pushed_ml - 1) + f64::from(i) * width;
            let at = |pushed| tube.old_fraction_out(ml(pushed)).get::<ratio>();
            let first = slopes(&states, at(from));
            let mut guess = states;
            for index in 0..6 {
                guess[index] += width * first[index];
            }
            let second = slopes(&guess, at(from + width));
            for index in 0..6 {
                states[index] += 0.5 * width * (first[index] + second[index]);
            }
        }
        if pushed_ml % 20 == 0 {
            let found = out(&run, f64::from(pushed_ml));
            assert!(
                (found - states[5]).abs() < 1e-8,
                "{pushed_ml}: {found} against {}",
                states[5]
            );
        }
    }
    assert!(push_ml(&run, 0.05) > 40.0);
}
