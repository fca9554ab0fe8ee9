//! Values set at random, written ones and those that are not.

use super::edit::others;
use crate::demo::{self, demo_text};
use bleedwright_drafting::{EditError, NamedValue, named_values, set_values};
use bleedwright_network::EntryKind;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};
use std::cell::Cell;

const VALUES: [&str; 16] = [
    "0.5 m",
    "20 mm ± 1 mm",
    "3.2 mm",
    "2 ml",
    "30 bar",
    "9 N m",
    "0.4",
    "4.5",
    "0.75 mm",
    "1/2 in",
    "11 mm",
    "",
    "a \"b\" \\",
    "x\", id: \"y",
    "(a: 1)",
    "// x",
];

/// Comments and everything else outside quotes, without blanks.
fn comments(text: &str) -> Vec<&str> {
    text.lines()
        .filter_map(|line| line.find("//").map(|at| line[at..].trim_end()))
        .collect()
}

/// Whether the second text is the first with pieces put in.
fn is_only_added_to(before: &str, after: &str) -> bool {
    let mut after = after.chars();
    before.chars().all(|c| after.any(|other| other == c))
}

fn value_for(value: &NamedValue, choice: Index, is_fitting: bool) -> String {
    let fitting = if is_fitting && value.value.is_some() || value.kind != EntryKind::Quantity {
        others(value)
    } else {
        VALUES.iter().map(|&value| value.to_owned()).collect()
    };
    choice.get(&fitting).clone()
}

#[test]
fn what_is_set_at_random_is_set_alone_or_not_at_all() {
    let config = ProptestConfig {
        cases: 500,
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config, rng);
    let strategy = (
        select(demo::ALL.to_vec()),
        any::<Index>(),
        any::<Index>(),
        any::<bool>(),
        any::<bool>(),
    );
    let (set, added) = (Cell::new(0), Cell::new(0));
    let check = |(demo, name, choice, is_fitting, is_hostile): (&str, Index, Index, bool, bool)| {
        let text = demo_text(demo);
        let values = named_values(&text).expect("the demo files have no slips");
        let value = name.get(&values);
        let given = if is_hostile && !is_fitting {
            choice.get(&VALUES[..]).to_string()
        } else {
            value_for(value, choice, is_fitting)
        };
        let edited = match set_values(&text, &[(&value.name, &given)]) {
            Ok(edited) => edited,
            Err(EditError::Breaks { .. } | EditError::WrongKind { .. }) => return Ok(()),
            Err(EditError::Stepped { .. }) if value.name.ends_with("ary bore") => return Ok(()),
            Err(error) => return Err(TestCaseError::fail(format!("{}: {error}", value.name))),
        };
        set.set(set.get() + 1);
        // A value of several lines may have one that looks like a comment.
        if !given.contains("//") {
            prop_assert_eq!(comments(&edited.text), comments(&text));
        }
        let now = named_values(&edited.text).expect("an edited text was loaded");
        let found = now.iter().find(|now| now.name == value.name);
        if let Some(found) = found {
            prop_assert_eq!(found.value.as_deref(), Some(given.as_str()));
        } else {
            // Only its own name is gone, with everything that is called by it.
            prop_assert!(value.name.ends_with(" id") || value.name.ends_with(" inlet"));
        }
        match (&value.value, found) {
            (Some(before), Some(_)) => {
                let back = set_values(&edited.text, &[(&value.name, before)]);
                let back = back.map_err(|error| TestCaseError::fail(error.to_string()))?;
                prop_assert!(back.text == text, "{} set back", value.name);
            }
            (Some(_), None) => {}
            (None, _) => {
                added.set(added.get() + 1);
                prop_assert!(is_only_added_to(&text, &edited.text));
            }
        }
        Ok(())
    };
    runner
        .run(&strategy, check)
        .unwrap_or_else(|failure| panic!("{failure}"));
    // Otherwise the cases say nothing.
    assert!(set.get() > 100 && added.get() > 20, "{set:?} {added:?}");
}
