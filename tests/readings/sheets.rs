//! The handover sheet as text, page and JSON.

use super::{complete, with};
use crate::binary::{empty_folder, root};
use crate::command_line::run;
use bleedwright_inspection::{Record, State, judge_record, read_record, reading_names};
use bleedwright_report::json::{ReadingsJson, pretty};
use bleedwright_report::{Paper, readings_html, readings_text};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fs;

/// A record with one of each: fails, not checked, look again, within.
fn mixed() -> Record {
    let worn = with(&complete(), "front left disc", "19.6 mm");
    let low = with(&worn, "front brakes reservoir level", "between");
    with(&low, "moisture", "not_checked")
}

#[test]
fn the_sheet_of_lapwing() {
    let text = readings_text(&judge_record(&mixed()), Paper::new(80, false));
    insta::assert_snapshot!(text);
}

#[test]
fn the_page_of_lapwing() {
    insta::assert_snapshot!(readings_html(&judge_record(&mixed())));
}

#[test]
fn the_verdict_stands_in_the_first_lines() {
    let first = |record: &Record| {
        let text = readings_text(&judge_record(record), Paper::new(80, false));
        text.lines().take(3).collect::<Vec<_>>().join(" ")
    };
    assert!(first(&mixed()).contains("DO NOT HAND OVER: 1 of 51 checks fails. 1 not checked."));
    assert!(
        first(&mixed())
            .contains("Fails: front left, disc thickness. Look again: front brakes, level.")
    );
    let open = with(&complete(), "moisture", "not_checked");
    assert!(first(&open).contains("NOT COMPLETE: 1 of 51"));
    let low = with(&complete(), "front brakes reservoir level", "between");
    assert!(first(&low).contains("LOOK AGAIN: 1 of 51"));
    assert!(first(&complete()).contains("does not prove"));
}

#[test]
fn lines_fit_every_width() {
    let sheet = judge_record(&mixed());
    for width in [24, 40, 59, 60, 80, 100] {
        let text = readings_text(&sheet, Paper::new(width, false));
        for line in text.lines() {
            // One word may be longer than the narrowest sheet.
            assert!(line.chars().count() <= width.max(30), "{width}: {line}");
        }
        assert!(text.contains("manual"), "{width}");
    }
}

/// Colour says nothing that words do not say.
#[test]
fn colour_adds_nothing() {
    let sheet = judge_record(&mixed());
    let plain = readings_text(&sheet, Paper::new(80, false));
    let coloured = readings_text(&sheet, Paper::new(80, true));
    assert_ne!(plain, coloured);
    let mut bare = coloured;
    for code in ["\u{1b}[1m", "\u{1b}[31m", "\u{1b}[33m", "\u{1b}[0m"] {
        bare = bare.replace(code, "");
    }
    let trimmed = |text: &str| {
        text.lines()
            .map(str::trim_end)
            .collect::<Vec<_>>()
            .join("\n")
    };
    assert_eq!(trimmed(&bare), trimmed(&plain));
}

/// One file, no script, nothing from outside, and a policy that allows its own style alone.
#[test]
fn the_page_needs_and_allows_nothing() {
    let page = readings_html(&judge_record(&mixed()));
    for barred in [
        "<script", "http://", "https://", "src=", "href=", "url(", "@import", "style=",
    ] {
        assert!(!page.contains(barred), "{barred}");
    }
    let style = page.split("<style>").nth(1).expect("a style");
    let style = style.split("</style>").next().expect("it ends");
    let hash = base64(&Sha256::digest(style.as_bytes()));
    let policy = format!("default-src 'none'; style-src 'sha256-{hash}'");
    assert!(page.contains(&policy), "html.rs needs {policy}");
    assert!(!page.contains("unsafe-inline"));
    assert!(style.contains("size: A4"));
    // Grey is enough: nothing in the style is a colour.
    for word in style.split(|c: char| !c.is_ascii_alphanumeric() && c != '#') {
        let is_grey = |hex: &str| match hex.len() {
            3 => hex[..1] == hex[1..2] && hex[1..2] == hex[2..],
            6 => hex[..2] == hex[2..4] && hex[2..4] == hex[4..],
            _ => true,
        };
        assert!(word.strip_prefix('#').is_none_or(is_grey), "{word}");
    }
}

/// RFC 4648, section 4: the alphabet in which a policy writes a fingerprint.
pub(crate) fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let number = three
            .iter()
            .fold(0_u32, |all, byte| all << 8 | u32::from(*byte))
            << (8 * (3 - three.len()));
        for nth in 0..4 {
            let letter = (number >> (18 - 6 * nth)) & 63;
            text.push(if nth > three.len() {
                '='
            } else {
                LETTERS[letter as usize] as char
            });
        }
    }
    text
}

#[test]
fn the_document_has_the_fields_of_its_schema() {
    let found = fs::read_to_string(root().join("docs/schema/readings.json"))
        .expect("the schema is part of the repository");
    let folder = empty_folder("readings/json");
    let record = folder.join("van.ron");
    fs::write(&record, mixed().to_ron()).expect("the folder can be written to");
    let name = record.to_str().expect("the path is text");
    let run = run(&format!("readings '{name}' --format json"));
    assert_eq!(run.code, Some(0), "{}", run.stderr);
    assert_eq!(
        run.stdout,
        pretty(&ReadingsJson::new(&judge_record(&mixed())))
    );
    let document: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let schema: serde_json::Value = serde_json::from_str(&found).expect("it is JSON");
    let properties = schema["properties"]
        .as_object()
        .expect("a schema has properties");
    let fields: BTreeSet<&String> = document.as_object().expect("a structure").keys().collect();
    assert_eq!(fields, properties.keys().collect());
    assert_eq!(document["schema_version"], 2);
    assert_eq!(document["state"], "fails");
    let counts = document["counts"].as_object().expect("counts").values();
    let sum: u64 = counts.map(|count| count.as_u64().expect("a number")).sum();
    assert_eq!(sum, 51);
}

/// The example of the documentation is a record, and every name in its table can be set.
#[test]
fn the_documentation_is_true() {
    let page = fs::read_to_string(root().join("docs/readings.md")).expect("it is there");
    let example = page.split("```ron\n").nth(1).expect("an example");
    let example = example.split("```").next().expect("it ends");
    let read = read_record(example.as_bytes());
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    let record = read.record.expect("it has no errors");
    // A lining was not measured, and one screw is missing.
    assert_eq!(judge_record(&record).state(), State::NotChecked);
    let known = reading_names(&record);
    let mut named = BTreeSet::new();
    for row in page.lines().filter(|line| line.starts_with("| `")) {
        let names = row.split('|').nth(2).expect("a second column");
        for name in names.split(',').map(str::trim) {
            if name == "-" {
                continue;
            }
            assert!(known.iter().any(|known| known == name), "{name}");
            named.insert(name.rsplit(' ').next().unwrap_or(name).to_owned());
        }
    }
    for name in known {
        let last = name.rsplit(' ').next().unwrap_or(&name);
        assert!(named.contains(last), "{name} is not in docs/readings.md");
    }
}
