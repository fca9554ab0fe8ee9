//! What a record keeps beside its checks: blank it is no fault, written down it is held against the day and the screws.

use super::verdicts::{assert_state, state};
use super::{KEPT, blank, blank_for, complete, filled, set, with};
use crate::asked::opening;
use bleedwright_inspection::{Record, State, judge_record, read_record, reading_names};
use bleedwright_planner::Options;
use bleedwright_report::json::{ReadingsJson, pretty};
use bleedwright_report::{Paper, readings_html, readings_text, sheet_verdict};
use serde_json::{Value, json};

fn text(record: &Record) -> String {
    readings_text(&judge_record(record), Paper::new(1000, false))
}

fn document(record: &Record) -> Value {
    serde_json::from_str(&pretty(&ReadingsJson::new(&judge_record(record)))).expect("it is JSON")
}

/// The record read from a changed text of it.
fn read(text: &str) -> Record {
    let read = read_record(text.as_bytes());
    assert!(read.findings.is_empty(), "{:#?}", read.findings);
    read.record.expect("without findings it is read")
}

/// A record as it was saved before any of this was kept says nothing wrong, and has the checks that it had.
#[test]
fn an_older_record_loads_and_says_nothing_wrong() {
    let mut file: Value = serde_json::from_str(&complete().to_json()).expect("our own JSON");
    for (part, fields) in [
        ("readings_of", &["interval"][..]),
        (
            "work",
            &[
                "replaced",
                "ran_dry",
                "bled_earlier",
                "parts_fitted",
                "torque_tool",
                "refused",
                "next_due",
            ],
        ),
        (
            "checks",
            &[
                "moisture_before",
                "boiling_point_before",
                "sample_before",
                "bottle",
                "bottle_opened",
                "sample",
            ],
        ),
    ] {
        for field in fields {
            let part = file[part].as_object_mut().expect("a structure");
            part.remove(*field).expect("today's record has it");
        }
    }
    let older = read(&file.to_string());
    let sheet = judge_record(&older);
    assert_eq!(sheet.state(), State::Within, "{}", sheet_verdict(&sheet));
    assert!(sheet.checks.iter().all(|check| check.doubt.is_none()));
    let blank = set(&complete(), |name| {
        let is_word = matches!(name, "next due" | "bottle opened" | "vehicle interval")
            || name.ends_with("moisture before")
            || name.ends_with("boiling point before");
        KEPT.contains(&name)
            .then_some(if is_word { "not_checked" } else { "" })
    });
    assert_eq!(sheet, judge_record(&blank));
    assert!(text(&older).contains("Torque tool: not stated"));
    assert!(!text(&older).contains("WORK REFUSED"));
    assert_eq!(document(&older)["work_refused"], json!(null));
}

/// By the calendar: a month is a twelfth of 365 days, 30.4, and half a day is no difference; a year is 365.
#[test]
fn a_bottle_is_opened_shortly_before_the_work() {
    let check = ("", "bottle opened");
    for (day, wanted) in [
        ("2026-11-25", State::Within),
        ("2026-10-26", State::Within),
        ("2026-10-25", State::LookAgain),
        ("2025-11-26", State::LookAgain),
        ("2025-11-25", State::Fails),
        ("0000-01-01", State::NotChecked),
        ("2026-11-26", State::NotChecked),
        ("9999-12-31", State::NotChecked),
    ] {
        assert_state(("bottle opened", day), check, wanted);
    }
    let undated = with(&complete(), "date", "not_checked");
    assert_eq!(state(&undated, "", "bottle opened"), State::NotChecked);
    // What takes up no water keeps as long as its label says.
    let silicone = with(&complete(), "fluid", "dot5");
    assert_eq!(state(&silicone, "", "bottle opened"), State::Within);
    let open = with(&silicone, "bottle opened", "2026-11-24");
    assert_eq!(state(&open, "", "bottle opened"), State::LookAgain);
}

/// Common practice, no source: two years where the maker states no interval.
#[test]
fn the_next_renewal_is_due_in_time() {
    let check = ("", "next due");
    for (interval, day, wanted) in [
        ("not_checked", "2028-11-25", State::Within),
        ("not_checked", "2028-11-26", State::LookAgain),
        ("one_year", "2027-11-25", State::Within),
        ("one_year", "2027-11-26", State::LookAgain),
        ("half_a_year", "2027-05-26", State::LookAgain),
        ("four_years", "2030-11-25", State::Within),
        ("two_years", "2026-11-26", State::Within),
        ("two_years", "2026-11-25", State::NotChecked),
        ("two_years", "2026-11-24", State::NotChecked),
        ("two_years", "9999-12-31", State::LookAgain),
    ] {
        let record = with(&complete(), "vehicle interval", interval);
        let record = with(&record, "next due", day);
        assert_eq!(state(&record, check.0, check.1), wanted, "{interval} {day}");
    }
    let undated = with(&complete(), "date", "not_checked");
    assert_eq!(state(&undated, "", "next due"), State::NotChecked);
}

/// After the work the reservoir holds the new fluid, whatever is in the wheels.
#[test]
fn a_sample_tells_of_the_wheels_where_it_came_out_of_a_screw() {
    let check = ("", "boiling point of");
    for (place, wanted) in [
        ("", State::Within),
        ("front left", State::Within),
        ("at the Front-Left bleed screw", State::Within),
        ("reservoir", State::LookAgain),
        ("the reservoir, front half", State::LookAgain),
        ("front brakes", State::LookAgain),
        ("front left and reservoir", State::LookAgain),
        ("front middle", State::LookAgain),
        ("front left?", State::NotChecked),
        ("unknown", State::NotChecked),
        ("-", State::NotChecked),
    ] {
        assert_state(("sample", place), check, wanted);
        // What fails goes on failing wherever it was taken.
        let wet = with(&with(&complete(), "sample", place), "moisture", "4 %");
        assert_eq!(state(&wet, check.0, check.1), State::Fails, "{place}");
    }
    let reservoir = with(&complete(), "sample", "reservoir");
    let words = "from the reservoir after the work says nothing about the wheels";
    for sheet in [
        text(&reservoir),
        readings_html(&judge_record(&reservoir)),
        document(&reservoir).to_string(),
    ] {
        assert!(sheet.contains(words), "{sheet}");
    }
}

/// Refused work stands above the checks on every sheet, and no sheet with any is good. Only who says that there is none says so.
#[test]
fn refused_work_is_never_hidden() {
    for none in ["", "none", "No", "n/a", "-", "nothing."] {
        let record = with(&complete(), "refused", none);
        assert_eq!(judge_record(&record).state(), State::Within, "{none}");
        assert!(!text(&record).contains("WORK REFUSED"), "{none}");
    }
    for refused in ["rear hoses", "?", "none?", "unknown", "<b>rear hoses</b>"] {
        let mut record = complete();
        refused.clone_into(&mut record.work.refused);
        let sheet = judge_record(&record);
        assert_eq!(sheet.state(), State::LookAgain, "{refused}");
        let lines = text(&record);
        let top = lines
            .split("WORK AND MATERIAL")
            .next()
            .expect("a first part");
        assert!(
            top.contains(&format!("WORK REFUSED BY THE OWNER: {refused}")),
            "{top}"
        );
        let page = readings_html(&sheet);
        let top = page.split("<table").next().expect("a first part");
        let shown = refused.replace('<', "&lt;").replace('>', "&gt;");
        assert!(
            top.contains(&format!("WORK REFUSED BY THE OWNER: {shown}")),
            "{top}"
        );
        assert_eq!(document(&record)["work_refused"], json!(refused));
    }
}

/// A text that says nothing is worse than none.
#[test]
fn a_doubtful_text_is_not_good() {
    for name in [
        "sample before",
        "bottle",
        "torque tool",
        "parts fitted",
        "sample",
    ] {
        for doubtful in ["?", "unknown", "tbd", "X", "wrench 3?"] {
            let record = with(&complete(), name, doubtful);
            assert_eq!(
                judge_record(&record).state(),
                State::NotChecked,
                "{name}: {doubtful}"
            );
        }
    }
    assert_eq!(
        judge_record(&with(&complete(), "parts fitted", "none")).state(),
        State::Within
    );
    assert_eq!(
        judge_record(&with(&complete(), "bottle", "none")).state(),
        State::NotChecked
    );
}

/// It is asked for where a unit or an electric parking brake keeps faults, and then blank is not finished.
#[test]
fn the_fault_memory_is_read_where_there_is_one() {
    let name = "read the fault memory";
    let asks = |vehicle: &str| {
        let tasks = blank(vehicle).vehicle.tasks;
        tasks.iter().any(|task| task == name)
    };
    assert!(asks("godwit") && !asks("lapwing"));
    let opened = opening(&["anti-lock unit"]);
    let good = filled(&blank_for("godwit", &opened));
    assert_eq!(judge_record(&good).state(), State::Within);
    for answer in ["not_checked", "no"] {
        let sheet = judge_record(&with(&good, "read the fault memory done", answer));
        assert_eq!(sheet.state(), State::NotChecked, "{answer}");
        assert_eq!(sheet.unfinished(), [name]);
    }
    // Left out of the list of tasks it is still missed by its name, and a record of earlier days has neither.
    let mut without = good.clone();
    without.tasks.retain(|task| task.name != name);
    assert_eq!(judge_record(&without).unfinished(), [name]);
    without.vehicle.tasks.retain(|task| task != name);
    assert_eq!(judge_record(&without).state(), State::Within);
}

/// What the options of the plan said was done, and what went through each screw.
#[test]
fn the_sheet_names_the_work() {
    let options = Options {
        replaced: vec!["front left caliper".to_owned()],
        ran_dry: vec!["front brakes".to_owned()],
        done: vec!["rear left".to_owned()],
        purpose: Some(bleedwright_planner::Purpose::Renew),
        ..Options::default()
    };
    let mut record = filled(&blank_for("lapwing", &options));
    record = with(&record, "step 1 pushed", "not_checked");
    let work =
        "Work done: replaced front left caliper; ran dry front brakes; bled earlier rear left";
    for sheet in [text(&record), readings_html(&judge_record(&record))] {
        assert!(sheet.contains(work), "{sheet}");
    }
    let kept = &document(&record)["kept"];
    assert_eq!(kept["replaced"], json!(["front left caliper"]));
    assert_eq!(kept["ran_dry"], json!(["front brakes"]));
    assert_eq!(kept["bled_earlier"], json!(["rear left"]));
    // The lists are no readings, and stand in both spellings of the file.
    assert!(!reading_names(&record).iter().any(|name| name == "replaced"));
    assert_eq!(read(&record.to_ron()), record);
    assert_eq!(read(&record.to_json()), record);

    let lines = text(&record);
    let line = lines
        .lines()
        .find(|line| line.contains("Pushed through each screw"))
        .expect("it always stands there");
    assert!(line.contains("rear left bled earlier"), "{line}");
    for (nth, step) in record.steps.iter().enumerate() {
        for screw in &step.screws {
            let amount = match nth {
                0 => "not stated",
                _ => &step.wanted.found().expect("the plan says it").text,
            };
            assert!(line.contains(&format!("{screw} {amount}")), "{line}");
        }
    }
    // A screw that two steps open got both amounts.
    let mut twice = complete();
    let again = twice.steps[1].screws.clone();
    twice.steps[0].screws.extend(again.clone());
    let amounts = [0, 1].map(|nth: usize| {
        twice.steps[nth]
            .pushed
            .found()
            .expect("filled")
            .text
            .clone()
    });
    let kept = judge_record(&twice).kept;
    let pushed = kept.pushed.iter().find(|pushed| pushed.screw == again[0]);
    assert_eq!(pushed.expect("it is a screw of the job").amounts, amounts);
}

/// A record that was saved when such figures were taken: it loads, says so, and holds nothing against nothing. Today nobody
/// enters one.
#[test]
fn a_least_thickness_of_nothing_is_no_limit() {
    for (least, field, what) in [
        (
            "front left disc minimum",
            "disc_minimum: \"20 mm\"",
            "disc thickness",
        ),
        (
            "front left lining minimum",
            "lining_minimum: \"2 mm\"",
            "lining thickness",
        ),
    ] {
        for nothing in ["0 mm", "0 in", "0 mm ± 0.1 mm"] {
            let name = field.split(':').next().expect("a name");
            let saved = complete()
                .to_ron()
                .replacen(field, &format!("{name}: \"{nothing}\""), 1);
            let record = read(&saved);
            assert_eq!(
                state(&record, "front left", what),
                State::NotChecked,
                "{least}"
            );
            assert_eq!(judge_record(&record).state(), State::NotChecked);
            let words = "least thickness of nothing is no limit";
            assert!(text(&record).contains(words), "{}", text(&record));
            assert_eq!(read(&record.to_json()), record, "nothing is lost of it");
            let (_, set) = bleedwright_inspection::set_readings(&saved, &[("moisture", "1 %")])
                .expect("another reading can be set");
            assert_eq!(set, ["moisture"]);
        }
        let call = [(least, "0 mm")];
        assert!(bleedwright_inspection::set_readings(&complete().to_ron(), &call).is_err());
    }
    // A worn lining fails whatever stands beside it.
    let worn = with(&complete(), "front left lining", "0.5 mm")
        .to_ron()
        .replacen("lining_minimum: \"2 mm\"", "lining_minimum: \"0 mm\"", 1);
    assert_eq!(
        state(&read(&worn), "front left", "lining thickness"),
        State::Fails
    );
}
