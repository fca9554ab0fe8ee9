//! What is doubtful, contradicting or copied never counts as good.

use super::{KEPT, blank, blank_for, complete, filled, with};
use crate::asked::opening;
use crate::binary::empty_folder;
use crate::command_line::run;
use crate::demo::{ALL, plan_demo, screws};
use crate::table::rows;
use bleedwright_inspection::{
    Record, State, judge_record, read_record, reading_names, record_form, set_readings,
};
use bleedwright_report::sheet_verdict;
use std::collections::BTreeSet;

/// Values that nobody may take for a clear and plausible answer.
const DOUBTFUL: &str = "not_checked | not checked | null | None | nobody | no one | n/a | N/A | unknown | ? | \
    ?? | maybe | no? | yes? | != yes | ~yes | not no | dot 4? | dot4 ? | - | -- | ... | \
    tbd | X | 9 N m? | 20 mm? | <20 mm | >3 mm | about 7 mm | 7 | seven | 1 mm | 0.6 mm | \
    29 mm | 40 N m | 1 N m | 1 N | 1 s | 0000-01-01 | 9999-12-31 | 2026-02-30 | \
    at_maximum?";

/// Readings without which a record may still be complete.
fn is_optional(name: &str) -> bool {
    // Left blank, mass and fixing of the linings are taken for the stricter case.
    ["notes", "boiling point", "vehicle over 10000 lb"].contains(&name)
        || name.ends_with(" riveted")
}

/// Values that say that there is nothing of what was asked for.
const NONE: [&str; 6] = ["None", "n/a", "N/A", "-", "--", "..."];

/// Whether nothing stands in a reading.
fn is_blank(record: &Record, name: &str) -> bool {
    let mut fields = record_form(record).into_iter();
    let field = fields.find(|field| field.name == name);
    field.expect("it was set").value.is_empty()
}

fn good_records() -> Vec<Record> {
    let records = ALL.iter().map(|name| filled(&blank(name)));
    records
        .filter(|record| judge_record(record).state() == State::Within)
        .collect()
}

/// Every single value of a good record of each demo vehicle, replaced by each of these: refused, or not good.
#[test]
fn no_doubtful_value_is_good() {
    let records = good_records();
    assert!(records.len() >= 4, "{} good records", records.len());
    let doubtful: Vec<&str> = DOUBTFUL.split(" | ").collect();
    let mut tried = 0;
    for record in &records {
        let text = record.to_ron();
        for name in reading_names(record) {
            if is_optional(&name) {
                continue;
            }
            // A vehicle or a person may be called anything but these.
            let count = match name.as_str() {
                "vehicle name" | "vehicle registration" => 14,
                "done by" | "checked by" | "sample" | "sample before" | "bottle"
                | "torque tool" | "parts fitted" => 24,
                _ => doubtful.len(),
            };
            for value in &doubtful[..count] {
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
                let may_be_none = ["parts fitted", "refused"].contains(&name.as_str());
                if KEPT.contains(&name.as_str()) && is_blank(&record, &name)
                    || may_be_none && NONE.contains(value)
                {
                    continue;
                }
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

/// Steps that are open, half counted or left out, and tasks that nobody did, are not finished, and the verdict names them.
#[test]
fn what_the_plan_leaves_open_is_not_finished() {
    let complete = complete();
    assert_eq!(judge_record(&complete).unfinished(), [""; 0]);
    let wanted = &complete.steps[1]
        .wanted
        .found()
        .expect("the plan says it")
        .text;
    let give_up = &complete.steps[1]
        .give_up
        .found()
        .expect("the plan says it")
        .text;
    let beyond = format!(
        "{} ml",
        give_up
            .trim_end_matches(" ml")
            .parse::<f64>()
            .expect("a number")
            + 1.0
    );
    for (done, pushed, state) in [
        ("counted", wanted.as_str(), State::Within),
        ("counted", "1 ml", State::NotChecked),
        ("counted", "not_checked", State::NotChecked),
        ("by_jar", wanted.as_str(), State::Within),
        ("by_jar", "not_checked", State::NotChecked),
        ("by_strokes", "1 ml", State::NotChecked),
        ("counted", beyond.as_str(), State::LookAgain),
        ("left_out", "not_checked", State::NotChecked),
        ("not_checked", wanted.as_str(), State::NotChecked),
    ] {
        let settings = [("step 2 done", done), ("step 2 pushed", pushed)];
        let (text, _) = set_readings(&complete.to_ron(), &settings).expect("both fit");
        let record = read_record(text.as_bytes()).record.expect("it was set");
        let sheet = judge_record(&record);
        assert_eq!(sheet.state(), state, "{done} {pushed}");
        let is_named = sheet_verdict(&sheet).contains("NOT FINISHED: step 2, ");
        assert_eq!(
            is_named,
            state == State::NotChecked,
            "{}",
            sheet_verdict(&sheet)
        );
    }
    for task in &complete.tasks {
        for answer in ["not_checked", "no"] {
            let sheet = judge_record(&with(&complete, &format!("{} done", task.name), answer));
            assert_eq!(sheet.unfinished(), [task.name.as_str()]);
            assert!(
                sheet_verdict(&sheet).starts_with("NOT FINISHED: "),
                "{}",
                sheet_verdict(&sheet)
            );
        }
    }
}

/// The bleed after the routine is a part of the job like the first: its steps are asked for, each by its screw.
#[test]
fn a_step_of_the_second_bleed_left_open_is_not_finished() {
    let options = opening(&["anti-lock unit"]);
    let second = plan_demo("godwit", &options)
        .second
        .expect("the unit keeps air");
    let complete = filled(&blank_for("godwit", &options));
    assert_eq!(judge_record(&complete).unfinished(), [""; 0]);
    for step in &second.steps {
        let name = format!("second bleed, step {}", step.number);
        let named = complete.steps.iter().find(|known| known.name == name);
        let screws: Vec<String> = step.screws.iter().map(|it| it.screw.clone()).collect();
        assert_eq!(named.map(|named| &named.screws), Some(&screws));
        for answer in ["not_checked", "left_out"] {
            let sheet = judge_record(&with(&complete, &format!("{name} done"), answer));
            assert_ne!(sheet.state(), State::Within);
            assert!(
                sheet_verdict(&sheet).contains(&format!("NOT FINISHED: {name}")),
                "{}",
                sheet_verdict(&sheet)
            );
        }
    }
}

/// What each job leaves to be finished, by the plan's own facts: a vehicle, the options, and a task of its record.
const TASKS: &str = "
lapwing | | take the block of master away
lapwing | --skip 'front left' | bleed front left
lapwing | --method pressure | take the tank off
godwit | --opened 'anti-lock unit' | run the routine of anti-lock unit
godwit | --opened 'anti-lock unit' | bleed the circuits of anti-lock unit again
godwit | --opened 'anti-lock unit' | see the anti-lock lamp out
// What was changed before the job was interrupted is undone after it all the same.
ruff | --done 'rear left' --done 'rear right' | untie the lever of load valve
ruff | --done 'front left' --done 'front right' | release the stem of front metering valve
turnstone | --done rear | take the spacer out of rear caliper
// An order against the pipework leaves something to do.
lapwing | --for fill --order 'rear left, rear right' | bleed again in a sound order
";

#[test]
fn a_record_asks_for_what_its_plan_leaves() {
    let folder = empty_folder("readings/tasks");
    for (nth, [name, options, task]) in rows(TASKS).enumerate() {
        let path = folder.join(format!("{nth}.ron"));
        let file = path.to_str().expect("the path is text");
        let call = format!("readings '{file}' --for layouts/{name}.ron --with \"{options}\"");
        let run = run(&call);
        let bytes = std::fs::read(&path).unwrap_or_else(|_| panic!("{call}: {}", run.stderr));
        let record = read_record(&bytes).record.expect("it was just written");
        let tasks = record.vehicle.tasks;
        assert!(tasks.iter().any(|known| known == task), "{call}: {tasks:?}");
    }
}

/// A routine needs somebody's word for how and when, and nobody is asked for brakes that stay shut.
#[test]
fn a_record_asks_for_no_more_than_the_job() {
    let air = |opened: &str| opening(&[opened]);
    let mut routine = filled(&blank_for("godwit", &air("anti-lock unit")));
    assert_eq!(
        judge_record(&routine).state(),
        State::Within,
        "{}",
        sheet_verdict(&judge_record(&routine))
    );
    let nth = routine
        .tasks
        .iter()
        .position(|task| !task.by.is_empty())
        .expect("one is a routine");
    routine.tasks[nth].by = "?".to_owned();
    assert_eq!(judge_record(&routine).state(), State::NotChecked);
    let one = blank_for("lapwing", &air("front left caliper"));
    let plan = plan_demo("lapwing", &air("front left caliper"));
    let opened: BTreeSet<String> = screws(&plan).into_iter().map(str::to_owned).collect();
    assert_eq!(
        one.vehicle.screws.iter().cloned().collect::<BTreeSet<_>>(),
        opened
    );
    assert!(
        opened.len() < 4 && one.vehicle.brakes.len() == opened.len(),
        "{opened:?}"
    );
}
