//! What must hold for every run.

use crate::{ml, out, push_ml, run, share};
use proptest::prelude::*;

/// Pairs of contents and earlier pushes that never grow along the run.
fn parts() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.0_f64..60.0, 0.0_f64..80.0), 0..5).prop_map(|mut parts| {
        let mut later = 0.0;
        for (_, pushed) in parts.iter_mut().rev() {
            later += *pushed;
            *pushed = if later < 40.0 { 0.0 } else { later - 40.0 };
        }
        parts
    })
}

fn cavities() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.0_f64..40.0, 0.0_f64..=1.0), 0..4)
}

fn old_cavities() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.0_f64..40.0, Just(1.0)), 0..4)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn fractions_stay_between_the_inflow_and_one(
        parts in parts(), cavities in cavities(), inlet in 0.0_f64..=1.0, pushed in 0.0_f64..500.0,
    ) {
        let fraction = out(&run(&parts, &cavities, inlet), pushed);
        prop_assert!((inlet..=1.0).contains(&fraction), "{fraction}");
    }

    #[test]
    fn the_push_reaches_the_residual_and_stays_below(
        parts in parts(), cavities in cavities(), inlet in 0.0_f64..0.04, residual in 0.045_f64..0.9,
    ) {
        let run = run(&parts, &cavities, inlet);
        let push = push_ml(&run, residual);
        // A tube jumps where its push is nothing, so the reading is taken just behind.
        for factor in [1.0 + 1e-9, 1.01, 1.1, 1.5, 3.0] {
            let fraction = out(&run, push * factor + 1e-12);
            prop_assert!(fraction <= residual + 1e-8, "{fraction} at {factor} of {push}");
        }
        if push > 0.0 {
            let fraction = out(&run, push * (1.0 - 1e-6));
            prop_assert!(fraction >= residual - 1e-8, "{fraction} just before {push}");
        }
    }

    #[test]
    fn a_smaller_push_leaves_more_than_the_residual(
        parts in parts(), cavities in old_cavities(), residual in 0.01_f64..0.9, short in 0.5_f64..0.98,
    ) {
        let run = run(&parts, &cavities, 0.0);
        let push = push_ml(&run, residual);
        prop_assume!(push > 0.0);
        prop_assert!(out(&run, push * short) > residual);
    }

    #[test]
    fn more_history_never_needs_more_push(
        parts in parts(), cavities in cavities(), residual in 0.01_f64..0.9,
        part in 0_usize..5, more in 0.0_f64..100.0, cleaner in 0.0_f64..=1.0,
    ) {
        let before = push_ml(&run(&parts, &cavities, 0.0), residual);
        // A push goes through all parts up to one; a cavity is cleaner than it was.
        let flushed: Vec<_> = parts
            .iter()
            .enumerate()
            .map(|(index, &(contents, pushed))| (contents, if index <= part { pushed + more } else { pushed }))
            .collect();
        let after = push_ml(&run(&flushed, &cavities, 0.0), residual);
        prop_assert!(after <= before * (1.0 + 1e-7) + 1e-9, "{after} above {before}");
        let cleaned: Vec<_> = cavities.iter().map(|&(volume, old)| (volume, old * cleaner)).collect();
        let after = push_ml(&run(&parts, &cleaned, 0.0), residual);
        prop_assert!(after <= before * (1.0 + 1e-7) + 1e-9, "{after} above {before}");
    }

    #[test]
    fn larger_contents_never_need_less_push(
        parts in parts(), cavities in old_cavities(), residual in 0.01_f64..0.9,
        which in 0_usize..5, more in 0.0_f64..50.0,
    ) {
        let before = push_ml(&run(&parts, &cavities, 0.0), residual);
        let mut longer = parts.clone();
        if let Some(part) = longer.get_mut(which) {
            part.0 += more;
        }
        let after = push_ml(&run(&longer, &cavities, 0.0), residual);
        prop_assert!(after >= before * (1.0 - 1e-7) - 1e-9, "{after} below {before}");
        let mut wider = cavities.clone();
        if let Some(cavity) = wider.get_mut(which) {
            cavity.0 += more;
        }
        let after = push_ml(&run(&parts, &wider, 0.0), residual);
        prop_assert!(after >= before * (1.0 - 1e-7) - 1e-9, "{after} below {before}");
    }

    #[test]
    fn mixing_never_shortens_a_push(
        parts in parts(), cavities in cavities(), inlet in 0.0_f64..0.04, residual in 0.045_f64..0.9,
    ) {
        let push = run(&parts, &cavities, inlet).push_until(share(residual)).expect("reachable");
        prop_assert!(push.volume >= push.unmixed);
        // What was pushed before never makes more necessary than for the same run wholly old; the curve of the mixed
        // outflow is right to a hundredth.
        let old = |list: &[(f64, f64)], value| list.iter().map(|part| (part.0, value)).collect::<Vec<_>>();
        let fresh = run(&old(&parts, 0.0), &old(&cavities, 1.0), inlet);
        let most = fresh.push_until(share(residual)).expect("reachable").volume;
        prop_assert!(push.volume <= most * 1.02 + ml(1e-9), "{:?} above {most:?}", push.volume);
    }

    #[test]
    fn any_finite_run_gets_an_answer_without_a_panic(
        contents in prop::collection::vec((0.0_f64..1e30, 0.0_f64..1e30), 0..5),
        cavities in prop::collection::vec((prop::num::f64::POSITIVE | prop::num::f64::ZERO, 0.0_f64..=1.0), 0..5),
        residual in prop::num::f64::ANY,
        pushed in prop::num::f64::ANY,
    ) {
        let cavities: Vec<_> = cavities.into_iter().map(|(volume, old)| (volume.min(1e30), old)).collect();
        let run = run(&contents, &cavities, 0.0);
        let fraction = out(&run, pushed);
        prop_assert!((0.0..=1.0).contains(&fraction));
        if let Ok(push) = run.push_until(share(residual)) {
            prop_assert!(push.volume.value >= 0.0);
        }
    }
}
