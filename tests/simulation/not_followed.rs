//! What the simulation does not follow is said beside its result.

use crate::binary::root;
use crate::command_line::run_with_input;
use serde_json::Value;

fn simulated(layout: &str, options: &[&str]) -> (Value, String) {
    let call = |format: &str| {
        let call = [&["simulate", "-", "--format", format], options].concat();
        let run = run_with_input(&call, layout.as_bytes());
        assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
        run
    };
    let document = serde_json::from_str(&call("json").stdout).expect("it is JSON");
    (document, call("text").unwrapped())
}

fn demo(name: &str) -> String {
    let path = root().join(format!("layouts/{name}.ron"));
    std::fs::read_to_string(path).expect("a demo layout can be read")
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
    for (options, why, may_be_air) in [
        (&["--for", "fill"][..], "air behind its valves", true),
        (&[], "old fluid behind its valves", false),
    ] {
        let (document, text) = simulated(&demo("godwit"), options);
        let [left] = &document["not_followed"].as_array().expect("a list")[..] else {
            panic!("{document:#}");
        };
        assert_eq!(left["part"], "anti-lock unit");
        assert_eq!(left["why"], why);
        assert_eq!(left["may_be_air"], may_be_air);
        assert_ml(left, [4.0, 5.0, 6.0]);
        let wanted =
            format!("NOT FOLLOWED, in no figure here: `anti-lock unit` 5.0 ml (4.0-6.0) of {why}.");
        assert!(text.contains(&wanted), "{text}");
    }
}

#[test]
fn air_above_a_screw_is_said() {
    let layout = demo("turnstone");
    let (document, text) = simulated(&layout, &["--for", "fill"]);
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
    let (document, text) = simulated(&demo("lapwing"), &["--for", "fill"]);
    assert_eq!(document["not_followed"], serde_json::json!([]));
    assert!(!text.contains("NOT FOLLOWED"), "{text}");
}
