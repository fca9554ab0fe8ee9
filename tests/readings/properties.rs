//! What holds for every record.

use super::fluids::said;
use super::{blank, complete, set, with};
use bleedwright_inspection::fluid::{BottleReason, FluidError, Opened};
use bleedwright_inspection::readings::{Found, OfFluid, What};
use bleedwright_inspection::record::{VehicleReadings, Work};
use bleedwright_inspection::{
    Record, State, judge_record, read_record, reading_names, set_readings,
};
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::LazyLock;

/// Readings without which a record may still be complete.
fn is_optional(name: &str) -> bool {
    // Left blank, mass and fixing of the linings are taken for the stricter case.
    ["notes", "boiling point", "vehicle over 10000 lb"].contains(&name)
        || super::KEPT.contains(&name)
        || [" pushed", " riveted"]
            .iter()
            .any(|end| name.ends_with(end))
}

#[test]
fn no_record_with_a_missing_reading_is_good() {
    let complete = complete();
    let mut judged = 0;
    for name in reading_names(&complete) {
        if is_optional(&name) {
            continue;
        }
        let missing = with(&complete, &name, blank_of(&name));
        assert_ne!(missing, complete, "{name}");
        assert_ne!(
            judge_record(&missing).state(),
            State::Within,
            "without {name}"
        );
        judged += 1;
    }
    assert!(judged > 40, "only {judged} readings");
}

#[test]
fn no_record_with_a_missing_item_or_part_is_good() {
    let complete = complete();
    let mut spoilt: Vec<Record> = Vec::new();
    let mut spoil = |change: &dyn Fn(&mut Record)| {
        let mut record = complete.clone();
        change(&mut record);
        spoilt.push(record);
    };
    for nth in 0..4 {
        spoil(&|record| drop(record.brakes.remove(nth)));
        spoil(&|record| drop(record.screws.remove(nth)));
    }
    for nth in 0..2 {
        spoil(&|record| drop(record.compartments.remove(nth)));
        spoil(&|record| drop(record.steps.remove(nth)));
        spoil(&|record| drop(record.tasks.remove(nth)));
    }
    spoil(&|record| {
        record.steps.clear();
        record.vehicle.steps.clear();
    });
    spoil(&|record| {
        record.tasks.clear();
        record.vehicle.tasks.clear();
    });
    spoil(&|record| record.controls.clear());
    spoil(&|record| {
        record.controls.clear();
        record.vehicle.controls.clear();
    });
    spoil(&|record| record.checks = VehicleReadings::default());
    spoil(&|record| record.work = Work::default());
    spoil(&|record| {
        record.brakes.clear();
        record.vehicle.brakes.clear();
    });
    spoil(&|record| {
        record.screws.clear();
        record.vehicle.screws.clear();
    });
    spoil(&|record| {
        record.compartments.clear();
        record.vehicle.compartments.clear();
    });
    spoil(&|record| *record = Record::default());
    for record in spoilt {
        assert_ne!(judge_record(&record).state(), State::Within, "{record:#?}");
        let text = record.to_ron();
        if let Some(read) = read_record(text.as_bytes()).record {
            assert_ne!(judge_record(&read).state(), State::Within);
        }
    }
}

/// Values that a reading may have, good and bad, and none.
fn values(name: &str) -> &'static [&'static str] {
    let ends = |end: &str| name.ends_with(end);
    if ends("disc") || ends("disc minimum") {
        &[
            "not_checked",
            "19.6 mm",
            "20 mm ± 0.5 mm",
            "13/16 in",
            "2.13 cm",
        ]
    } else if ends("lining") {
        &["not_checked", "0 mm", "1.5 mm", "5 mm ± 0.5 mm", "1/4 in"]
    } else if ends("lining minimum") {
        &["not_checked", "1 mm", "2 mm", "2 mm ± 10 %", "1/16 in"]
    } else if ends("drum") || ends("drum maximum") {
        &["not_checked", "203 mm", "8 in", "204.5 mm"]
    } else if ends("torque") || ends("torque wanted") {
        &["not_checked", "9 N m", "80 lbf in", "9 N m ± 10 %"]
    } else if ends("level") {
        &[
            "not_checked",
            "at_maximum",
            "between",
            "above_maximum",
            "below_minimum",
        ]
    } else if ends("pedal free") {
        &["not_checked", "150 mm", "6 in"]
    } else if ends("pedal depressed") {
        &["not_checked", "0 mm", "20 mm", "30 mm", "45 mm ± 1 mm"]
    } else if ends("force") {
        &["not_checked", "50 lbf", "50 lbf ± 6 %", "556 N", "0.6 kN"]
    } else if ends("time") {
        &["not_checked", "10 s", "1 min"]
    } else if ends("moisture") {
        &[
            "not_checked",
            "0.5 %",
            "3.1 percent",
            "4 %",
            "0.6 % ± 0.5 %",
        ]
    } else if ends("moisture before") {
        &["not_checked", "3.1 %"]
    } else if ends("boiling point before") {
        &["not_checked", "150 degC"]
    } else if name == "sample" {
        &[
            "",
            "front left",
            "the reservoir",
            "front brakes",
            "?",
            "a jar",
        ]
    } else if ends("bottle opened") {
        &[
            "not_checked",
            "2026-11-20",
            "2026-08-01",
            "2024-01-01",
            "2027-01-01",
        ]
    } else if ends("next due") {
        &["not_checked", "2028-11-25", "2024-03-01", "2031-01-01"]
    } else if ends("interval") {
        &["not_checked", "half_a_year", "two_years", "Four years"]
    } else if ends("boiling point") {
        &["not_checked", "230 degC", "284 degF", "150 degC ± 10 degC"]
    } else if ends("fluid") {
        &["not_checked", "dot4", "DOT 5.1", "dot5", "mineral"]
    } else if ends("date") {
        &["", "2026-11-25", "2024-02-29"]
    } else if ends("pushed") {
        &["not_checked", "20 ml", "160 ml", "2 l"]
    } else if ends(" done") && name.starts_with("step ") {
        &["not_checked", "counted", "by_jar", "by strokes", "left_out"]
    } else if TEXTS.contains(&name) {
        &[
            "",
            "ä \"quoted\" \\ // not a comment",
            "line\n\ttwo",
            "{\u{1b}} [x] (y) 😀",
            "null",
        ]
    } else {
        &["not_checked", "yes", "no"]
    }
}

/// Readings that are texts.
const TEXTS: [&str; 11] = [
    "parts fitted",
    "torque tool",
    "refused",
    "sample before",
    "bottle",
    "sample",
    "done by",
    "checked by",
    "notes",
    "vehicle name",
    "vehicle registration",
];

/// The value that says nothing.
fn blank_of(name: &str) -> &'static str {
    if TEXTS.contains(&name) {
        ""
    } else {
        "not_checked"
    }
}

fn record(choices: &[Index]) -> Record {
    static BLANK: LazyLock<Record> = LazyLock::new(|| blank("lapwing"));
    let names = reading_names(&BLANK);
    set(&BLANK, |name| {
        let nth = names
            .iter()
            .position(|known| known == name)
            .expect("it is one of them");
        let values = values(name);
        Some(values[choices[nth % choices.len()].index(values.len())])
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// RON, JSON and RON again keep everything, and the general-purpose readers of both formats take them.
    #[test]
    fn nothing_is_lost_between_the_spellings(choices in proptest::collection::vec(any::<Index>(), 60)) {
        let record = record(&choices);
        let ron = record.to_ron();
        let read = read_record(ron.as_bytes()).record.expect("our own RON");
        prop_assert_eq!(&read, &record);
        let json = read.to_json();
        let value: serde_json::Value = serde_json::from_str(&json).expect("a JSON reader takes it");
        prop_assert_eq!(value["work"]["notes"].as_str(), Some(record.work.notes.as_str()));
        let again = read_record(json.as_bytes()).record.expect("our own JSON");
        prop_assert_eq!(&again, &record);
        prop_assert_eq!(again.to_ron(), ron);
    }

    /// The order of items is the writer's own.
    #[test]
    fn the_order_of_items_does_not_matter(
        choices in proptest::collection::vec(any::<Index>(), 60),
        turns in proptest::collection::vec(any::<Index>(), 16),
    ) {
        let record = record(&choices);
        let mut turned = record.clone();
        for pair in turns.chunks_exact(2) {
            let swap = |length: usize| (pair[0].index(length), pair[1].index(length));
            let (a, b) = swap(4);
            turned.brakes.swap(a, b);
            turned.vehicle.screws.swap(a, b);
            let (a, b) = swap(4);
            turned.screws.swap(b, a);
            turned.vehicle.brakes.swap(a, b);
            let (a, b) = swap(2);
            turned.compartments.swap(a, b);
        }
        prop_assert_eq!(judge_record(&turned), judge_record(&record));
    }

    /// What fails goes on failing whatever else is written down, but where that explains it.
    #[test]
    fn no_reading_softens_a_failure(
        choices in proptest::collection::vec(any::<Index>(), 60),
        nth in any::<Index>(),
    ) {
        let full = record(&choices);
        let names = reading_names(&full);
        let name = nth.get(&names).as_str();
        let without = set(&full, |known| (known == name).then_some(blank_of(name)));
        let (before, after) = (judge_record(&without), judge_record(&full));
        let is_wrong_fluid = after.checks.iter().any(|check| {
            check.what == What::Fluid && check.state == State::Fails
        });
        let is_refused = |said: &OfFluid| matches!(said, OfFluid::Refused(FluidError::NoMoisture { .. }));
        let keeps_by_label = |said: &OfFluid| {
            matches!(said, OfFluid::Bottle(BottleReason::Open { means: Opened::KeepsByLabel, .. }))
        };
        for before in &before.checks {
            let after = after
                .checks
                .iter()
                .find(|after| (&after.subject, after.what) == (&before.subject, before.what));
            let after = after.expect("a check goes with what is written down, not with what is added");
            let is_explained = match before.what {
                // The maker's figure governs over one for commercial vehicles.
                What::Lining => name.ends_with("lining minimum"),
                // No tester reads a mixture, which fails by itself, and none for moisture reads silicone or mineral oil.
                // A month and a year are lines for fluid that takes up water; the label of another governs.
                What::BottleOpened => name == "fluid" && said(after).iter().any(keeps_by_label),
                What::Boiling => is_wrong_fluid || said(after).iter().any(is_refused),
                _ => false,
            };
            if before.state == State::Fails && !is_explained {
                prop_assert_eq!(after.state, State::Fails, "{} softened {:?}", name, before);
            }
        }
    }

    /// A good verdict needs every check within its limit, whatever the record says.
    #[test]
    fn the_verdict_is_the_worst_check(choices in proptest::collection::vec(any::<Index>(), 60)) {
        let sheet = judge_record(&record(&choices));
        let all_within = sheet.checks.iter().all(|check| check.state == State::Within);
        prop_assert_eq!(sheet.state() == State::Within, all_within);
        for check in &sheet.checks {
            if check.found == Found::Nothing {
                prop_assert_eq!(check.state, State::NotChecked, "{:?}", check);
            }
        }
        let sum: usize = State::ALL.iter().map(|state| sheet.count(*state)).sum();
        prop_assert_eq!(sum, sheet.checks.len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// Bytes changed, cut out, doubled: never a panic, and never a record with an error.
    #[test]
    fn spoilt_files_are_read_to_an_end(
        is_json in any::<bool>(),
        spots in proptest::collection::vec((any::<Index>(), any::<Index>(), 0_u8..4, any::<u8>()), 1..6),
    ) {
        static TEXTS: LazyLock<[String; 2]> =
            LazyLock::new(|| [complete().to_ron(), complete().to_json()]);
        let mut bytes = TEXTS[usize::from(is_json)].clone().into_bytes();
        for (at, length, how, byte) in spots {
            let at = at.index(bytes.len());
            let end = (at + length.index(40)).min(bytes.len());
            match how {
                0 => bytes[at] = byte,
                1 => drop(bytes.drain(at..end)),
                2 => bytes.insert(at, b"()[]{}\",:/*\\#r"[usize::from(byte) % 14]),
                _ => {
                    let copy = bytes[at..end].to_vec();
                    bytes.splice(at..at, copy);
                }
            }
            if bytes.is_empty() {
                bytes.push(b'(');
            }
        }
        let read = read_record(&bytes);
        prop_assert_eq!(read.record.is_none(), read.findings.iter().any(bleedwright_network::Finding::is_error));
        if let (Some(record), Ok(text)) = (read.record, std::str::from_utf8(&bytes)) {
            judge_record(&record);
            if let Ok((changed, _)) = set_readings(text, &[("pedal hold time", "11 s")]) {
                let changed = read_record(changed.as_bytes()).record.expect("it was read before it was given");
                prop_assert_eq!(&changed.controls[0].hold_time.found().expect("it was set").text, "11 s");
            }
        }
    }
}

/// What our reader takes, the general-purpose readers take too.
#[test]
fn other_readers_take_our_files() {
    let record = complete();
    serde_json::from_str::<serde_json::Value>(&record.to_json()).expect("JSON");
    let ron = record.to_ron();
    let taken: Result<Outer, _> = ron::from_str(&ron);
    let taken = taken.expect("RON");
    assert_eq!(taken.format, 1);
    assert_eq!(taken.readings_of.name, record.vehicle.name);
    assert_eq!(taken.controls[0].free, "150 mm");
}

/// As much of a record as shows that it is RON from the first bracket to the last.
#[derive(serde::Deserialize)]
struct Outer {
    format: u32,
    readings_of: Named,
    controls: Vec<Control>,
}

#[derive(serde::Deserialize)]
struct Named {
    name: String,
}

#[derive(serde::Deserialize)]
struct Control {
    free: String,
}
