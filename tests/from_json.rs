//! The lines that hands go by, made anew from a plan's JSON alone, and looked for on its sheet.

use crate::command_line::{run, unwrapped};
use crate::demo::ALL;
use serde_json::Value;

/// Wide enough that a line of a step is not broken.
const WIDTH: &str = "--width 400";

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn text(value: &Value) -> &str {
    value.as_str().expect("it is a text")
}

fn joined(values: &[Value], key: &str) -> String {
    let all = values.iter().map(|it| match &it[key] {
        Value::String(text) => text.to_uppercase(),
        other => other.to_string(),
    });
    all.collect::<Vec<_>>().join(" + ")
}

/// Number, screws, what to push, strokes and how far each goes, and the marks of the jars.
fn bold_line(step: &Value, method: &str) -> String {
    let jars = list(&step["jars"]);
    let push = joined(jars, "push_ml");
    let work = match (&step["strokes"], method) {
        (Value::Null, "reverse") => format!("push in {push} ml"),
        (Value::Null, _) => format!("let out {push} ml"),
        (strokes, _) => {
            let figure = |key: &str| strokes[key].as_u64().expect("strokes are counted");
            let (expected, nominal) = (figure("expected"), figure("nominal"));
            let count = if nominal * 4 > expected * 5 + 4 {
                format!("{expected}-{nominal}")
            } else {
                nominal.to_string()
            };
            let block = match step["pedal_mm"]["nominal"].as_f64() {
                Some(travel) => format!("{travel:.0} mm"),
                None => "the block".to_owned(),
            };
            format!("push {push} ml, {count} strokes to {block}")
        }
    };
    let marks = joined(jars, "mark_ml");
    let marks = match (method, jars.iter().any(|jar| !jar["circuit"].is_null())) {
        ("reverse", _) => format!("{marks} so far"),
        (_, true) => format!("jars {marks}"),
        (_, false) => format!("jar {marks}"),
    };
    let screws = joined(list(&step["screws"]), "screw");
    format!("{} [ ] {screws}: {work}; {marks}", step["number"])
}

/// When to see to the reservoir; nothing where it lasts.
fn stops(step: &Value) -> Option<String> {
    let rules = list(&step["level_rules"]);
    let action = text(&rules.first()?["action"]).to_uppercase();
    let each = rules.iter().map(|rule| {
        let every = |count: u64| match count {
            1 => "every stroke".to_owned(),
            _ => format!("every {count}"),
        };
        let strokes = rule["every_strokes"].as_u64().map(|count| {
            match rule["every_strokes_without_block"].as_u64() {
                Some(without) => format!("{} (no block: {})", every(count), every(without)),
                None => format!("{} (never without the block)", every(count)),
            }
        });
        let ml = rule["every_ml"].as_f64();
        let ml = ml.map(|ml| format!("every {:.0} ml", ml.floor()));
        let before = rule["is_before_start"] == true;
        let when = before.then(|| "before you start".to_owned()).into_iter();
        let when: Vec<String> = when.chain(strokes).chain(ml).collect();
        format!("{} {}", text(&rule["compartment"]), when.join(", then "))
    });
    let each: Vec<String> = each.collect();
    Some(format!("{action} {}.", each.join("; ")))
}

#[test]
fn the_lines_of_every_step_follow_from_its_json() {
    let mut steps_seen = 0;
    for name in ALL {
        for method in ["pedal", "pressure", "vacuum", "gravity", "reverse"] {
            let call = format!("plan layouts/{name}.ron --method {method}");
            let json = run(&format!("{call} --format json"));
            // Not every vehicle may be bled by every method.
            let Ok(document) = serde_json::from_str::<Value>(&json.stdout) else {
                continue;
            };
            let sheet = run(&format!("{call} {WIDTH}")).unwrapped();
            let second = list(&document["second_bleed"]["steps"]);
            for step in list(&document["steps"]).iter().chain(second) {
                let lines = [Some(bold_line(step, method)), stops(step)];
                for line in lines.into_iter().flatten().map(|line| unwrapped(&line)) {
                    assert!(sheet.contains(&line), "{call}: {line}\n{sheet}");
                }
                steps_seen += 1;
            }
        }
    }
    assert!(steps_seen > 150, "{steps_seen} steps were looked for");
}
