//! Mixing at the tees where the ways of earlier pushes parted, against sums over the flow shares of the parts.

use crate::{ml, run, share, tube};
use bleedwright_hydraulics::{Diffusion, Washout};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// What leaves one fresh part after a push, both in millilitres.
fn fresh(contents: f64, pushed: f64) -> f64 {
    if pushed <= contents / 2.0 {
        1.0
    } else {
        (contents / (2.0 * pushed)).powi(2)
    }
}

/// A shared part that saw `before`, then mixed into an own part that saw nothing: the midpoint rule over the flow shares
/// of the own part.
fn behind_one_tee(shared: f64, before: f64, own: f64, pushed: f64) -> f64 {
    let shares = 40_000;
    let sum: f64 = (0..shares)
        .map(|i| {
            let slower = (f64::from(i) + 0.5) / f64::from(shares);
            let takes = own / (2.0 * slower.sqrt());
            if takes >= pushed {
                1.0
            } else {
                fresh(shared, before + pushed - takes)
            }
        })
        .sum();
    sum / f64::from(shares)
}

/// The push after which the sum falls to a residual.
fn push_behind_one_tee(shared: f64, before: f64, own: f64, residual: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1e3);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if behind_one_tee(shared, before, own, middle) > residual {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// With the shared wall dealt out over the bore behind the tee the second screw needs more than by its streamlines.
#[test]
fn a_second_screw_takes_the_larger_of_kept_and_mixed() {
    let mut mixed_governs = 0;
    for (shared, before, own) in [
        (48.0, 160.0, 8.0),
        (40.0, 122.0, 20.0),
        (30.0, 75.0, 3.0),
        (10.0, 100.0, 25.0),
    ] {
        for residual in [0.038, 0.05] {
            let push = run(&[(shared, before), (own, 0.0)], &[], 0.0)
                .push_until(share(residual))
                .expect("reachable");
            let mixed = push_behind_one_tee(shared, before, own, residual);
            let kept = push.unmixed.get::<milliliter>();
            let found = push.volume.get::<milliliter>();
            let larger = mixed.max(kept);
            assert!(
                (found / larger - 1.0).abs() < 0.01,
                "{shared} {before} {own} {residual}: {found}, mixed {mixed}, kept {kept}"
            );
            assert_eq!(push.is_governed_by_mixing(), found > kept);
            mixed_governs += usize::from(mixed > 1.02 * kept);
        }
    }
    assert!(mixed_governs > 4, "{mixed_governs}");
}

/// The outflow itself, and the same with a cavity behind it by Euler's rule.
#[test]
fn the_mixed_outflow_is_fed_into_the_cavity() {
    let (shared, before, own, cavity) = (40.0, 120.0, 10.0, 6.0);
    let bare = run(&[(shared, before), (own, 0.0)], &[], 0.0);
    for pushed in [6.0, 12.0, 25.0, 60.0] {
        let found = bare
            .mixed_old_fraction_out(ml(pushed))
            .expect("its parts have two histories")
            .get::<ratio>();
        let exact = behind_one_tee(shared, before, own, pushed);
        assert!(
            (found / exact - 1.0).abs() < 0.01,
            "{pushed}: {found} {exact}"
        );
    }
    let (steps, to) = (4000, 40.0);
    let width = to / f64::from(steps);
    let mut state = 1.0;
    for i in 0..steps {
        let inflow = behind_one_tee_coarse(shared, before, own, (f64::from(i) + 0.5) * width);
        state += (inflow - state) * (1.0 - (-width / cavity).exp());
    }
    let found = run(&[(shared, before), (own, 0.0)], &[(cavity, 1.0)], 0.0)
        .mixed_old_fraction_out(ml(to))
        .expect("its parts have two histories")
        .get::<ratio>();
    assert!((found / state - 1.0).abs() < 0.01, "{found} {state}");
}

fn behind_one_tee_coarse(shared: f64, before: f64, own: f64, pushed: f64) -> f64 {
    let shares = 400;
    (0..shares)
        .map(|i| {
            let slower = ((f64::from(i) + 0.5) / f64::from(shares)).powi(2);
            let takes = own / (2.0 * slower.sqrt());
            let weight = 2.0 * (f64::from(i) + 0.5) / f64::from(shares);
            let out = if takes >= pushed {
                1.0
            } else {
                fresh(shared, before + pushed - takes)
            };
            out * weight
        })
        .sum::<f64>()
        / f64::from(shares)
}

/// A run whose parts share one history has no tee to mix at.
#[test]
fn one_history_is_not_mixed() {
    for parts in [&[(40.0, 0.0)][..], &[(20.0, 30.0), (5.0, 30.0)], &[]] {
        assert!(
            run(parts, &[], 0.0)
                .mixed_old_fraction_out(ml(10.0))
                .is_none()
        );
    }
}

/// Neither many tees nor odd sizes break the search, and the push is never below that of kept streamlines.
#[test]
fn odd_histories_settle() {
    let many: Vec<(f64, f64)> = (0..60).map(|i| (1.0, f64::from(600 - 10 * i))).collect();
    for parts in [
        many,
        vec![(1e-6, 5.0), (40.0, 0.0)],
        vec![(40.0, 5.0), (1e-6, 0.0)],
        vec![(40.0, 1e5), (3.0, 80.0), (2.0, 1.0)],
    ] {
        for tau in [0.0, 3e-3, 0.5] {
            let run = Washout::new(tube(&parts), vec![], share(0.0))
                .expect("finite")
                .with_diffusion(Diffusion::of(share(tau)));
            let push = run.push_until(share(0.05)).expect("reachable");
            assert!(push.volume >= push.unmixed);
            assert!(push.volume < ml(1e4), "{parts:?} {tau} {push:?}");
        }
    }
}
