//! JSON documents and their schemas.

use super::{document, run};
use crate::binary::root;
use crate::demo::ALL;
use crate::lines::in_lines;
use bleedwright_report::json::{
    CheckJson, ComparisonJson, FluidJson, OrdersJson, PedalJson, PlanJson, ReadingsJson,
    SimulationJson, VolumesJson, schema,
};
use serde_json::Value;

/// The kinds of value that a field may have.
#[derive(Clone, Copy, Debug)]
enum Kind {
    Number,
    NumberOrNull,
    Text,
    TextOrNull,
    List,
    Fields(&'static [(&'static str, Kind)]),
}

fn assert_is(at: &str, value: &Value, kind: Kind) {
    let fits = match kind {
        Kind::Number => value.is_number(),
        Kind::NumberOrNull => value.is_number() || value.is_null(),
        Kind::Text => value.is_string(),
        Kind::TextOrNull => value.is_string() || value.is_null(),
        Kind::List => value.is_array(),
        Kind::Fields(fields) => {
            assert_has(at, value, fields);
            true
        }
    };
    assert!(fits, "{at} is not {kind:?}: {value}");
}

fn assert_has(at: &str, value: &Value, fields: &[(&str, Kind)]) {
    for (field, kind) in fields {
        let inner = value
            .get(field)
            .unwrap_or_else(|| panic!("{at} has no field `{field}`: {value}"));
        assert_is(&format!("{at}.{field}"), inner, *kind);
    }
}

fn list<'v>(value: &'v Value, field: &str) -> &'v [Value] {
    value[field]
        .as_array()
        .unwrap_or_else(|| panic!("`{field}` is no list"))
}

const RANGE: Kind = Kind::Fields(&[
    ("low", Kind::Number),
    ("nominal", Kind::Number),
    ("high", Kind::Number),
]);

const CONTENTS: Kind = Kind::Fields(&[
    ("shared", Kind::Number),
    ("own", Kind::Number),
    ("cavities", Kind::Number),
]);

#[test]
fn a_plan_has_its_fields() {
    for name in ALL {
        let plan = document(&format!("plan layouts/{name}.ron --format json"));
        assert_has(
            name,
            &plan,
            &[
                ("schema_version", Kind::Number),
                ("split", Kind::Text),
                ("steps", Kind::List),
                (
                    "buy",
                    Kind::Fields(&[("needed_ml", Kind::Number), ("bottles", Kind::List)]),
                ),
                ("preparations", Kind::List),
                ("checks_after", Kind::List),
                ("cautions", Kind::List),
                ("assumptions", Kind::List),
                ("findings", Kind::List),
            ],
        );
        assert!(!list(&plan, "cautions").is_empty(), "{name}");
        for step in list(&plan, "steps") {
            assert_has(
                name,
                step,
                &[
                    ("number", Kind::Number),
                    ("screws", Kind::List),
                    ("push_ml", RANGE),
                    ("plug_ml", Kind::Number),
                    ("contents_ml", CONTENTS),
                    ("old_fraction_out", Kind::NumberOrNull),
                    (
                        "strokes",
                        Kind::Fields(&[("low", Kind::Number), ("high", Kind::Number)]),
                    ),
                    ("pedal_mm", RANGE),
                    ("stroke_ml", RANGE),
                    ("taken_up_ml", RANGE),
                    ("hold_s", Kind::Number),
                    ("top_up_after", Kind::List),
                    ("stop_rule", Kind::Fields(&[("at_least_ml", Kind::Number)])),
                    ("jar_mark_ml", Kind::Number),
                    ("reasons", Kind::List),
                ],
            );
            assert!(!list(step, "reasons").is_empty(), "{name}");
            for screw in list(step, "screws") {
                assert_has(
                    name,
                    screw,
                    &[
                        ("screw", Kind::Text),
                        ("part", Kind::Text),
                        ("wheel", Kind::TextOrNull),
                        ("circuit", Kind::Text),
                        ("run_length_m", Kind::Number),
                        ("push_ml", RANGE),
                        ("plug_ml", Kind::Number),
                        ("contents_ml", CONTENTS),
                        ("old_fraction_out", Kind::NumberOrNull),
                    ],
                );
            }
            let sum: f64 = list(step, "screws")
                .iter()
                .map(|screw| screw["push_ml"]["nominal"].as_f64().expect("a number"))
                .sum();
            let push = step["push_ml"]["nominal"].as_f64().expect("a number");
            assert!((push - sum).abs() < 1e-9 * push, "{name}: {push} and {sum}");
        }
        let texts: Vec<&str> = list(&plan, "steps")
            .iter()
            .flat_map(|step| list(step, "screws"))
            .filter_map(|screw| screw["wheel"].as_str())
            .collect();
        // Wheels are written as in the layout file.
        assert!(texts.iter().all(|wheel| !wheel.contains(' ')), "{texts:?}");
    }
}

/// Between every two neighbours there is a reason.
#[test]
fn every_step_but_the_first_says_why_it_follows() {
    for name in ALL {
        let plan = document(&format!("plan layouts/{name}.ron --format json"));
        for (nth, step) in list(&plan, "steps").iter().enumerate() {
            let reasons = list(step, "reasons");
            let least = if nth == 0 { 1 } else { 2 };
            assert!(
                reasons.len() >= least,
                "{name}: step {}: {reasons:?}",
                nth + 1
            );
            let is_said = |reason: &Value| reason.as_str().is_some_and(|text| !text.is_empty());
            assert!(reasons.iter().all(is_said), "{name}: {reasons:?}");
        }
    }
}

#[test]
fn volumes_have_their_fields() {
    for name in ALL {
        let volumes = document(&format!("volumes layouts/{name}.ron --format json"));
        assert_has(
            name,
            &volumes,
            &[
                ("schema_version", Kind::Number),
                ("lines", Kind::List),
                ("parts", Kind::List),
                ("circuits", Kind::List),
                ("total_ml", RANGE),
            ],
        );
        for line in list(&volumes, "lines") {
            assert_has(
                name,
                line,
                &[
                    ("id", Kind::Text),
                    ("contents_ml", RANGE),
                    ("length_m", RANGE),
                ],
            );
        }
        for circuit in list(&volumes, "circuits") {
            assert_has(name, circuit, &[("name", Kind::Text), ("total_ml", RANGE)]);
        }
    }
}

#[test]
fn findings_have_their_fields() {
    let fields = [
        ("code", Kind::Text),
        ("severity", Kind::Text),
        ("message", Kind::Text),
        ("line", Kind::NumberOrNull),
        ("column", Kind::NumberOrNull),
        ("option", Kind::TextOrNull),
        ("allowed", Kind::TextOrNull),
        ("help", Kind::Text),
        ("also", Kind::List),
    ];
    let good = document("check layouts/godwit.ron --format json");
    assert_eq!(good["is_sound"], Value::Bool(true));
    assert_eq!(good["split"], "X");
    let path = "tests/layouts/broken/four_values_wrong_at_once.ron";
    let broken = run(&format!("check '{path}' --format json"));
    assert_eq!(broken.code, Some(3));
    let broken: Value = serde_json::from_str(&broken.stdout).expect("errors are JSON too");
    assert_eq!(broken["is_sound"], Value::Bool(false));
    assert!(list(&broken, "findings").len() >= 4);
    for sheet in [good, broken] {
        assert_has(
            "check",
            &sheet,
            &[("schema_version", Kind::Number), ("file", Kind::Text)],
        );
        for finding in list(&sheet, "findings") {
            assert_has("finding", finding, &fields);
        }
    }
}

/// A plan that cannot be made is told in JSON too, where JSON was asked for.
#[test]
fn a_refusal_is_json_as_well() {
    let run = run("plan layouts/lapwing.ron --skip nobody --format json");
    assert_eq!(run.code, Some(2));
    let document: Value = serde_json::from_str(&run.stdout).expect("a refusal is JSON");
    let finding = &list(&document, "findings")[0];
    assert_eq!(finding["code"], "BW401");
    assert_eq!(finding["option"], "--skip");
}

/// The schemas in docs/schema are those of the program. With
/// `BLEEDWRIGHT_UPDATE=1` in the environment they are written anew.
#[test]
fn schemas_are_committed() {
    let folder = root().join("docs/schema");
    let is_update = std::env::var_os("BLEEDWRIGHT_UPDATE").is_some_and(|value| value == "1");
    for (name, current) in [
        ("check", schema::<CheckJson>()),
        ("comparison", schema::<ComparisonJson>()),
        ("fluid", schema::<FluidJson>()),
        ("orders", schema::<OrdersJson>()),
        ("pedal", schema::<PedalJson>()),
        ("plan", schema::<PlanJson>()),
        ("readings", schema::<ReadingsJson>()),
        ("simulation", schema::<SimulationJson>()),
        ("volumes", schema::<VolumesJson>()),
    ] {
        let path = folder.join(format!("{name}.json"));
        let current = in_lines(&current, 120);
        if is_update {
            std::fs::create_dir_all(&folder).expect("docs can be written to");
            std::fs::write(&path, &current).expect("docs/schema can be written to");
        }
        let committed = std::fs::read_to_string(&path)
            .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        assert!(
            committed == current,
            "docs/schema/{name}.json is out of date; BLEEDWRIGHT_UPDATE=1 writes it anew"
        );
    }
}
