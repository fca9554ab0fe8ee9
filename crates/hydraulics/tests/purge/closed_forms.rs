//! Runs whose outflow has a closed form.

use crate::{ml, out, push_ml, run, share};
use bleedwright_hydraulics::PurgeError;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// `exp(-x) Ei(x)` by its power series, and by its asymptotic series where that is exact to rounding.
/// [Abramowitz1964] 5.1.10 and 5.1.51 (the latter for the exponential integral of negative argument).
fn scaled_ei(x: f64) -> f64 {
    const EULER: f64 = 0.577_215_664_901_532_9;
    if x < 40.0 {
        let mut term = 1.0;
        let mut sum = EULER + x.ln();
        for k in 1..200 {
            term *= x / f64::from(k);
            sum += term / f64::from(k);
        }
        sum * (-x).exp()
    } else {
        let mut term = 1.0 / x;
        let mut sum = term;
        for k in 1..38 {
            term *= f64::from(k) / x;
            sum += term;
        }
        sum
    }
}

/// A fresh tube and one cavity full of old fluid: the cavity's equation integrated with `(Vp / 2u)^2` flowing in.
pub(crate) fn tube_and_cavity(tube_ml: f64, cavity_ml: f64, pushed_ml: f64) -> f64 {
    let half = tube_ml / 2.0;
    if pushed_ml <= half {
        return 1.0;
    }
    let primitive = |u: f64| {
        ((u - pushed_ml) / cavity_ml).exp() * (scaled_ei(u / cavity_ml) / cavity_ml - 1.0 / u)
    };
    (-(pushed_ml - half) / cavity_ml).exp()
        + half * half / cavity_ml * (primitive(pushed_ml) - primitive(half))
}

/// [Abramowitz1964] tables 5.1 and 5.2, values from memory.
#[test]
fn the_exponential_integral_of_the_check_is_right() {
    for (x, ei) in [
        (1.0_f64, 1.895_117_816),
        (2.0, 4.954_234_356),
        (10.0, 2_492.228_976),
    ] {
        let found = scaled_ei(x) * x.exp();
        assert!((found / ei - 1.0).abs() < 1e-9, "{x}: {found}");
    }
    // Both series meet.
    assert!((scaled_ei(39.999_999_9) / scaled_ei(40.000_000_1) - 1.0).abs() < 1e-8);
}

#[test]
fn any_tube_and_one_cavity() {
    for (tube_ml, cavity_ml) in [
        (40.0, 15.0),
        (60.0, 3.0),
        (5.0, 15.0),
        (20.0, 0.3),
        (2.0, 90.0),
        (100.0, 0.01),
    ] {
        let run = run(&[(tube_ml, 0.0)], &[(cavity_ml, 1.0)], 0.0);
        for factor in [0.3, 0.51, 0.7, 1.0, 1.7, 3.0, 9.0] {
            let pushed = tube_ml * factor;
            let exact = tube_and_cavity(tube_ml, cavity_ml, pushed);
            let found = out(&run, pushed);
            assert!(
                (found - exact).abs() < 1e-9,
                "{tube_ml} {cavity_ml} {pushed}: {found} against {exact}"
            );
        }
        for residual in [0.7, 0.2, 0.05, 0.01, 1e-4] {
            let exact = tube_and_cavity(tube_ml, cavity_ml, push_ml(&run, residual));
            assert!(
                (exact / residual - 1.0).abs() < 1e-7,
                "{tube_ml} {cavity_ml} {residual}: {exact}"
            );
        }
    }
}

/// Equal cavities without a tube: the outflow is the sum of the first terms of a Poisson distribution.
#[test]
fn equal_cavities_in_series() {
    for count in [1_u32, 2, 5, 40, 300] {
        let run = run(&[], &vec![(2.0, 1.0); count as usize], 0.0);
        for factor in [0.2, 0.8, 1.0, 1.3, 2.0] {
            let volumes = factor * f64::from(count);
            let mut log_term = -volumes;
            let mut exact = 0.0;
            for k in 0..count {
                exact += f64::exp(log_term);
                log_term += (volumes / f64::from(k + 1)).ln();
            }
            let found = out(&run, 2.0 * volumes);
            assert!(
                (found - exact).abs() < 2e-9,
                "{count} {factor}: {found} against {exact}"
            );
        }
    }
}

/// An old cavity in front of a flushed one: the outflow rises from nothing and falls again, and the push is the
/// last fall through the residual. With cavities `a` and `b` it is `a / (a - b) (exp(-v/a) - exp(-v/b))`.
#[test]
fn an_outflow_that_rises_first() {
    let run = run(&[], &[(10.0, 1.0), (4.0, 0.0)], 0.0);
    let exact = |v: f64| 10.0 / 6.0 * ((-v / 10.0).exp() - (-v / 4.0).exp());
    for pushed in [0.0, 0.5, 3.0, 6.0, 20.0, 60.0] {
        assert!((out(&run, pushed) - exact(pushed)).abs() < 1e-9);
    }
    // The peak stands where both rates are equal, at ln(10 / 4) / (1 / 4 - 1 / 10) = 6.1086 ml; behind it the formula falls
    // all the way, so that halving finds the one fall through a residual.
    let peak = 2.5_f64.ln() / (0.25 - 0.1);
    for residual in [0.1, 0.54] {
        let (mut before, mut after) = (peak, 100.0);
        for _ in 0..100 {
            let middle = f64::midpoint(before, after);
            if exact(middle) > residual {
                before = middle;
            } else {
                after = middle;
            }
        }
        let push = push_ml(&run, residual);
        assert!(
            (push - before).abs() < 1e-6,
            "{residual}: {push}, not {before}"
        );
    }
    // The peak is 0.543: above it nothing need be pushed.
    assert!(push_ml(&run, 0.55).abs() < f64::EPSILON);
}

/// Cavities flushed and unflushed in turn, so the outflow has more than one hump.
#[test]
fn an_outflow_with_two_humps() {
    let run = run(
        &[],
        &[
            (9.0, 1.0),
            (9.0, 0.0),
            (9.0, 0.0),
            (9.0, 0.0),
            (0.5, 1.0),
            (0.2, 0.0),
        ],
        0.0,
    );
    for residual in [0.9, 0.5, 0.19, 0.12] {
        let push = push_ml(&run, residual);
        let later = (0..4000).map(|i| out(&run, push + f64::from(i) * 0.1));
        if residual < 0.2 {
            assert!((out(&run, push) - residual).abs() < 1e-8);
            assert!(later.take(800).all(|fraction| fraction < residual + 1e-8));
        } else {
            assert!(later.take(80).all(|fraction| fraction < residual + 1e-8));
        }
    }
}

/// A cavity far smaller than the others, down to one that is too small to be followed, delays by its volume.
#[test]
fn tiny_cavities_do_no_harm() {
    let plain = run(&[(40.0, 0.0)], &[(15.0, 1.0)], 0.0);
    let plain_push = push_ml(&plain, 0.05);
    for tiny in [1e-3, 1e-6, 1e-9, 1e-13, 1e-300, 0.0] {
        for cavities in [
            [(tiny, 1.0), (15.0, 1.0)],
            [(15.0, 1.0), (tiny, 1.0)],
            [(15.0, 1.0), (tiny, 0.0)],
        ] {
            let run = run(&[(40.0, 0.0)], &cavities, 0.0);
            let push = push_ml(&run, 0.05);
            assert!(
                (push - plain_push - tiny).abs() < 2e-5 * tiny.max(0.1),
                "{tiny}: {push}"
            );
            assert!((out(&run, 80.0) - out(&plain, 80.0)).abs() < 2e-9 + 0.1 * tiny);
        }
    }
}

/// The mixture's rule: what flows in with old fluid in it adds its share and nothing else.
#[test]
fn old_fluid_that_flows_in_is_added() {
    let clean = run(&[(40.0, 0.0)], &[(15.0, 1.0)], 0.0);
    let dirty = run(&[(40.0, 0.0)], &[(15.0, 1.0)], 0.03);
    for pushed in [0.0, 30.0, 80.0, 400.0] {
        let expected = 0.03 + 0.97 * out(&clean, pushed);
        assert!((out(&dirty, pushed) - expected).abs() < 1e-9);
    }
    assert!((push_ml(&dirty, 0.05) - push_ml(&clean, 0.02 / 0.97)).abs() < 1e-5);
    assert_eq!(
        dirty.push_until(share(0.03)),
        Err(PurgeError::ResidualBelowInlet {
            residual: 0.03,
            inlet_old_fraction: 0.03
        })
    );
}

#[test]
fn edges_have_answers() {
    let nothing = run(&[], &[], 0.02);
    assert!((out(&nothing, 5.0) - 0.02).abs() < 1e-15);
    assert!(push_ml(&nothing, 0.05).abs() < f64::EPSILON);
    let all_old = run(&[(40.0, 0.0)], &[(15.0, 0.2)], 1.0);
    assert!((out(&all_old, 5.0) - 1.0).abs() < f64::EPSILON);
    assert!(matches!(
        all_old.push_until(share(0.5)),
        Err(PurgeError::ResidualBelowInlet { .. })
    ));
    let usual = run(&[(40.0, 0.0)], &[(15.0, 1.0)], 0.0);
    for residual in [0.0, 1.0, -0.1, 2.0, f64::NAN] {
        assert!(matches!(
            usual.push_until(share(residual)),
            Err(PurgeError::ResidualOutOfRange { .. })
        ));
    }
    assert!((out(&usual, f64::NAN) - 1.0).abs() < f64::EPSILON);
    assert!((out(&usual, -3.0) - 1.0).abs() < f64::EPSILON);
    assert!(out(&usual, f64::INFINITY) < 1e-9);
    assert!(out(&usual, 1e300) < 1e-9);
    assert!(push_ml(&usual, 1e-12) > 1e6);
}

#[test]
fn the_cavities_after_a_push_start_the_next_one() {
    // A push in two parts is one push, with the tube's history standing for its first part.
    let whole = run(&[(40.0, 0.0)], &[(3.0, 1.0), (15.0, 1.0)], 0.01);
    let first = whole.old_fractions_after(ml(70.0));
    assert_eq!(first.len(), 2);
    assert!(
        (first[1] - whole.old_fraction_out(ml(70.0)))
            .get::<ratio>()
            .abs()
            < 1e-15
    );
    let cavities = [
        (3.0, first[0].get::<ratio>()),
        (15.0, first[1].get::<ratio>()),
    ];
    let rest = run(&[(40.0, 70.0)], &cavities, 0.01);
    for pushed in [0.0, 10.0, 50.0, 200.0] {
        assert!(
            (out(&rest, pushed) - out(&whole, 70.0 + pushed)).abs() < 3e-9,
            "{pushed}"
        );
    }
    let whole_push = whole.push_until(share(0.05)).expect("reachable").volume;
    let rest_push = rest.push_until(share(0.05)).expect("reachable").volume;
    assert!(
        (whole_push - rest_push - ml(70.0))
            .get::<milliliter>()
            .abs()
            < 1e-4
    );
}
