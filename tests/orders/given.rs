//! Orders that the maker or the user gives.

use crate::asked::with_purpose;
use crate::demo::{network_of, plan_demo, plan_of, screws};
use bleedwright_network::Network;
use bleedwright_planner::{Giver, Options, OrderNote, Purpose};

fn ordered(names: &[&str]) -> Options {
    Options {
        order: Some(names.iter().map(|name| (*name).to_owned()).collect()),
        ..Options::default()
    }
}

/// Real routines visit a screw twice; the second visit needs less.
#[test]
fn a_screw_may_be_visited_twice() {
    let names = [
        "rear left",
        "rear right",
        "rear left",
        "front left",
        "front right",
    ];
    let plan = plan_demo("lapwing", &ordered(&names));
    assert_eq!(screws(&plan), names);
    let push = |step: usize| plan.steps[step].push.nominal;
    assert!(push(2) < push(0), "{:?} and {:?}", push(2), push(0));
    assert!(!plan.is_unsafe_by_options);
}

/// In the derived order the user's list changes nothing but the reasons.
#[test]
fn the_derived_order_as_a_list() {
    let derived = plan_demo("plover", &Options::default());
    let names = screws(&derived);
    let given = plan_demo("plover", &ordered(&names));
    assert_eq!(screws(&given), names);
    assert!(!given.is_unsafe_by_options);
    for (a, b) in derived.steps.iter().zip(&given.steps) {
        assert_eq!(a.push, b.push);
        assert_eq!(a.strokes(), b.strokes());
    }
}

fn lapwing_with(maker_order: &str) -> Network {
    let text = crate::demo::demo_text("lapwing");
    let end = text.rfind(')').expect("a layout ends with a bracket");
    let text = format!("{}    maker_order: {maker_order},\n)\n", &text[..end]);
    network_of(&text)
}

/// The maker's manual wins over the pipework, and the plan says so.
#[test]
fn the_makers_order_is_followed_and_the_difference_said() {
    let network = lapwing_with(r#"["front left", "front right", "rear left", "rear right"]"#);
    let plan = plan_of(&network, &Options::default());
    assert_eq!(
        screws(&plan),
        ["front left", "front right", "rear left", "rear right"]
    );
    let rear_first = ["rear left", "rear right", "front left", "front right"];
    let notes = [
        OrderNote::Followed {
            by: Giver::Maker,
            pipework: rear_first.map(str::to_owned).to_vec(),
        },
        OrderNote::Differs {
            place: 1,
            given: "front left".to_owned(),
            pipework: "rear left".to_owned(),
        },
    ];
    assert_eq!(plan.order_notes, notes);
    // `--order` wins over the maker's.
    let plan = plan_of(&network, &ordered(&["rear right"]));
    assert_eq!(screws(&plan)[0], "rear right");
}

#[test]
fn a_makers_order_that_agrees_is_said_to_agree() {
    let network = lapwing_with(r#"["rear left", "rear right", "front left", "front right"]"#);
    let plan = plan_of(&network, &Options::default());
    assert_eq!(plan.order_notes, [OrderNote::Agrees(Giver::Maker)]);
}

/// A maker's order against the rules of the pipework is a warning and no more:
/// the manual governs.
#[test]
fn an_unsafe_makers_order_is_a_warning() {
    let network = lapwing_with(r#"["rear left", "rear right", "front left", "front right"]"#);
    let options = with_purpose(Purpose::Fill);
    let planned = bleedwright_planner::plan(&network, &options);
    let found: Vec<&str> = planned
        .findings
        .iter()
        .map(|finding| finding.code.text())
        .collect();
    assert!(found.contains(&"BW312"), "{found:?}");
    let plan = planned.plan.expect("a warning stops nothing");
    assert!(!plan.is_unsafe_by_options);
    assert_eq!(screws(&plan)[0], "rear left");
}

/// What was done yesterday is not done again, but its history counts.
#[test]
fn a_resumed_job_keeps_its_history() {
    let whole = plan_demo("lapwing", &Options::default());
    let options = Options {
        done: vec!["rear left".to_owned()],
        ..Options::default()
    };
    let rest = plan_demo("lapwing", &options);
    assert_eq!(screws(&rest), ["rear right", "front left", "front right"]);
    for (rest, whole) in rest.steps.iter().zip(&whole.steps[1..]) {
        assert_eq!(rest.push, whole.push);
    }
    assert_eq!(rest.steps[0].number, 1);
}
