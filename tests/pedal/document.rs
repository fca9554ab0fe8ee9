//! The JSON of the verb: the fields that are promised, on every demo vehicle.

use super::{document, words};
use crate::command_line::document::assert_holds_to_schema;
use crate::demo::{ALL, load_demo};
use bleedwright_pedal::controls;
use serde_json::Value;
use std::collections::BTreeSet;

fn number(value: &Value, at: &str) -> f64 {
    let found = value.pointer(at).and_then(Value::as_f64);
    found.unwrap_or_else(|| panic!("no number at {at}: {value}"))
}

fn list<'v>(value: &'v Value, field: &str) -> &'v [Value] {
    let found = value[field].as_array();
    found.unwrap_or_else(|| panic!("`{field}` is no list: {value}"))
}

/// Every pedal and lever of every demo vehicle, as arguments.
fn calls() -> Vec<String> {
    let mut calls = Vec::new();
    for name in ALL {
        let network = load_demo(name);
        for control in controls(&network) {
            let control = control.name;
            calls.push(format!("layouts/{name}.ron --control '{control}'"));
        }
    }
    calls
}

#[test]
fn a_pedal_has_its_fields() {
    let calls = calls();
    assert!(calls.len() >= ALL.len(), "{calls:?}");
    for call in calls {
        let pedal = document(&format!("{call} --force '300 N'"));
        assert_holds_to_schema("pedal", &call, &pedal);
        assert!(number(&pedal, "/force_n") > 0.0);
        // The rule is one of pedals.
        let control = pedal["control"].as_str().expect("a text");
        let is_lever = control.contains("lever");
        assert_eq!(pedal["reserve"].is_null(), is_lever, "{call}");
        let [lost, circuits] = ["lost", "pressure_bar"].map(|field| list(&pedal, field).len());
        assert_eq!(lost, circuits, "{call}");
        for field in ["contributions", "assumptions", "cautions", "pressure_bar"] {
            assert!(!list(&pedal, field).is_empty(), "{call}: {field}");
        }
        // Nothing was measured, so nothing is said of air.
        for field in ["air_ml", "readings_fit"] {
            assert!(pedal[field].is_null(), "{call}: {field}");
        }
        for field in ["air_in", "trials", "causes", "sizes"] {
            assert!(list(&pedal, field).is_empty(), "{call}: {field}");
        }
    }
}

#[test]
fn readings_give_air_with_its_bounds() {
    let call = "layouts/lapwing.ron --booster exhausted --measured '50 N: 50 mm' \
                --measured '300 N: 66 mm ± 1 mm' --pumped '300 N: 58 mm ± 1 mm'";
    let pedal = document(call);
    assert_holds_to_schema("pedal", call, &pedal);
    let nominal = number(&pedal, "/air_ml/nominal");
    assert!(nominal > 0.0, "{nominal}");
    assert_eq!(pedal["readings_fit"], true);
    let circuits: Vec<&Value> = list(&pedal, "air_in")
        .iter()
        .map(|it| &it["circuit"])
        .collect();
    assert_eq!(circuits, ["primary", "secondary"]);
    let trials = list(&pedal, "trials");
    assert!(!trials.is_empty());
    for trial in trials {
        assert!(number(trial, "/rise_if_behind_mm") >= number(trial, "/rise_if_not_mm"));
    }
}

#[test]
fn sizes_and_causes_have_their_fields() {
    let call = "layouts/curlew.ron --bore '0.7 in + 13/16 in' --bore '5/8 in' --ratio 6 \
                --share '55 %' --symptom low";
    let pedal = document(call);
    assert_holds_to_schema("pedal", call, &pedal);
    let sizes = list(&pedal, "sizes");
    assert_eq!(sizes.len(), 2);
    for size in sizes {
        assert!((number(size, "/pedal_ratio") - 6.0).abs() < 1e-12);
        assert!((number(size, "/bar_share") - 0.55).abs() < 1e-12);
    }
    assert!((number(&sizes[0], "/bores_mm/1") - 13.0 / 16.0 * 25.4).abs() < 1e-9);
    assert!(!list(&pedal, "causes").is_empty());
}

/// A range as the sheet shows it: rounded, and one figure where all three round to the same.
fn shown(value: &Value, at: &str, factor: f64, digits: usize, unit: &str) -> String {
    let [low, nominal, high] = ["low", "nominal", "high"].map(|end| {
        let rounded = format!(
            "{:.digits$}",
            factor * number(value, &format!("{at}/{end}"))
        );
        rounded.trim_end_matches(".0").to_owned()
    });
    if low == high {
        format!("{nominal} {unit}")
    } else {
        format!("{nominal} {unit} ({low}-{high})")
    }
}

/// Travel and stroke of a pressed pedal, as the sheet shows them.
fn shown_feel(feel: &Value) -> String {
    let stroke = shown(feel, "/stroke_share", 100.0, 0, "%");
    format!(
        "{}, {stroke} of the stroke",
        shown(feel, "/travel_mm", 1.0, 0, "mm")
    )
}

fn text<'v>(value: &'v Value, field: &str) -> &'v str {
    value[field].as_str().expect("a text")
}

/// Plover with and without readings: no figure of the document stands in the place of another.
#[test]
fn the_sheet_has_the_figures_of_the_document() {
    let plover = "layouts/plover.ron --booster exhausted";
    let (pedal, sheet) = (document(plover), words(plover));
    let says = |wanted: String| assert!(sheet.contains(&wanted), "{wanted}: {sheet}");
    for feel in list(&pedal, "forces") {
        says(format!(
            "{} N {}",
            number(feel, "/force_n"),
            shown_feel(feel)
        ));
    }
    says(format!("300 N {}", shown_feel(&pedal)));
    says(shown(&pedal["reserve"], "/stroke_share", 100.0, 0, "%") + " of the travel");
    for lost in list(&pedal, "lost") {
        says(format!(
            "{} lost: {}",
            text(lost, "circuit"),
            shown_feel(lost)
        ));
    }
    for circuit in list(&pedal, "pressure_bar") {
        for part in list(circuit, "parts") {
            let pressure = shown(part, "/pressure_bar", 1.0, 0, "bar");
            says(format!(
                "{} ({}): {pressure}",
                text(part, "part"),
                text(circuit, "circuit")
            ));
        }
    }
    for taker in list(&pedal, "contributions") {
        says(format!(
            ", {}: {}",
            text(taker, "circuit"),
            shown(taker, "/ml", 1.0, 1, "ml")
        ));
    }
    for reservoir in list(&pedal, "reservoirs") {
        says(format!(
            "{}, {}: pistons take {}, it holds {} at its maximum mark",
            text(reservoir, "reservoir"),
            text(reservoir, "compartment"),
            shown(reservoir, "/needed_ml", 1.0, 0, "ml"),
            shown(reservoir, "/holds_ml", 1.0, 0, "ml"),
        ));
    }

    let found = format!("{plover} --measured '300 N: 70 mm' --symptom hard");
    let (pedal, sheet) = (document(&found), words(&found));
    let says = |wanted: String| assert!(sheet.contains(&wanted), "{wanted}: {sheet}");
    says("In all: ".to_owned() + &shown(&pedal, "/air_ml", 1.0, 1, "ml"));
    for air in list(&pedal, "air_in") {
        let amount = shown(air, "/air_ml", 1.0, 1, "ml");
        says(format!("all of it in {}: {amount}", text(air, "circuit")));
    }
    // Each trial is a place and what the pedal does.
    let lines: Vec<&str> = sheet.split("the pedal stands ").collect();
    for (nth, trial) in list(&pedal, "trials").iter().enumerate() {
        let [behind, not] = ["/rise_if_behind_mm", "/rise_if_not_mm"].map(|at| number(trial, at));
        let rise = format!("{behind:.0} mm higher if the air is behind it, {not:.0} mm if not");
        assert!(
            lines[nth].contains(text(trial, "place")),
            "{trial}: {sheet}"
        );
        assert!(lines[nth + 1].starts_with(&rise), "{trial}: {sheet}");
    }
    for (nth, cause) in list(&pedal, "causes").iter().enumerate() {
        let [cause, check] = ["cause", "check"].map(|field| text(cause, field));
        says(format!("{} {cause} to tell: {check}", nth + 1));
    }
    for field in ["assumptions", "cautions"] {
        let texts = list(&pedal, field)
            .iter()
            .map(|it| it.as_str().expect("a text"));
        texts.for_each(|text| says(text.to_owned()));
    }
}

/// On every vehicle each cause of a symptom has words and a check of its own.
#[test]
fn every_cause_has_its_own_check() {
    for call in calls() {
        for symptom in "low rises-when-pumped springy sinking hard soft-again".split(' ') {
            let pedal = document(&format!("{call} --symptom {symptom}"));
            let causes = list(&pedal, "causes");
            for field in ["cause", "check"] {
                let said: BTreeSet<&str> = causes.iter().map(|it| text(it, field)).collect();
                assert!(!said.contains(""), "{call}, {symptom}: {causes:?}");
                assert_eq!(said.len(), causes.len(), "{call}, {symptom}: {causes:?}");
            }
        }
    }
}

/// Air that was said to be there stands among what takes up the fluid, in its circuit alone.
#[test]
fn air_that_is_said_is_counted() {
    let pedal = document("layouts/lapwing.ron --air '2 ml' --air-in secondary");
    let air: Vec<&Value> = list(&pedal, "contributions")
        .iter()
        .filter(|taker| taker["what"] == "air")
        .collect();
    assert_eq!(air.len(), 1, "{air:?}");
    assert_eq!(air[0]["circuit"], "secondary");
    // Boyle's law at the chamber's 105.534 bar (see `hand`): 2 x (1 - 1.01325 / 106.547) = 1.981 ml.
    assert!(
        (number(air[0], "/ml/nominal") - 1.981).abs() <= 5e-4,
        "{air:?}"
    );
}
