//! The derived order: complete, and within every constraint.

use super::{config, plan_of};
use crate::demo::screws;
use crate::generated::{Case, Choices, Known, cases, screws_in_scope};
use bleedwright_planner::{Method, Purpose};
use bleedwright_report::json::PlanJson;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::{BTreeSet, HashMap};

/// Pairs of screws of which the first must come before the second, and why,
/// worked out from the names in the file alone.
fn constraints(case: &Case) -> Vec<(String, String, &'static str)> {
    let known = &case.layout.known;
    let open: Vec<_> = known
        .screws
        .iter()
        .filter(|screw| !screw.stays_shut)
        .collect();
    let is_reverse = case.options.method == Method::Reverse;
    let is_declared = |first: &str, then: &str| {
        let pair = |[a, b]: &[String; 2]| a.as_str() == first && b.as_str() == then;
        !is_reverse && known.declared.iter().any(pair)
    };
    let mut pairs = Vec::new();
    for first in &open {
        let root = &known.circuits[first.circuit].root;
        let without = known.reached_without(root, Some(&first.body));
        for then in open.iter().filter(|then| then.id != first.id) {
            if then.circuit != first.circuit || then.body == first.body {
                continue;
            }
            let pair = |why| (first.id.clone(), then.id.clone(), why);
            // Nothing reaches the second one but through the first one's body.
            if !without.contains(then.body.as_str()) && !is_declared(&then.body, &first.body) {
                pairs.push(if is_reverse {
                    (
                        then.id.clone(),
                        first.id.clone(),
                        "fluid comes in at the wheels",
                    )
                } else {
                    pair("upstream first")
                });
            }
            if is_declared(&first.body, &then.body) {
                pairs.push(pair("declared first"));
            }
            let is_above = first.level == Some("upper") && then.level == Some("lower");
            let is_apart =
                !feeds(known, &then.body, &first.body) && !feeds(known, &first.body, &then.body);
            if is_above && first.wheel == then.wheel && is_apart {
                pairs.push(pair("upper first"));
            }
        }
    }
    if case.options.method == Method::Pedal && has_air_in_both(case) {
        for first in &open {
            for then in &open {
                let chambers = [first, then].map(|screw| known.circuits[screw.circuit].tandem);
                if chambers == [Some(false), Some(true)] {
                    pairs.push((first.id.clone(), then.id.clone(), "primary first"));
                }
            }
        }
    }
    pairs
}

/// Whether one body is fed through another.
fn feeds(known: &Known, near: &str, far: &str) -> bool {
    known.circuits.iter().any(|circuit| {
        let all = known.reached_without(&circuit.root, None);
        all.contains(far)
            && !known
                .reached_without(&circuit.root, Some(near))
                .contains(far)
    })
}

/// Whether both circuits of a tandem cylinder were emptied.
fn has_air_in_both(case: &Case) -> bool {
    let known = &case.layout.known;
    if case.options.purpose() == Purpose::Fill {
        return true;
    }
    let dry: BTreeSet<usize> = case
        .options
        .ran_dry
        .iter()
        .filter_map(|name| known.circuits_of.get(name))
        .flatten()
        .copied()
        .collect();
    let is_dry = |secondary| {
        known
            .circuits
            .iter()
            .enumerate()
            .any(|(n, circuit)| circuit.tandem == Some(secondary) && dry.contains(&n))
    };
    is_dry(false) && is_dry(true)
}

/// Whether two documents are equal, sums of floating-point numbers in another
/// order apart.
fn differing(at: &str, a: &Value, b: &Value) -> Option<String> {
    let differ = || Some(format!("{at}: {a} and {b}"));
    match (a, b) {
        (Value::Number(x), Value::Number(y)) => {
            let (x, y) = (x.as_f64()?, y.as_f64()?);
            if (x - y).abs() <= 1e-9 * x.abs().max(1.0) {
                None
            } else {
                differ()
            }
        }
        (Value::Array(x), Value::Array(y)) if x.len() == y.len() => x
            .iter()
            .zip(y)
            .enumerate()
            .find_map(|(n, (x, y))| differing(&format!("{at}[{n}]"), x, y)),
        (Value::Object(x), Value::Object(y)) if x.len() == y.len() => x
            .iter()
            .find_map(|(key, x)| differing(&format!("{at}.{key}"), x, y.get(key)?)),
        _ if a == b => None,
        _ => differ(),
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn each_screw_in_scope_is_visited_once(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let mut found: Vec<&str> = screws(&plan);
        found.sort_unstable();
        let scope = screws_in_scope(&case.layout.known, &case.options);
        let mut expected: Vec<&str> = scope.iter().map(String::as_str)
            .filter(|name| {
                let is_named = |list: &[String]| list.iter().any(|other| other == name);
                !is_named(&case.options.skip) && !is_named(&case.options.done)
            })
            .collect();
        expected.sort_unstable();
        prop_assert_eq!(found, expected);
        let numbers: Vec<usize> = plan.steps.iter().map(|step| step.number).collect();
        let counted: Vec<usize> = (1..=plan.steps.len()).collect();
        prop_assert_eq!(numbers, counted);
    }

    #[test]
    fn derived_orders_respect_every_constraint(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        let places: HashMap<&str, usize> = plan.steps.iter().enumerate()
            .flat_map(|(n, step)| step.screws.iter().map(move |screw| (screw.screw.as_str(), n)))
            .collect();
        for (first, then, why) in constraints(&case) {
            if let (Some(a), Some(b)) = (places.get(first.as_str()), places.get(then.as_str())) {
                prop_assert!(a < b, "{why}: `{first}` at {a}, `{then}` at {b}");
            }
        }
        prop_assert!(!plan.is_unsafe_by_options);
    }

    /// A balance bar opens one screw of each circuit together, as long as both
    /// have one left.
    #[test]
    fn a_balance_bar_pairs_its_circuits(case in cases()) {
        let network = &case.load();
        let plan = plan_of(network, &case)?;
        for step in &plan.steps {
            prop_assert!(!step.screws.is_empty() && step.screws.len() <= 2);
            if step.screws.len() == 2 {
                prop_assert!(case.layout.known.has_bar && case.options.method == Method::Pedal);
                prop_assert_ne!(&step.screws[0].circuit, &step.screws[1].circuit);
            }
        }
        let is_by_pedal = case.options.method == Method::Pedal;
        if case.layout.known.has_bar && case.options.done.is_empty() && is_by_pedal {
            let alone: BTreeSet<&str> = plan.steps.iter()
                .filter(|step| step.screws.len() == 1)
                .map(|step| step.screws[0].circuit.as_str())
                .filter(|circuit| *circuit != "clutch cylinder")
                .collect();
            prop_assert!(alone.len() <= 1, "opened alone on both sides: {alone:?}");
        }
    }

    #[test]
    fn the_order_of_the_file_is_irrelevant(case in cases()) {
        let mut other = case.clone();
        other.layout = case.layout.shuffled(&mut Choices::new(case.spare.clone()));
        let json = |case: &Case| -> Result<Value, TestCaseError> {
            let network = &case.load();
            let mut plan = plan_of(network, case)?;
            plan.findings.clear();
            Ok(serde_json::to_value(PlanJson::new(&plan, "")).expect("a plan is plain data"))
        };
        let difference = differing("plan", &json(&case)?, &json(&other)?);
        prop_assert!(difference.is_none(), "{difference:?}\nshuffled:{:?}", other.layout);
    }
}
