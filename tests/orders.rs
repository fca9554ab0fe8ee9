//! Orders: what handbooks print, what the pipework forces, what the user asks.

mod amounts;
mod apart;
mod bounded;
mod every_option;
mod given;
mod limits;
mod loops;

use crate::asked::{opening, with_purpose};
use crate::command_line::run;
use crate::demo::{ALL, load_demo, network_of, plan_demo, plan_of, screws};
use crate::table::rows;
use bleedwright_planner::{Giver, Options, OrderNote, Purpose, WhyBled};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// A vehicle, the options, what is said of the order (BW403, unsafe, or BW404), and the screws in their order; `...` for
/// the rest of them.
const ORDERS: &str = "
// Longest run first (NAVEDTRA 14329: most authorities bleed the longest line first); II split, right-hand drive, one hose
// to the rear axle.
lapwing | | | rear left, rear right, front left, front right
// Which circuit goes first is a free choice (common practice, no source).
lapwing | --circuit-first primary | | front left, front right, rear left, rear right
// NAVEDTRA 14329: others bleed the shortest line first.
lapwing | --begin nearest | | front right, front left, rear right, rear left
// X split, left-hand drive: diagonal by diagonal, the longest run first (common practice, no source).
plover | | | rear right, front left, rear left, front right
// NAVEDTRA 14329: if one line is suspect, bleed that one first.
lapwing | --opened 'front right hose' | | front right, front left
// With air in both circuits an empty primary leaves the secondary piston no stroke (follows from how a tandem cylinder is
// built; common practice), and `--circuit-first` changes nothing of that.
lapwing | --ran-dry 'front brakes' --ran-dry 'rear brakes' | | front left, front right, rear left, rear right
lapwing | --ran-dry 'front brakes' --ran-dry 'rear brakes' --for renew | | front left, front right, rear left, rear right
lapwing | --ran-dry 'front brakes' --ran-dry 'rear brakes' --for fill | | front left, front right, rear left, rear right
lapwing | --for fill --circuit-first secondary | BW404 | front left, ...
// The clutch is on the brakes' reservoir but not on their circuits.
ruff | | | rear left, rear right, front right, front left, clutch
// A list may be partial: the rest follows as derived.
lapwing | --order 'front right' | | front right, rear left, rear right, front left
// A screw on the anti-lock unit comes before what is fed through it.
godwit | --order 'rear left, unit primary' | BW403 | rear left, unit primary, ...
godwit | --order 'unit primary, rear left' | | unit primary, rear left, ...
// The lower of two cylinders side by side before the upper one.
whimbrel | --order 'rear left lower, rear left upper' | BW403 | rear left lower, rear left upper, ...
// The secondary circuit while the primary one is empty; with fluid everywhere the same order is the derived one.
lapwing | --for fill --order 'rear left, rear right, front left, front right' | BW403 | rear left, ...
lapwing | --for renew --order 'rear left, rear right, front left, front right' | | rear left, ...
";

#[test]
fn demo_vehicles_have_their_orders() {
    for [vehicle, options, code, wanted] in rows(ORDERS) {
        let call = format!("plan layouts/{vehicle}.ron {options} --format json");
        let run = run(&call);
        let is_unsafe = code == "BW403";
        let exit_code = if is_unsafe { 4 } else { 0 };
        assert_eq!(run.code, Some(exit_code), "{call}: {}", run.stderr);
        let plan: Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        assert_eq!(plan["is_unsafe"], is_unsafe, "{call}");
        let findings = plan["findings"].as_array().expect("a list").iter();
        let codes = findings.filter_map(|it| it["code"].as_str());
        let said = codes.filter(|code| ["BW403", "BW404"].contains(code));
        assert_eq!(said.collect::<Vec<_>>().join(", "), code, "{call}");
        let is_given = options.contains("--order");
        assert!(!is_given || plan["order_notes"] != json!([]), "{call}");
        let mut screws = Vec::new();
        for step in plan["steps"].as_array().expect("a list") {
            let opened = step["screws"].as_array().expect("a list").iter();
            screws.extend(opened.filter_map(|screw| screw["screw"].as_str()));
            // Nobody pumps more than a thousand times at one screw.
            let [low, high] = ["low", "high"].map(|end| step["strokes"][end].as_u64());
            assert!(
                low >= Some(1) && high.is_some_and(|high| high < 1000),
                "{call}"
            );
        }
        let found = screws.join(", ");
        match wanted.strip_suffix("...") {
            Some(first) => assert!(found.starts_with(first), "{call}: {found}"),
            None => assert_eq!(found, wanted, "{call}"),
        }
    }
}

/// With air nobody knows where, what is squeezed in the primary circuit is stroke that the secondary piston does not get
/// (common practice, no source).
#[test]
fn a_spongy_pedal_is_bled_from_the_primary_on() {
    let options = Options {
        purpose: Some(Purpose::Air),
        depressurised: true,
        ..Options::default()
    };
    let mut tandems = 0;
    for name in ALL {
        let network = &load_demo(name);
        if network.layout().maker_order.is_some() {
            continue;
        }
        let plan = plan_of(network, &options);
        let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
        for screw in plan.steps.iter().flat_map(|step| &step.screws) {
            let circuit = network.circuit(screw.circuit_id);
            let first = *seen
                .entry(circuit.cylinder)
                .or_insert(circuit.chamber_index);
            assert_eq!(first, 0, "{name}: `{}`", screw.screw);
            tandems += usize::from(circuit.chamber_index == 1);
        }
    }
    assert!(tandems > 6, "{tandems}");
}

/// What is drawn at the front of a diagonal split is nearer than the rear: without positions the axle tells, the side only
/// between wheels of one axle.
#[test]
fn of_equal_runs_the_rear_wheel_is_the_farther() {
    let network = network_of(
        r#"(format: 1, name: "Sanderling", fluid: dot4, split: X, steering: left,
          reservoirs: [(id: "pot", compartments: [(id: "one", max: "200 ml", feeds: "master.primary"),
            (id: "two", max: "200 ml", feeds: "master.secondary")])],
          cylinders: [(id: "master", kind: tandem(bore: "22 mm", primary: (stroke: "18 mm"), secondary: (stroke: "16 mm")),
            pedal_ratio: 4, free_play: "4 mm")],
          parts: [
            (id: "tee one", kind: tee), (id: "tee two", kind: tee),
            (id: "a", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_right, screws: [(id: "front right", at_top: true)]),
            (id: "b", kind: caliper(pistons: [(bore: "38 mm")]), wheel: rear_left, screws: [(id: "rear left", at_top: true)]),
            (id: "c", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left, screws: [(id: "front left", at_top: true)]),
            (id: "d", kind: caliper(pistons: [(bore: "38 mm")]), wheel: rear_right, screws: [(id: "rear right", at_top: true)])],
          lines: [
            (id: "1", from: "master.primary", to: "tee one", kind: pipe(size: "3/16 in", length: "0.5 m")),
            (id: "2", from: "tee one", to: "a", kind: pipe(size: "3/16 in", length: "2 m ± 1 m")),
            (id: "3", from: "tee one", to: "b", kind: pipe(size: "3/16 in", length: "2 m ± 1 m")),
            (id: "4", from: "master.secondary", to: "tee two", kind: pipe(size: "3/16 in", length: "0.5 m")),
            (id: "5", from: "tee two", to: "c", kind: pipe(size: "3/16 in", length: "2 m ± 1 m")),
            (id: "6", from: "tee two", to: "d", kind: pipe(size: "3/16 in", length: "2 m ± 1 m"))])"#,
    );
    let options = Options {
        circuit_first: Some("primary".to_owned()),
        ..Options::default()
    };
    let plan = plan_of(&network, &options);
    assert_eq!(
        screws(&plan),
        ["rear left", "front right", "rear right", "front left"]
    );
}

/// On one axle the longer run goes first, also within the tolerance, and the side only where lengths are equal. Where one
/// brake has no position no centimetres are compared with an axle.
#[test]
fn within_the_tolerance_the_axle_tells_then_the_length_then_the_side() {
    let order = |left: &str, right: &str, position: &str| {
        let text = format!(
            r#"(format: 1, name: "Sanderling", fluid: dot4, steering: left,
          reservoirs: [(id: "pot", compartments: [(id: "one", max: "200 ml", feeds: "master")])],
          cylinders: [(id: "master", kind: single(bore: "22 mm", stroke: "18 mm"), position: (x: "0 m", y: "0 m"))],
          parts: [(id: "block", kind: block),
            (id: "a", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left, {position} screws: [(id: "front left", at_top: true)]),
            (id: "b", kind: wheel_cylinder(bore: "20 mm"), wheel: rear_left, screws: [(id: "rear left", at_top: true)]),
            (id: "c", kind: wheel_cylinder(bore: "20 mm"), wheel: rear_right, screws: [(id: "rear right", at_top: true)])],
          lines: [
            (id: "1", from: "master", to: "block", kind: pipe(size: "3/16 in", length: "0.5 m")),
            (id: "2", from: "block", to: "a", kind: pipe(size: "3/16 in", length: "2 m ± 1 m")),
            (id: "3", from: "block", to: "b", kind: pipe(size: "3/16 in", length: "{left} ± 1 m")),
            (id: "4", from: "block", to: "c", kind: pipe(size: "3/16 in", length: "{right} ± 1 m"))])"#
        );
        let plan = plan_of(&network_of(&text), &Options::default());
        screws(&plan)
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<String>>()
    };
    let [left, right, front] = ["rear left", "rear right", "front left"];
    let position = "position: (x: \"1.5 m\", y: \"1.2 m\"),";
    assert_eq!(order("2.2 m", "2 m", ""), [left, right, front]);
    assert_eq!(order("2 m", "2 m", ""), [right, left, front]);
    assert_eq!(order("2 m", "2 m", position), [right, left, front]);
}

/// Under a balance bar a front and a rear screw are opened together: with one
/// circuit alone the bar tilts (common practice, no source).
#[test]
fn curlew_opens_a_front_and_a_rear_screw_together() {
    for purpose in [Purpose::Renew, Purpose::Air, Purpose::Fill] {
        let options = with_purpose(purpose);
        let plan = plan_demo("curlew", &options);
        assert_eq!(plan.steps.len(), 4, "{purpose:?}");
        for step in &plan.steps {
            let mut axles: Vec<&str> = step
                .screws
                .iter()
                .map(|screw| screw.wheel.expect("all of them sit on wheels").text())
                .map(|wheel| wheel.split(' ').next().expect("a wheel has a name"))
                .collect();
            axles.sort_unstable();
            assert_eq!(
                axles,
                ["front", "rear"],
                "{purpose:?}: step {}",
                step.number
            );
        }
    }
}

/// In the splits LL, HI and HH a caliper has two chambers that never meet
/// (DIN 74000, second-hand), so each has a screw in a circuit of its own.
#[test]
fn two_chamber_calipers_are_bled_in_both_circuits() {
    for (name, calipers, screws) in [("dunlin", 2, 6), ("redshank", 2, 6), ("avocet", 4, 8)] {
        let plan = plan_demo(name, &Options::default());
        let mut circuits: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        let mut count = 0;
        for screw in plan.steps.iter().flat_map(|step| &step.screws) {
            count += 1;
            // A chamber is printed as `part.chamber`.
            if let Some((part, _)) = screw.part.split_once('.') {
                circuits.entry(part).or_default().insert(&screw.circuit);
            }
        }
        assert_eq!(count, screws, "{name}");
        assert_eq!(circuits.len(), calipers, "{name}");
        assert!(
            circuits.values().all(|circuits| circuits.len() == 2),
            "{name}"
        );
    }
}

/// Only circuits that were opened need air removal: the other one is
/// hydraulically separate (FMVSS 135 S4: a failure in one does not impair the
/// other).
#[test]
fn opening_one_front_caliper_leaves_the_rear_circuit_alone() {
    let plan = plan_demo("lapwing", &opening(&["front left caliper"]));
    assert_eq!(screws(&plan), ["front left", "front right"]);
    assert_eq!(plan.head.purpose, Purpose::Air);
    let rear = plan
        .scope
        .iter()
        .find(|circuit| circuit.circuit == "secondary")
        .expect("lapwing's rear circuit is its secondary one");
    assert!(!rear.is_bled);
    assert_eq!(rear.why, WhyBled::Separate);
    let front = plan
        .scope
        .iter()
        .find(|circuit| circuit.circuit == "primary");
    assert!(front.expect("the front circuit is listed").is_bled);
}

/// NAVEDTRA 14329: of two cylinders on one wheel the upper first, then the
/// lower; but a cylinder that feeds another comes before it, or its air goes
/// into a line already clear (common practice, no source).
#[test]
fn whimbrel_bleeds_two_cylinders_a_wheel() {
    let plan = plan_demo("whimbrel", &Options::default());
    let place = |name: &str| {
        screws(&plan)
            .iter()
            .position(|screw| *screw == name)
            .unwrap_or_else(|| panic!("no screw `{name}`"))
    };
    for side in ["left", "right"] {
        let rear = |level: &str| place(&format!("rear {side} {level}"));
        let front = |level: &str| place(&format!("front {side} {level}"));
        assert!(rear("upper") < rear("lower"), "rear {side}: side by side");
        assert!(front("lower") < front("upper"), "front {side}: in series");
    }
}

/// Two brakes of one wheel that are each fed in series, lower to upper: every
/// screw still has its place.
#[test]
fn two_pairs_in_series_on_one_wheel() {
    let cylinder = |name: &str, place: &str| {
        format!(
            "(id: \"{name}\", kind: wheel_cylinder(bore: \"20 mm\"), wheel: front_left, \
             place: {place}, screws: [(id: \"screw of {name}\", at_top: true)])"
        )
    };
    let pipe = |from: &str, to: &str| {
        format!(
            "(id: \"{from} to {to}\", from: \"{from}\", to: \"{to}\", \
             kind: pipe(size: \"3/16 in\", length: \"0.4 m\"))"
        )
    };
    let text = format!(
        "(format: 1, name: \"Four cylinders\", fluid: dot4,
          reservoirs: [(id: \"pot\", compartments: [(id: \"all\", max: \"300 ml\", feeds: \"master\")])],
          cylinders: [(id: \"master\", kind: single(bore: \"20 mm\", stroke: \"25 mm\"))],
          parts: [(id: \"tee\", kind: tee), {}, {}, {}, {}],
          lines: [{}, {}, {}, {}, {}])",
        cylinder("a low", "lower"),
        cylinder("a high", "upper"),
        cylinder("b low", "lower"),
        cylinder("b high", "upper"),
        pipe("master", "tee"),
        pipe("tee", "a low"),
        pipe("a low", "a high"),
        pipe("tee", "b low"),
        pipe("b low", "b high"),
    );
    let network = network_of(&text);
    let plan = plan_of(&network, &Options::default());
    let mut found = screws(&plan);
    found.sort_unstable();
    assert_eq!(
        found,
        [
            "screw of a high",
            "screw of a low",
            "screw of b high",
            "screw of b low"
        ]
    );
}

/// Two screws on one cavity of which the layout does not say which is the top:
/// the plan must not depend on which of them is written first.
#[test]
fn two_screws_on_one_cavity_in_either_order() {
    let plan_with = |screws_text: &str| {
        let text = format!(
            "(format: 1, name: \"Two screws\", fluid: dot4,
              reservoirs: [(id: \"pot\", compartments: [(id: \"all\", max: \"300 ml\", feeds: \"master\")])],
              cylinders: [(id: \"master\", kind: single(bore: \"20 mm\", stroke: \"25 mm\"))],
              parts: [(id: \"caliper\", kind: caliper(pistons: [(bore: \"54 mm\")]), wheel: front_left,
                       screws: [{screws_text}])],
              lines: [(id: \"pipe\", from: \"master\", to: \"caliper\",
                       kind: pipe(size: \"3/16 in\", length: \"1 m\"))])"
        );
        let network = network_of(&text);
        let plan = plan_of(&network, &Options::default());
        screws(&plan).join(", ")
    };
    for (a, b) in [
        ("(id: \"a\")", "(id: \"b\")"),
        (
            "(id: \"a\", below_top: \"4 mm\")",
            "(id: \"b\", below_top: \"9 mm\")",
        ),
        ("(id: \"a\", at_top: true)", "(id: \"b\", at_top: true)"),
    ] {
        let (one, other) = (
            plan_with(&format!("{a}, {b}")),
            plan_with(&format!("{b}, {a}")),
        );
        assert_eq!(one, other, "{a} and {b}");
        assert_eq!(one, "a", "{a} and {b}: the higher one, else the first name");
    }
}

/// What the pipework gives instead of the maker's order is said where the two part.
#[test]
fn ruff_follows_its_makers_order() {
    let plan = plan_demo("ruff", &Options::default());
    let notes = plan.order_notes.as_slice();
    let [
        OrderNote::Followed {
            by: Giver::Maker, ..
        },
        OrderNote::Differs { place: 1, .. },
    ] = notes
    else {
        panic!("{notes:?}");
    };
}

/// A split is told from the pipework (DIN 74000, second-hand).
#[test]
fn splits_of_the_demo_vehicles() {
    for (name, split) in [
        ("lapwing", "II"),
        ("plover", "X"),
        ("godwit", "X"),
        ("curlew", "II"),
        ("dunlin", "LL"),
        ("redshank", "HI"),
        ("avocet", "HH"),
        ("whimbrel", "single"),
        ("turnstone", "single"),
        ("ruff", "II"),
    ] {
        let network = &load_demo(name);
        assert_eq!(network.split().word(), split, "{name}");
    }
}
