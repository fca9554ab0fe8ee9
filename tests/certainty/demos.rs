//! What is said of the demo vehicles and of layouts made for the purpose.

use crate::demo::{ALL, load_demo, network_of, plan_of};
use bleedwright_network::Code;
use bleedwright_planner::{Certainty, Options, OrderCertainty, Undecided, plan};

fn options() -> Options {
    Options {
        depressurised: true,
        ..Options::default()
    }
}

/// Two brakes on one tee, their pipes as long as given.
fn fork(left: &str, right: &str, more: &str) -> String {
    format!(
        "(format: 1, name: \"Fork\", steering: right, fluid: dot4,
          reservoirs: [(id: \"pot\", compartments: [(id: \"all\", max: \"300 ml\", feeds: \"master\")])],
          cylinders: [(id: \"master\", kind: single(bore: \"20 mm\", stroke: \"25 mm\"))],
          parts: [(id: \"tee\", kind: tee),
                  (id: \"left\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: rear_left,
                   screws: [(id: \"left screw\", at_top: true)]),
                  (id: \"right\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: rear_right,
                   screws: [(id: \"right screw\", at_top: true)])],
          lines: [(id: \"trunk\", from: \"master\", to: \"tee\",
                   kind: pipe(size: \"3/16 in\", length: \"5 m ± 1 m\")),
                  (id: \"left pipe\", from: \"tee\", to: \"left\",
                   kind: pipe(size: \"3/16 in\", length: \"{left}\")),
                  (id: \"right pipe\", from: \"tee\", to: \"right\",
                   kind: pipe(size: \"3/16 in\", length: \"{right}\")), {more}])"
    )
}

fn certainty_of(text: &str) -> (OrderCertainty, usize) {
    let network = &network_of(text);
    let planned = plan(network, &options());
    let advice = planned.findings.iter();
    let advice = advice.filter(|finding| finding.code == Code::OrderUncertain);
    let count = advice.count();
    (
        planned.plan.expect("it can be planned").order_certainty,
        count,
    )
}

/// A metre of tolerance on the trunk moves both runs alike.
#[test]
fn what_both_runs_share_cancels() {
    let (certainty, advice) = certainty_of(&fork("1.0 m ± 0.1 m", "0.7 m ± 0.1 m", ""));
    assert_eq!(certainty.verdict, Certainty::Certain);
    assert_eq!(advice, 0);
}

#[test]
fn a_pair_within_tolerance_is_named_with_its_difference_and_its_lines() {
    let (certainty, advice) = certainty_of(&fork("1.0 m ± 0.3 m", "0.8 m ± 0.1 m", ""));
    assert_eq!(certainty.verdict, Certainty::Uncertain);
    assert_eq!(certainty.uncertain_count, 1);
    assert_eq!(advice, 1);
    let pair = &certainty.uncertain[0];
    assert_eq!([&pair.first, &pair.then], ["left screw", "right screw"]);
    let metres = |length: uom::si::f64::Length| length.get::<uom::si::length::meter>();
    // 0.2 m nominal; -0.3 - 0.1 and +0.3 + 0.1 beside it.
    for (found, wanted) in [
        (metres(pair.difference.low), -0.2),
        (metres(pair.difference.nominal), 0.2),
        (metres(pair.difference.high), 0.6),
        (metres(pair.lines[0].range), 0.6),
        (metres(pair.lines[1].range), 0.2),
    ] {
        assert!((found - wanted).abs() < 1e-12, "{found} and {wanted}");
    }
    let names: Vec<&str> = pair.lines.iter().map(|line| line.line.as_str()).collect();
    assert_eq!(names, ["left pipe", "right pipe"]);
    assert_eq!(pair.measure, ["left pipe"]);
}

/// Runs that are written equally long: no measurement is asked for, since it
/// would only confirm that either may go first.
#[test]
fn equal_runs_ask_for_no_measurement() {
    let (certainty, advice) = certainty_of(&fork("1.0 m ± 0.1 m", "1.0 m ± 0.1 m", ""));
    assert_eq!(certainty.verdict, Certainty::Uncertain);
    assert!(certainty.uncertain[0].measure.is_empty());
    assert_eq!(advice, 0);
}

/// Without any tolerance there is nothing to turn round, ties included.
#[test]
fn exact_lengths_are_certain() {
    let (certainty, _) = certainty_of(&fork("1.0 m", "1.0 m", ""));
    assert_eq!(certainty.verdict, Certainty::Certain);
}

/// With a second way of open length the run itself may change: nothing is
/// claimed.
#[test]
fn an_open_loop_is_not_judged() {
    let second = |length: &str| {
        format!(
            "(id: \"second trunk\", from: \"master\", to: \"tee\", \
             kind: pipe(size: \"3/16 in\", length: \"{length}\")),"
        )
    };
    let text = fork("1.0 m ± 0.1 m", "0.5 m", &second("5.2 m ± 0.5 m"));
    let (certainty, _) = certainty_of(&text);
    assert!(
        matches!(certainty.verdict, Certainty::Undecided(Undecided::Loop(_))),
        "{certainty:?}"
    );
    assert!(!certainty.is_certain());
}

#[test]
fn a_given_order_does_not_rest_on_lengths() {
    let network = load_demo("lapwing");
    let order = ["rear right", "rear left", "front left", "front right"];
    let given = Options {
        order: Some(order.map(str::to_owned).into()),
        ..options()
    };
    let plan = plan_of(&network, &given);
    assert_eq!(plan.order_certainty.verdict, Certainty::Given);
}

/// The string on the lapwing's pipes was good enough: 0.55 m and 1.05 m more
/// on the left than on the right, within centimetres.
#[test]
fn lapwings_order_is_certain() {
    let plan = plan_of(&load_demo("lapwing"), &options());
    assert_eq!(plan.order_certainty.verdict, Certainty::Certain);
}

/// What is said of every demo is consistent in itself.
#[test]
fn every_demo_is_judged() {
    for name in ALL {
        let certainty = plan_of(&load_demo(name), &options()).order_certainty;
        let is_open = certainty.verdict == Certainty::Uncertain;
        assert_eq!(is_open, certainty.uncertain_count > 0, "{name}");
        for pair in &certainty.uncertain {
            assert!(!pair.lines.is_empty(), "{name}: {pair:?}");
            let bounds = pair.difference;
            assert!(bounds.low <= bounds.nominal && bounds.nominal <= bounds.high);
        }
    }
}
