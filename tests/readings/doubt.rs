//! What is doubtful, contradicting or copied never counts as good.

use super::{blank, complete, good, set, with};
use crate::demo::ALL;
use bleedwright_inspection::record::{Counted, Ticked};
use bleedwright_inspection::{
    Record, State, judge_record, read_record, reading_names, set_readings,
};

/// Values that nobody may take for a clear and plausible answer.
const DOUBTFUL: [&str; 42] = [
    "not_checked",
    "not checked",
    "null",
    "None",
    "nobody",
    "no one",
    "n/a",
    "N/A",
    "unknown",
    "?",
    "??",
    "maybe",
    "no?",
    "yes?",
    "!= yes",
    "~yes",
    "not no",
    "dot 4?",
    "dot4 ?",
    "-",
    "--",
    "...",
    "tbd",
    "X",
    "9 N m?",
    "20 mm?",
    "<20 mm",
    ">3 mm",
    "about 7 mm",
    "7",
    "seven",
    "1 mm",
    "0.6 mm",
    "29 mm",
    "40 N m",
    "1 N m",
    "1 N",
    "1 s",
    "0000-01-01",
    "9999-12-31",
    "2026-02-30",
    "at_maximum?",
];

/// Readings without which a record may still be complete.
const OPTIONAL: [&str; 2] = ["notes", "boiling point"];

fn good_records() -> Vec<Record> {
    let records = ALL
        .iter()
        .map(|name| set(&blank(name), |reading| Some(good(reading))));
    records
        .filter(|record| judge_record(record).state() == State::Within)
        .collect()
}

/// Every single value of a good record of each demo vehicle, replaced by each of these: refused, or not good.
#[test]
fn no_doubtful_value_is_good() {
    let records = good_records();
    assert!(records.len() >= 4, "{} good records", records.len());
    let mut tried = 0;
    for record in &records {
        let text = record.to_ron();
        for name in reading_names(record) {
            if OPTIONAL.contains(&name.as_str()) {
                continue;
            }
            // A vehicle or a person may be called anything but these.
            let count = match name.as_str() {
                "vehicle name" => 14,
                "done by" | "checked by" => 24,
                _ => DOUBTFUL.len(),
            };
            for value in &DOUBTFUL[..count] {
                tried += 1;
                let Ok((text, _)) = set_readings(&text, &[(&name, value)]) else {
                    continue;
                };
                let read = read_record(text.as_bytes());
                if read
                    .findings
                    .iter()
                    .any(bleedwright_network::Finding::is_error)
                {
                    continue;
                }
                let record = read.record.expect("a record without errors is read");
                assert_ne!(
                    judge_record(&record).state(),
                    State::Within,
                    "{name}: {value}"
                );
            }
        }
    }
    assert!(tried > 5_000, "{tried} values");
}

/// Across an axle one of two figures that lie so far apart is wrong.
#[test]
fn a_figure_far_from_its_sister_is_looked_at_again() {
    for (name, value) in [
        ("front left lining", "29 mm"),
        ("front left disc minimum", "3 mm"),
        ("rear left drum maximum", "250 mm"),
        ("front left screw torque wanted", "40 N m"),
    ] {
        let mut record = with(&complete(), name, value);
        if name.ends_with("wanted") {
            record = with(&record, "front left screw torque", "40 N m");
        }
        let sheet = judge_record(&record);
        assert_eq!(
            sheet.state(),
            State::LookAgain,
            "{name}: {:#?}",
            sheet.checks
        );
    }
}

/// Steps that were begun, or passed over, are not finished.
#[test]
fn open_steps_of_the_card_are_not_good() {
    let mut record = complete();
    record.card.plan = "1b4f0e9851971998".to_owned();
    let list = |texts: &[&str]| texts.iter().map(|&text| text.to_owned()).collect();
    for (ticked, counted, is_good) in [
        (&["step 1", "step 2"][..], &["step 1: 52"][..], true),
        (&["step 2"], &["step 2: 7"], false),
        (&["step 1"], &["step 1: 52", "step 2: 3"], false),
        (&["step 1"], &["step 1: 52", "step 2 jar 1: 30"], false),
        (&[], &[], false),
    ] {
        record.card.ticked = Ticked(list(ticked));
        record.card.counted = Counted(list(counted));
        let state = judge_record(&record).state();
        assert_eq!(state == State::Within, is_good, "{ticked:?} {counted:?}");
    }
}
