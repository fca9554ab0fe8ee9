//! What the simulation does not follow is said beside its result.

use crate::command_line::run_with_input;
use crate::demo::demo_text;
use serde_json::Value;

fn simulated(layout: &str, options: &str) -> (Value, String) {
    let call = |format: &str| {
        let call = format!("simulate - --format {format} {options}");
        let run = run_with_input(&call, layout.as_bytes());
        assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
        run
    };
    let document = serde_json::from_str(&call("json").stdout).expect("it is JSON");
    (document, call("text").unwrapped())
}

fn assert_ml(left: &Value, wanted: [f64; 3]) {
    for (end, wanted) in ["low", "nominal", "high"].into_iter().zip(wanted) {
        let ml = left["ml"][end].as_f64().expect("a number");
        assert!((ml - wanted).abs() < 1e-9, "{end}: {ml}, not {wanted}");
    }
}

/// Two passages of 2.5 ml with half a millilitre more or less.
#[test]
fn the_trapped_volume_of_a_unit_is_said() {
    for (options, why, may_be_air, more) in [
        ("--for fill", "air behind its valves", true, ";"),
        ("", "old fluid behind its valves", false, "."),
    ] {
        let (document, text) = simulated(&demo_text("godwit"), options);
        let [left, ..] = &document["not_followed"].as_array().expect("a list")[..] else {
            panic!("{document:#}");
        };
        assert_eq!(left["part"], "anti-lock unit");
        assert_eq!(left["why"], why);
        assert_eq!(left["may_be_air"], may_be_air);
        assert_ml(left, [4.0, 5.0, 6.0]);
        let wanted = format!(
            "NOT FOLLOWED, in no figure here: `anti-lock unit` 5.0 ml (4.0-6.0) of {why}{more}"
        );
        assert!(text.contains(&wanted), "{text}");
    }
}

#[test]
fn air_above_a_screw_is_said() {
    let layout = demo_text("turnstone");
    let (document, text) = simulated(&layout, "--for fill");
    let [left] = &document["not_followed"].as_array().expect("a list")[..] else {
        panic!("{document:#}");
    };
    assert!(
        left["why"]
            .as_str()
            .expect("a text")
            .starts_with("air above the screw `rear`")
    );
    assert!(left["ml"]["nominal"].as_f64().expect("a number") > 0.1);
    assert!(text.contains("NOT FOLLOWED"), "{text}");
}

#[test]
fn a_vehicle_that_is_followed_whole_says_nothing() {
    let (document, text) = simulated(&demo_text("lapwing"), "");
    assert_eq!(document["not_followed"], serde_json::json!([]));
    assert!(!text.contains("NOT FOLLOWED"), "{text}");
}

/// No air left in what is followed is no promise where air may stay elsewhere.
#[test]
fn no_air_left_is_never_said_bare_where_air_may_stay() {
    for (name, kind, part) in [
        ("plover", "high_point", None),
        ("godwit", "high_point", Some("rear left pipe")),
        ("turnstone", "above_screw", None),
    ] {
        let (document, text) = simulated(&demo_text(name), "--for fill");
        let left = document["not_followed"].as_array().expect("a list");
        let is_it =
            |left: &&Value| left["kind"] == kind && part.is_none_or(|part| left["part"] == part);
        assert!(left.iter().any(|left| is_it(&left)), "{name}: {left:#?}");
        assert_eq!(document["is_air_left_the_least"], true, "{name}");
        assert!(
            text.contains(
                "AT THE END at least 0 ml of air left (0 % of the contents; see NOT FOLLOWED)"
            ),
            "{text}"
        );
        assert!(!text.contains("; left 0 ml air"), "{text}");
    }
}

/// The same where the layout does not say that a screw is the top.
#[test]
fn a_screw_not_known_to_be_on_top_is_said() {
    let layout = demo_text("lapwing");
    let (document, text) = simulated(&layout, "");
    assert_eq!(document["is_air_left_the_least"], false);
    assert!(text.contains("0 ml of air left ("), "{text}");
    let silent = layout.replacen("at_top: true, ", "", 1);
    assert_ne!(silent, layout);
    let (document, text) = simulated(&silent, "");
    let [left] = &document["not_followed"].as_array().expect("a list")[..] else {
        panic!("{document:#}");
    };
    assert_eq!(left["kind"], "perhaps_above_screw");
    assert!(left["ml"]["high"].as_f64().expect("a number") > 0.1);
    assert!(text.contains("which the layout does not say"), "{text}");
}
