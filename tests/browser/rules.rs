//! One set of rules: what the program refuses for a record, the card refuses, and what it takes, the card takes.

use super::demo;
use crate::readings::{blank, good, set};
use bleedwright_inspection::read_record;
use serde_json::{Value, json};

/// Texts that are tried in every field, beside an empty one.
const TEXTS: &str = "yes | no | Yes | yes? | != yes | ~no | maybe | ? | unknown | N/A | Nobody | \
    not_checked | Not checked | null | none | 20 mm | 0 mm | 0 mm ± 0.1 mm | 0 m ± 1 km | \
    2 mm | 7 | 7 mm | 9 N m | 0.5 % | 0.5 | 230 degC | 10 s | 50 lbf | 160 ml | 0.16 l | \
    -1 ml | 1e3 ml | dot4 | DOT 4 | dot 5.1 | dot 4? | at_maximum | At maximum | disc | \
    drum | 2026-11-25 | 2026-02-30 | 25.11.2026 | counted | by jar | left_out | routine | \
    fault_memory | undo | two_years | Half a year | A. Tern | <b> | 21.3 mm ± 0.1 mm | \
    13/16 in | 29 furlong";

/// Values that are tried in every field.
fn values() -> Vec<Value> {
    let texts = TEXTS.split(" | ").chain([""]);
    let mut values: Vec<Value> = texts.map(Value::from).collect();
    values.extend([
        json!(null),
        json!(1),
        json!(0.5),
        json!(true),
        json!([]),
        json!(["a"]),
        json!({}),
    ]);
    values
}

/// A text whose field stands there twice, each with the value that it has.
fn doubled(text: &str, field: &str) -> String {
    let at = text
        .find(&format!("\"{field}\":"))
        .expect("it has the field");
    let line = text[at..]
        .lines()
        .next()
        .expect("a line")
        .trim_end_matches(',');
    if line.ends_with(['{', '[']) {
        let empty = if line.ends_with('{') { "{}" } else { "[]" };
        return text
            .replacen(&text[at..at], &format!("\"{field}\": {empty}, "), 1)
            .replacen(&format!("\"{field}\": {empty}, "), "", 1);
    }
    format!("{}{line}, {}", &text[..at], &text[at..])
}

/// Files that are no record, or one of another shape.
fn spoilt(text: &str) -> Vec<String> {
    let record: Value = serde_json::from_str(text).expect("our own JSON");
    let mut all = Vec::new();
    let mut change = |how: &dyn Fn(&mut Value)| {
        let mut record = record.clone();
        how(&mut record);
        all.push(record.to_string());
    };
    for list in [
        "controls",
        "brakes",
        "screws",
        "compartments",
        "steps",
        "tasks",
    ] {
        change(&|it| {
            let copy = it[list][0].clone();
            it[list].as_array_mut().expect("a list").push(copy);
        });
        change(&|it| it[list][0]["name"] = json!("another"));
        change(&|it| it[list][0]["name"] = json!(null));
        change(&|it| drop(it[list][0].as_object_mut().expect("an item").remove("name")));
        change(&|it| it[list][0]["colour"] = json!("blue"));
        change(&|it| it[list][0]["toString"] = json!("blue"));
        change(&|it| it[list] = json!({}));
        change(&|it| it[list] = json!("none"));
        change(&|it| it[list][0] = json!("front left"));
    }
    change(&|it| {
        let brake = it["brakes"][0].as_object_mut().expect("an item");
        brake.remove("kind");
    });
    change(&|it| it["brakes"][0]["drum"] = json!("203 mm"));
    change(&|it| it["toString"] = json!({}));
    change(&|it| it["weather"] = json!({}));
    change(&|it| it["checks"] = json!([]));
    change(&|it| it["format"] = json!("1"));
    change(&|it| it["format"] = json!(2));
    change(&|it| it["format"] = json!(null));
    change(&|it| drop(it.as_object_mut().expect("a record").remove("format")));
    change(&|it| it["controls"][0]["free"] = json!("40 mm"));
    change(&|it| {
        it["controls"][0]["free"] = json!("20 mm ± 20 mm");
        it["controls"][0]["depressed"] = json!("10 mm");
    });
    for card in [
        json!({ "plan": "x", "ticked": ["wheel 1"] }),
        json!({ "plan": "x", "ticked": ["before 0"] }),
        json!({ "plan": "x", "ticked": "before 1" }),
        json!({ "plan": "x", "counted": ["step 1: many"] }),
        json!({ "plan": "x", "counted": ["step 1: 9999999"] }),
        json!({ "plan": "x", "counted": ["step 1 stop 2: 34", "step 1 give up: 210", "step 2 jar 1: 17.5"] }),
        json!({ "plan": "x", "counted": {} }),
        json!({ "plan": 3 }),
        json!({ "plan": "x", "colour": "blue" }),
        json!({ "plan": null, "ticked": null }),
        json!([]),
    ] {
        change(&|it| it["card"] = card.clone());
    }
    all.push(text.replacen("\"format\": 1", "\"format\": 1.0", 1));
    all.push(text.replacen("\"format\": 1", "\"format\": 1e0", 1));
    for field in ["format", "leak_found", "disc", "name", "date", "pushed"] {
        all.push(doubled(text, field));
    }
    all.push(text.replacen("\"checks\": {", "\"checks\": {}, \"checks\": {", 1));
    all.push(format!("\u{feff}{text}"));
    all.push(text[..text.len() - 3].to_owned());
    all
}

/// Every field of a record with every value, and every spoilt file: the program and the card agree on each.
#[test]
fn the_card_opens_what_the_program_reads() {
    let Some((tab, _)) = demo("rules", "lapwing", "") else {
        return;
    };
    let text = set(&blank("lapwing"), |name| {
        (name != "vehicle name").then(|| good(name))
    })
    .to_json();
    let record: Value = serde_json::from_str(&text).expect("our own JSON");
    let mut files = spoilt(&text);
    let names_vehicle = |section: &str, field: &str| {
        section == "readings_of" && !["fluid", "interval"].contains(&field)
    };
    for (section, part) in record.as_object().expect("a record") {
        let first = if part.is_array() { &part[0] } else { part };
        for field in first
            .as_object()
            .into_iter()
            .flat_map(serde_json::Map::keys)
        {
            // What a file is of is compared with the card, by a rule of its own.
            if names_vehicle(section, field) || ["name", "kind"].contains(&field.as_str()) {
                continue;
            }
            for value in values() {
                let mut changed = record.clone();
                let item = if part.is_array() {
                    &mut changed[section][0]
                } else {
                    &mut changed[section]
                };
                item[field] = value;
                files.push(changed.to_string());
            }
        }
    }
    let taken = tab.run(&format!(
        "({}).map((text) => {{
            try {{ RecordFile.read(text.replace(/^\\uFEFF/, ''), ''); return ''; }} catch (problem) {{ return String(problem); }}
        }})",
        json!(files)
    ));
    let (mut both, mut neither) = (0, 0);
    for (file, problem) in files.iter().zip(taken.as_array().expect("a list")) {
        let read = read_record(file.as_bytes());
        let problem = problem.as_str().expect("a text");
        assert_eq!(
            read.record.is_some(),
            problem.is_empty(),
            "{problem}: {:#?}\n{file}",
            read.findings
        );
        if problem.is_empty() {
            both += 1;
        } else {
            neither += 1;
        }
    }
    assert!(
        both > 500 && neither > 1_000,
        "{both} taken, {neither} refused"
    );
}
