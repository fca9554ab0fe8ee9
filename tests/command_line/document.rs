//! JSON documents and their schemas.

use super::{document, run};
use crate::binary::root;
use crate::demo::ALL;
use crate::lines::in_lines;
use crate::table::rows;
use bleedwright_report::json::{
    CheckJson, ComparisonJson, FluidJson, OrdersJson, PedalJson, PlanJson, ReadingsJson,
    SimulationJson, VolumesJson, schema,
};
use serde_json::Value;

fn list<'v>(value: &'v Value, field: &str) -> &'v [Value] {
    value[field]
        .as_array()
        .unwrap_or_else(|| panic!("`{field}` is no list"))
}

/// What is wrong with a document by the words of JSON Schema that ours use; every field of a structure is written, no
/// text is empty but what nobody says, and every range is in order.
fn complaint(all: &Value, schema: &Value, value: &Value, at: &str) -> Option<String> {
    if let Some(reference) = schema["$ref"].as_str() {
        let defined = all.pointer(reference.trim_start_matches('#'));
        let defined = defined.unwrap_or_else(|| panic!("{reference} is not defined"));
        return complaint(all, defined, value, at);
    }
    for word in ["anyOf", "oneOf"] {
        if let Some(choices) = schema[word].as_array() {
            let mut of_each = choices.iter().map(|it| complaint(all, it, value, at));
            return if of_each.any(|it| it.is_none()) {
                None
            } else {
                Some(format!("{at} is none of its kinds: {value}"))
            };
        }
    }
    let is_kind = |kind: &Value| match kind.as_str() {
        Some("object") => value.is_object(),
        Some("array") => value.is_array(),
        Some("string") => value
            .as_str()
            .is_some_and(|text| !text.is_empty() || at.ends_with("/says")),
        Some("boolean") => value.is_boolean(),
        Some("integer") => value.is_i64() || value.is_u64(),
        Some("number") => value.is_number(),
        Some("null") => value.is_null(),
        _ => panic!("{at}: no kind of value: {kind}"),
    };
    let kinds = schema["type"].as_array().cloned();
    let kinds = kinds.unwrap_or_else(|| vec![schema["type"].clone()]);
    if schema.get("const").is_some_and(|only| only != value) || !kinds.iter().any(is_kind) {
        return Some(format!("{at} is not {kinds:?}: {value}"));
    }
    if let Some(items) = value.as_array() {
        let mut items = items.iter().enumerate();
        return items
            .find_map(|(nth, it)| complaint(all, &schema["items"], it, &format!("{at}/{nth}")));
    }
    let fields = value.as_object()?;
    let ends = ["low", "nominal", "high"].map(|end| fields.get(end).and_then(Value::as_f64));
    if let [Some(low), Some(nominal), Some(high)] = ends
        && !(low <= nominal && nominal <= high && (low >= 0.0 || at.ends_with("difference_m")))
    {
        return Some(format!("{at} is no range: {value}"));
    }
    let properties = schema["properties"].as_object()?;
    if let Some(unknown) = fields.keys().find(|it| !properties.contains_key(*it)) {
        return Some(format!("{at}/{unknown} is not in the schema"));
    }
    properties
        .iter()
        .find_map(|(name, property)| match fields.get(name) {
            Some(field) => complaint(all, property, field, &format!("{at}/{name}")),
            None => Some(format!("{at}/{name} is missing")),
        })
}

pub(crate) fn assert_holds_to_schema(name: &str, what: &str, document: &Value) {
    let path = root().join(format!("docs/schema/{name}.json"));
    let text = std::fs::read_to_string(path).expect("the schema is committed");
    let schema = serde_json::from_str(&text).expect("a schema is JSON");
    let complaint = complaint(&schema, &schema, document, "");
    assert_eq!(complaint, None, "{what}");
}

/// The name of a schema, and a call.
const CALLS: &str = "
check | check layouts/godwit.ron
comparison | compare layouts/lapwing.ron layouts/plover.ron
comparison | compare layouts/godwit.ron --with '--for fill'
fluid | fluid --grade dot4 --moisture '2.5 %' --bottle-moisture '0.4 %' --label-wet '311 degF'
orders | compare layouts/lapwing.ron --orders --most-orders 10
pedal | pedal layouts/lapwing.ron --booster exhausted --measured '300 N: 66 mm' --symptom low
pedal | pedal layouts/curlew.ron --bore '5/8 in' --ratio 6 --share '55 %'
plan | plan layouts/godwit.ron --opened 'anti-lock unit'
plan | plan layouts/whimbrel.ron --method gravity
simulation | simulate layouts/plover.ron --for air
simulation | simulate layouts/lapwing.ron --for fill
";

#[test]
fn documents_hold_to_their_schemas() {
    for [schema, call] in rows(CALLS) {
        let found = document(&format!("{call} --format json"));
        assert_holds_to_schema(schema, call, &found);
    }
    for name in ALL {
        let volumes = document(&format!("volumes layouts/{name}.ron --format json"));
        assert_holds_to_schema("volumes", name, &volumes);
    }
}

#[test]
fn a_plan_has_its_fields() {
    for name in ALL {
        let plan = document(&format!("plan layouts/{name}.ron --format json"));
        assert_holds_to_schema("plan", name, &plan);
        assert!(!list(&plan, "cautions").is_empty(), "{name}");
        for (nth, step) in list(&plan, "steps").iter().enumerate() {
            // By the pedal none of these is left out.
            for field in ["strokes", "pedal_mm", "stroke_ml", "taken_up_ml", "hold_s"] {
                assert!(!step[field].is_null(), "{name}: {field}");
            }
            // Between every two neighbours there is a reason.
            let reasons = list(step, "reasons");
            let least = if nth == 0 { 1 } else { 2 };
            assert!(reasons.len() >= least, "{name}: {nth}: {reasons:?}");
            let is_said = |reason: &Value| reason.as_str().is_some_and(|text| !text.is_empty());
            assert!(reasons.iter().all(is_said), "{name}: {reasons:?}");
            let pushes = list(step, "screws").iter().map(|screw| &screw["push_ml"]);
            let sum: f64 = pushes
                .map(|push| push["nominal"].as_f64().expect("a number"))
                .sum();
            let push = step["push_ml"]["nominal"].as_f64().expect("a number");
            assert!((push - sum).abs() < 1e-9 * push, "{name}: {push} and {sum}");
            // Wheels are written as in the layout file.
            for screw in list(step, "screws") {
                let wheel = screw["wheel"].as_str().unwrap_or_default();
                assert!(!wheel.contains(' '), "{name}: {wheel}");
            }
        }
    }
}

#[test]
fn findings_are_told_in_json() {
    let good = document("check layouts/godwit.ron --format json");
    assert_eq!(good["is_sound"], Value::Bool(true));
    assert_eq!(good["split"], "X");
    let broken = run("check tests/layouts/broken/four_values_wrong_at_once.ron --format json");
    assert_eq!(broken.code, Some(3));
    let broken: Value = serde_json::from_str(&broken.stdout).expect("errors are JSON too");
    assert_eq!(broken["is_sound"], Value::Bool(false));
    assert!(list(&broken, "findings").len() >= 4);
    assert_holds_to_schema("check", "a broken layout", &broken);
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
