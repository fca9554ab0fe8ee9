//! Whose job a card shows, and what it forgets: nothing that somebody must still see to.

use super::work::{BEGUN, answer, clear, enter, go_on, save, tick};
use super::{Tab, demo, write_card};
use crate::demo::plan_demo;
use bleedwright_inspection::record::{Answer, StepEnd};
use bleedwright_inspection::{Record, read_record, set_readings};
use bleedwright_planner::Options;
use bleedwright_report::{Card, CardStep};
use serde_json::json;
use std::path::Path;

/// Writes into a field as a hand does, and leaves it.
fn write(tab: &Tab, id: &str, value: &str) {
    tab.run(&format!(
        "(() => {{
            const field = document.getElementById('{id}');
            field.value = '{value}';
            field.dispatchEvent(new Event('input', {{ bubbles: true }}));
            field.dispatchEvent(new Event('change', {{ bubbles: true }}));
        }})()"
    ));
}

fn first_step() -> CardStep {
    Card::new(&plan_demo("lapwing", &Options::default())).steps[0].clone()
}

fn ticked(tab: &Tab) -> u64 {
    let count = tab.run("document.querySelectorAll('[data-tick]:checked').length");
    count.as_u64().expect("a number")
}

fn record(tab: &Tab, folder: &Path) -> Record {
    let folder = folder.join("saved");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir(&folder).expect("the build folder can be written");
    let bytes = std::fs::read(save(tab, &folder)).expect("it was saved");
    read_record(&bytes).record.expect("a card saves no other")
}

/// A count ten times too high, seen to and corrected: the stops above it come again, by strokes and by the jar.
#[test]
fn a_corrected_count_brings_its_stops_again() {
    let Some((tab, _)) = demo("corrected", "lapwing", "") else {
        return;
    };
    let step = first_step();
    let strokes = step.strokes.expect("a pedal drives it");
    let stops: Vec<u64> = step
        .stops
        .iter()
        .map(|stop| stop.after)
        .filter(|after| *after > 0)
        .collect();
    let [first, second] = [stops[0], stops[1]];
    write(&tab, "step-1-count", &(first * 10).to_string());
    // Both the stops and the amount to give up at are there, each with its own button.
    while tab.run("Boolean(document.querySelector('#banner button'))") == json!(true) {
        tab.click("#banner button");
    }
    write(&tab, "step-1-count", &first.to_string());
    assert!(
        !tab.said("banner").contains("TOP UP"),
        "the first stop was seen to: {}",
        tab.said("banner")
    );
    write(&tab, "step-1-count", &second.to_string());
    let again = format!("TOP UP rear brakes: after {second} strokes");
    tab.assert_begins("banner", &again);
    // The same with the jar.
    write(&tab, "step-1-jar-1", "600");
    while tab.run("Boolean(document.querySelector('#banner button'))") == json!(true) {
        tab.click("#banner button");
    }
    let ml_at = |count: u64| (count * step.push_ml).div_ceil(strokes);
    write(&tab, "step-1-count", "0");
    write(&tab, "step-1-jar-1", &ml_at(first).to_string());
    write(&tab, "step-1-jar-1", &ml_at(second).to_string());
    tab.assert_says("banner", &again);
    assert_eq!(tab.complaints(), [""; 0]);
}

/// While a number is being typed nothing that was seen to is taken back.
#[test]
fn typing_takes_nothing_back() {
    let Some((tab, _)) = demo("typing", "lapwing", "") else {
        return;
    };
    let first = first_step().stops[0].after;
    write(&tab, "step-1-count", &first.to_string());
    tab.click("#banner button");
    tab.run(&format!(
        "(() => {{
            const field = document.getElementById('step-1-count');
            for (const value of ['2', '{}']) {{
                field.value = value;
                field.dispatchEvent(new Event('input', {{ bubbles: true }}));
            }}
            field.dispatchEvent(new Event('change', {{ bubbles: true }}));
        }})()",
        first + 3
    ));
    assert_eq!(tab.said("banner"), "");
}

/// A tick sees to no top-up, and the button of a top-up to no stop rule.
#[test]
fn what_is_pending_stays_until_it_is_seen_to() {
    let Some((tab, folder)) = demo("pending", "lapwing", "") else {
        return;
    };
    let step = first_step();
    let first = step.stops[0].after;
    write(&tab, "step-1-count", &first.to_string());
    tick(&tab, "step 1");
    tab.assert_begins("banner", "TOP UP rear brakes");
    tab.reload();
    go_on(&tab);
    tab.assert_begins("banner", "TOP UP rear brakes");
    tab.click("#banner button");
    assert_eq!(tab.said("banner"), "");
    let over = (step.give_up_ml + 5.0).to_string();
    write(&tab, "step-1-jar-1", &over);
    let buttons = tab.run(
        "[...document.querySelectorAll('#banner button')].map((button) => button.textContent)",
    );
    assert_eq!(
        buttons,
        json!(["Found and mended where air enters: go on", "Seen to: go on"])
    );
    tab.run("document.querySelectorAll('#banner button')[1].click()");
    tab.assert_begins("banner", "STOP AND LOOK: ");
    tab.reload();
    go_on(&tab);
    tab.assert_begins("banner", "STOP AND LOOK: ");
    tab.click("#banner button");
    assert_eq!(tab.said("banner"), "");
    let record = record(&tab, &folder);
    let counted = record.card.counted.0;
    assert!(
        counted.contains(&format!("step 1 stop 1: {first}")),
        "{counted:?}"
    );
    assert!(
        counted
            .iter()
            .any(|mark| mark.starts_with("step 1 give up: ")),
        "{counted:?}"
    );
}

/// A step that nobody counted is asked about once, and the record keeps the answer.
#[test]
fn a_step_that_was_not_counted_is_asked_about() {
    let Some((tab, folder)) = demo("uncounted", "lapwing", "") else {
        return;
    };
    for (step, chosen, end, says) in [
        (1, "by_jar", Some(StepEnd::ByJar), "steps 1 of 4"),
        (2, "by_strokes", Some(StepEnd::ByStrokes), "steps 2 of 4"),
        (3, "left_out", Some(StepEnd::LeftOut), "LEFT OUT: 3"),
        (4, "no", None, "Now step 4"),
    ] {
        tick(&tab, &format!("step {step}"));
        answer(&tab, chosen);
        let progress = "document.getElementById('progress').textContent";
        tab.wait_for(&format!("{progress}.includes('{says}')"));
        let ended = |record: &Record| record.steps[step - 1].done.found().copied();
        assert_eq!(ended(&record(&tab, &folder)), end, "{chosen}");
    }
    tab.assert_says("progress", "LEFT OUT: 3.");
    tab.assert_says("progress", "Now step 4");
    // Whoever did it by the jar topped up or did not: the card asks.
    tab.assert_says("banner", "Step 1, ");
    write(&tab, "step-4-count", "1");
    tick(&tab, "step 4");
    tab.assert_says("step-4-fluid", "NOT FINISHED");
    assert_eq!(
        record(&tab, &folder).steps[3].done.found(),
        Some(&StepEnd::Counted)
    );
}

/// The second bleed has its turn after the routine, is counted like any other step, and stands in the record.
#[test]
fn a_second_bleed_waits_for_the_routine() {
    let unit = "--opened 'anti-lock unit'";
    let Some((tab, folder)) = demo("second", "godwit", unit) else {
        return;
    };
    let progress = || tab.said("progress");
    let finish = |step: usize| {
        tick(&tab, &format!("step {step}"));
        answer(&tab, "by_strokes");
        tab.wait_for(&format!(
            "document.querySelector(\"[data-tick='step {step}']\").checked"
        ));
    };
    for step in 1..=6 {
        finish(step);
    }
    tab.wait_for("document.getElementById('now').textContent === 'Now: after'");
    assert!(
        progress().contains("up to the routine; then step 7"),
        "{}",
        progress()
    );
    let left = record(&tab, &folder);
    assert_eq!(left.steps.len(), 12);
    assert_eq!(left.steps[6].name, "second bleed, step 7");
    assert_eq!(left.steps[6].done.found(), None);
    let routine = "[...document.querySelectorAll('[data-tick]')].find((it) => it.parentElement.textContent.includes('routine run'))";
    tab.run(&format!("{routine}.click()"));
    tab.wait_for("document.getElementById('now').textContent === 'Now: step 7'");
    write(&tab, "step-7-count", "999");
    finish_counted(&tab, 7);
    for step in 8..=12 {
        finish(step);
    }
    tab.wait_for("document.getElementById('now').getAttribute('href') === '#after-second'");
    let done = record(&tab, &folder);
    assert_eq!(done.steps[6].done.found(), Some(&StepEnd::Counted));
    assert!(
        done.steps[7..]
            .iter()
            .all(|step| step.done.found() == Some(&StepEnd::ByStrokes))
    );
    let marks = &done.card.counted.0;
    assert!(marks.contains(&"step 7: 999".to_owned()), "{marks:?}");
    let tasks = |name: &str| {
        done.tasks
            .iter()
            .find(|task| task.name == name)
            .and_then(|task| task.done.found().copied())
    };
    assert_eq!(
        tasks("run the routine of anti-lock unit"),
        Some(Answer::Yes)
    );
    assert_eq!(tasks("bleed the circuits of anti-lock unit again"), None);
}

fn finish_counted(tab: &Tab, step: usize) {
    tick(tab, &format!("step {step}"));
    tab.wait_for(&format!(
        "document.querySelector(\"[data-tick='step {step}']\").checked"
    ));
}

/// Opened again, a card asks whose job it shows; a new one is blank, and the closed one stays to read.
#[test]
fn a_card_asks_whose_job_it_is() {
    let Some((tab, _)) = demo("whose", "lapwing", "") else {
        return;
    };
    tick(&tab, "before 1");
    enter(&tab, "vehicle registration", "SM 1742");
    let shown = || tab.said("registration");
    assert_eq!(shown(), "SM 1742");
    tab.reload();
    tab.wait_for("document.getElementById('ask').open");
    assert_eq!((ticked(&tab), shown().as_str()), (0, "____________"));
    tab.assert_says("answers", "SM 1742, begun 2");
    tab.assert_says("answers", "last touched 2");
    // No way round the question.
    tab.press("Escape", 27, "");
    tab.press("Escape", 27, "");
    answer(&tab, "new");
    tab.wait_for(BEGUN);
    assert_eq!(ticked(&tab), 0);
    enter(&tab, "vehicle registration", "SM 9");
    tick(&tab, "before 2");
    clear(&tab);
    tab.assert_says("jobs", "Closed: SM 9, ");
    tab.assert_says("jobs", "Open: SM 1742, ");
    tab.assert_says("jobs", "Step 1, rear left: open");
    tab.reload();
    go_on(&tab);
    assert_eq!((ticked(&tab), shown().as_str()), (1, "SM 1742"));
    // Another window at the same job.
    tab.run(
        "dispatchEvent(new StorageEvent('storage', { key: Object.keys(localStorage).find((key) => localStorage.getItem(key).includes('SM 1742')) }))",
    );
    assert_eq!(tab.run("document.querySelector('main').inert"), json!(true));
    assert_eq!(tab.complaints(), [""; 0]);
}

/// A job goes on by the plan that it was begun with: another plan keeps it and waits, or closes it.
#[test]
fn a_plan_is_frozen_while_its_job_is_open() {
    let Some((tab, folder)) = demo("frozen", "lapwing", "") else {
        return;
    };
    let other = folder.join("other");
    std::fs::create_dir(&other).expect("the build folder can be written");
    let layout = crate::binary::root().join("layouts/lapwing.ron");
    let other = write_card(&layout, "--for air", &other);
    tick(&tab, "before 2");
    tab.open(&other);
    tab.wait_for("document.getElementById('ask').open");
    tab.assert_says("answers", "It was begun by another plan, in card.html");
    tab.run("document.getElementById('go-0').click()");
    tab.wait_for("document.querySelector('main').inert");
    tab.assert_says("locked", "Go on with it in the card card.html");
    tab.open(&folder.join("card.html"));
    go_on(&tab);
    assert_eq!(ticked(&tab), 1);
    tab.open(&other);
    answer(&tab, "close-0");
    tab.wait_for(BEGUN);
    assert_eq!(ticked(&tab), 0);
    tab.assert_says("jobs", "Closed: no registration, ");
    // A registration that the plan was made for keeps the jobs of its like apart, and the date makes no other plan.
    let named = folder.join("named");
    std::fs::create_dir(&named).expect("the build folder can be written");
    let named = write_card(&layout, "--registration 'SM 1742' --date Monday", &named);
    tab.open(&named);
    tick(&tab, "before 1");
    let plan = |tab: &Tab| tab.text("document.querySelector('main').dataset.plan");
    let first = plan(&tab);
    tab.open(&folder.join("card.html"));
    tab.wait_for("document.getElementById('ask').open");
    assert_eq!(plan(&tab), first);
    go_on(&tab);
    assert_eq!(tab.said("registration"), "SM 1742");
    assert_eq!(tab.complaints(), [""; 0]);
}

/// A top-up that nobody saw to, or saw to too late, two jars of which one is empty, and a mark lower than the last one are
/// no finished steps, and steps of another plan are none of this card's.
#[test]
fn what_was_not_done_is_not_saved_as_done() {
    let Some((tab, folder)) = demo("unearned", "lapwing", "") else {
        return;
    };
    let step = first_step();
    let strokes = step.strokes.expect("a pedal drives it");
    let level = |record: &Record| record.steps[0].level_kept.found().copied();
    let tick = || tick(&tab, "step 1");
    write(&tab, "step-1-count", &strokes.to_string());
    tick();
    assert_eq!(level(&record(&tab, &folder)), Some(Answer::No));
    // One press for stops that came long ago makes no level that was kept.
    tab.click("#banner button");
    assert_eq!(level(&record(&tab, &folder)), Some(Answer::No));
    // Nor does one stroke less and one more.
    for button in [".less", ".more"] {
        tab.run(&format!(
            "document.querySelector('#step-1 {button}').click()"
        ));
        tab.run("document.querySelector('#banner button')?.click()");
    }
    assert_eq!(level(&record(&tab, &folder)), Some(Answer::No));
    tick();
    write(&tab, "step-1-count", "0");
    for stop in step.stops.iter().filter(|stop| stop.after <= strokes) {
        write(&tab, "step-1-count", &stop.after.to_string());
        tab.click("#banner button");
    }
    write(&tab, "step-1-count", &strokes.to_string());
    tick();
    assert_eq!(level(&record(&tab, &folder)), Some(Answer::Yes));
    // A jar holds less than before: it was misread.
    write(&tab, "step-1-jar-1", &step.push_ml.to_string());
    write(&tab, "step-2-jar-1", &(step.push_ml - 1).to_string());
    tab.assert_begins("step-2-fluid", "Fluid: 0 of ");
    tab.assert_says("step-2-fluid", "read it again");
    // The same steps, and no plan that says so.
    let mut other = record(&tab, &folder);
    other.card.plan.clear();
    let problem = tab.run(&format!(
        "(() => {{ const read = RecordFile.read({}, ''); return [read.work, read.isOther]; }})()",
        json!(other.to_json())
    ));
    assert_eq!(problem, json!([null, true]));
}

/// What the file says of a step stays as it is said while nobody touches that step, over a reload too.
#[test]
fn what_a_file_says_of_a_step_is_not_made_better() {
    let Some((tab, folder)) = demo("told", "lapwing", "") else {
        return;
    };
    let step = first_step();
    write(
        &tab,
        "step-1-count",
        &step.strokes.expect("a pedal drives it").to_string(),
    );
    tick(&tab, "step 1");
    let saved = record(&tab, &folder);
    for (end, pushed, level) in [
        (StepEnd::Counted, "10 ml", "yes"),
        (StepEnd::Counted, "195 ml", "no"),
        (StepEnd::ByJar, "10 ml", "yes"),
        (StepEnd::ByStrokes, "not_checked", "yes"),
    ] {
        let settings = [
            ("step 1 done", end.word()),
            ("step 1 pushed", pushed),
            ("step 1 level kept", level),
        ];
        let (text, _) = set_readings(&saved.to_json(), &settings).expect("they fit");
        let wanted = read_record(text.as_bytes()).record.expect("it was set");
        let file = folder.join("told.json");
        std::fs::write(&file, text).expect("the build folder can be written");
        tab.run("document.getElementById('told').textContent = ''");
        tab.choose_file("#file", &file);
        answer(&tab, "yes");
        tab.wait_for("document.getElementById('told').textContent.startsWith('Opened')");
        assert_eq!(record(&tab, &folder).steps[0], wanted.steps[0]);
        tab.reload();
        go_on(&tab);
        assert_eq!(record(&tab, &folder).steps[0], wanted.steps[0]);
    }
}

/// Two screws at a time: each wants its own amount.
#[test]
fn both_jars_of_a_step_must_hold_theirs() {
    let Some((tab, folder)) = demo("jars", "curlew", "") else {
        return;
    };
    let step = Card::new(&plan_demo("curlew", &Options::default())).steps[0].clone();
    assert_eq!(step.jars.len(), 2);
    let done = |one: u64, other: &str| {
        write(&tab, "step-1-jar-1", &one.to_string());
        write(&tab, "step-1-jar-2", other);
        let record = record(&tab, &folder);
        record.steps[0]
            .pushed
            .found()
            .expect("jars were read")
            .text
            .clone()
    };
    assert_eq!(done(step.push_ml, "0"), "0 ml");
    tick(&tab, "step 1");
    assert_eq!(done(step.push_ml, ""), "0 ml");
    let whole = done(step.jars[0].push_ml, &step.jars[1].push_ml.to_string());
    assert_eq!(whole, format!("{} ml", step.push_ml));
}
