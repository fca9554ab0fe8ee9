//! TM 10-3930-618-20: keep the reservoir at least half full while bleeding by
//! hand, since that empties it fast. The manual gives no other figure.
//!
//! TM 10-3930-633-12: the jar above the screw, the hose's end in fluid; the highest points of the front and rear lines first;
//! the pedal slowly to the board, and the screw shut before it returns.
//!
//! TM 10-3930-671-24: at least 5 to 10 slow full strokes; where no hose is fitted the screw is shut before the pedal returns.

use crate::command_line::run;
use crate::demo::{ALL, network_of, plan_demo};
use bleedwright_planner::Options;
use uom::si::volume::milliliter;

/// The lowest level that a plan lets a compartment with these marks fall to.
fn lowest_allowed_ml(marks: &str) -> f64 {
    let text = format!(
        r#"(
            format: 1, name: "Half full", fluid: dot4,
            reservoirs: [(id: "pot", compartments: [(id: "all", {marks}, feeds: "master")])],
            cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "20 mm"))],
            parts: [(id: "caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                     screws: [(id: "screw", at_top: true)])],
            lines: [(id: "pipe", from: "master", to: "caliper",
                     kind: pipe(size: "3/16 in", length: "1 m"))],
        )"#
    );
    let network = &network_of(&text);
    let compartment = &network.layout().reservoirs[0].compartments[0];
    (compartment.max.nominal - compartment.usable()).get::<milliliter>()
}

#[test]
fn the_level_stays_above_half() {
    for (marks, expected_ml) in [
        ("max: \"200 ml\"", 100.0),
        ("max: \"200 ml\", min: \"60 ml\"", 100.0),
        // A minimum mark above the half counts more than the half.
        ("max: \"200 ml\", min: \"140 ml\"", 140.0),
    ] {
        let found_ml = lowest_allowed_ml(marks);
        assert!((found_ml - expected_ml).abs() < 1e-9, "{marks}: {found_ml}");
    }
}

/// What the sheet of a vehicle says, in one line.
fn sheet(call: &str) -> String {
    run(&format!("plan {call}")).unwrapped()
}

#[test]
fn the_jar_stands_above_the_screw() {
    let said = sheet("layouts/lapwing.ron");
    assert!(
        said.contains(
            "Hose on, its end in fluid in the jar: ZERO marked there; jar above the screw"
        ),
        "{said}"
    );
}

/// Where air gathers at the highest point of a line its fitting comes before the first screw, and is nipped up before the
/// pedal rises.
#[test]
fn the_highest_point_comes_first() {
    let said = sheet("layouts/lapwing.ron --opened 'axle tee'");
    let at = |words: &str| {
        said.find(words)
            .unwrap_or_else(|| panic!("no `{words}` in {said}"))
    };
    let fitting = at("Air gathers at axle hose bracket: union a quarter turn");
    assert!(fitting < at("STEP ") && at("nipped up before the pedal rises") < at("STEP "));
}

/// Down, shut, and only then up: in this order, whether a hose is fitted or not.
#[test]
fn the_screw_is_shut_before_the_pedal_returns() {
    for name in ALL {
        let file = format!("layouts/{name}.ron");
        let said = sheet(&format!("'{file}' --depressurised"));
        let said = if said.is_empty() { sheet(&file) } else { said };
        let at = |word: &str| {
            said.find(word)
                .unwrap_or_else(|| panic!("{name}: no {word} in {said}"))
        };
        assert!(
            at("\"down\"") < at("\"shut\"") && at("\"shut\"") < at("\"up\""),
            "{name}"
        );
    }
}

/// At least 5 at every screw; the manual asks for 5 to 10.
#[test]
fn at_least_five_to_ten_strokes() {
    let plan = plan_demo("lapwing", &Options::default());
    for step in &plan.steps {
        let strokes = step.strokes().expect("by the pedal");
        assert!(strokes.nominal >= 5, "{:?}", step.screws);
    }
}
