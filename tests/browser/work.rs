//! What a technician does with a card: ticks, counts, sees to the reservoir, writes readings, saves, opens again.

use super::{Tab, demo};
use crate::binary::bleedwright;
use crate::demo::plan_demo;
use crate::readings::{blank, good};
use bleedwright_inspection::record::{FieldKind, FormField};
use bleedwright_inspection::{judge_record, read_record, record_form};
use bleedwright_planner::{Method, Options};
use bleedwright_report::{Card, CardStep};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// Counts a step by its button, sees to each stop, and gives the counts at which one came up with the names in it.
const COUNT: &str = "
    (step, wanted, by) => {
        const element = document.getElementById(`step-${step}`);
        const more = element.querySelector('.more');
        const stops = [];
        const look = () => {
            const banner = document.getElementById('banner');
            for (const line of banner.querySelectorAll('p')) {
                stops.push([Number(element.querySelector('.count input').value), line.textContent]);
            }
            // A stop rule and a top-up have a button each.
            for (let button = banner.querySelector('button'); button; button = banner.querySelector('button')) {
                button.focus();
                button.click();
            }
        };
        more.focus();
        look();
        for (let count = 0; count < wanted; count += by) {
            more.click();
            look();
        }
        return stops;
    }";

/// A whole day's work on the card of a demo vehicle.
pub(super) fn check(name: &str) {
    let Some((tab, folder)) = demo("works", name, "") else {
        return;
    };
    let plan = plan_demo(name, &Options::default());
    let card = Card::new(&plan);
    assert_eq!(
        tab.run("document.querySelectorAll('.step[aria-current]').length"),
        json!(1)
    );
    tab.run(
        "for (const tick of document.querySelectorAll(\"[data-tick^='before']\")) tick.click()",
    );
    let mut seen = 0;
    for step in &card.steps {
        seen += count(&tab, step);
        tick(&tab, &format!("step {}", step.number));
    }
    let wanted: usize = card.steps.iter().map(|step| step.stops.len()).sum();
    assert_eq!(seen, wanted, "{name}");
    tab.run("for (const tick of document.querySelectorAll(\"[data-tick^='after']\")) tick.click()");
    enter_readings(&tab, name);
    let before = state(&tab);
    tab.reload();
    go_on(&tab);
    assert_eq!(state(&tab), before, "{name} after a reload");
    let file = save(&tab, &folder);
    is_taken(&file, name);
    comes_back(&tab, &file);
    assert_eq!(tab.complaints(), [""; 0], "{name}");
}

/// Counts to the end and compares every stop that came up with the plan. Gives how many there were.
fn count(tab: &Tab, step: &CardStep) -> usize {
    let (planned, by) = match step.strokes {
        Some(strokes) => (strokes, 1),
        None => (step.push_ml, 10),
    };
    // A plan has stops for those who have to go on a little longer too.
    let last = step.stops.iter().map(|stop| stop.after).max();
    let wanted = last.map_or(planned, |last| last.max(planned));
    let found = tab.run(&format!("({COUNT})({}, {wanted}, {by})", step.number));
    let found: Vec<(u64, String)> = serde_json::from_value(found).expect("counts with texts");
    // Whoever counts to the last stop gets beyond where the step is given up, and is told once.
    let (over, found): (Vec<_>, Vec<_>) = (found.into_iter())
        .partition(|(_, text)| text.starts_with("STOP AND LOOK") && !text.contains("TOP UP"));
    assert!(over.len() <= 1, "step {}: {over:?}", step.number);
    let mut stops = step.stops.clone();
    stops.sort_by_key(|stop| stop.after);
    // In tens a stop comes up at the first ten that is not before it.
    let at = |after: u64| after.div_ceil(by) * by;
    let reached: Vec<_> = stops
        .iter()
        .filter(|stop| stop.after <= at(wanted))
        .collect();
    assert_eq!(
        found.len(),
        reached.len(),
        "step {}: {found:?}",
        step.number
    );
    for ((count, text), stop) in found.iter().zip(reached) {
        assert_eq!(*count, at(stop.after), "step {}: {text}", step.number);
        let verb = if stop.is_top_up { "TOP UP" } else { "DRAW OFF" };
        assert!(
            text.contains(&format!("{verb} {}: ", stop.compartment)),
            "{text}"
        );
    }
    let fluid = tab.said(&format!("step-{}-fluid", step.number));
    assert!(
        fluid.contains("Amount reached") || fluid.contains("STOP at "),
        "step {}: {fluid}",
        step.number
    );
    found.len()
}

/// Enters a good value for every reading that the form asks for.
fn enter_readings(tab: &Tab, name: &str) {
    for field in record_form(&blank(name)) {
        if is_told_by_the_card(&field) {
            continue;
        }
        let value = good(&field.name);
        let value = if value == "not_checked" { "" } else { value };
        enter(tab, &field.name, value);
    }
    // A number alone, with the unit beside it.
    let quantity = record_form(&blank(name)).into_iter().find(|field| {
        matches!(field.kind, FieldKind::Quantity(_)) && field.name.ends_with("lining")
    });
    if let Some(field) = quantity {
        enter(tab, &field.name, "7,5");
        let found = tab.run(&format!(
            "document.querySelector({}).value",
            json!(selector(&field.name))
        ));
        assert_eq!(found, "7.5");
    }
    assert_eq!(
        tab.run("document.querySelectorAll('.wrong').length"),
        json!(0),
        "{name}"
    );
}

/// What nobody is asked for: the vehicle's name, and what the steps and the list of what comes after say by themselves.
fn is_told_by_the_card(field: &FormField) -> bool {
    field.name == "vehicle name"
        || field.section == "steps"
        || (field.section == "tasks" && field.field == "done")
}

/// Whether it is known whose job the card shows.
pub(super) const BEGUN: &str = "document.documentElement.classList.contains('begun')";

/// Ticks a line of the card, or takes its tick away.
pub(super) fn tick(tab: &Tab, name: &str) {
    tab.run(&format!(
        "document.querySelector(\"[data-tick='{name}']\").click()"
    ));
}

/// Waits for the card's question and gives one of its answers.
pub(super) fn answer(tab: &Tab, id: &str) {
    tab.wait_for("document.getElementById('ask').open");
    tab.run(&format!("document.getElementById('{id}').click()"));
}

/// Goes on with the job that the browser kept.
pub(super) fn go_on(tab: &Tab) {
    answer(tab, "go-0");
    tab.wait_for(BEGUN);
}

fn selector(name: &str) -> String {
    format!("[data-name={}]", json!(name))
}

/// Enters one reading as a hand does: the value, then on to the next.
pub(super) fn enter(tab: &Tab, name: &str, value: &str) {
    tab.run(&format!(
        "((selector, value) => {{
            const element = document.querySelector(selector);
            if (element.dataset.words) {{
                [...element.querySelectorAll('input')].find((radio) => radio.value === value).click();
                return;
            }}
            element.focus();
            element.value = value;
            element.dispatchEvent(new Event('input', {{ bubbles: true }}));
            element.dispatchEvent(new Event('change', {{ bubbles: true }}));
        }})({}, {})",
        json!(selector(name)),
        json!(value)
    ));
}

/// Everything that somebody put into the page.
pub(super) fn state(tab: &Tab) -> Value {
    tab.run(
        "[...document.querySelectorAll('main input:not([type=file]), main select, main textarea')]
            .map((element) => [element.id || element.dataset.tick || element.name + element.value, element.value, element.checked])",
    )
}

/// Saves the record into the folder and gives its path.
pub(super) fn save(tab: &Tab, folder: &Path) -> PathBuf {
    tab.download_into(folder);
    tab.click("#save");
    let told = tab.said("told");
    let name = told
        .strip_prefix("Saved as ")
        .and_then(|rest| rest.split_once(' '))
        .unwrap_or_else(|| panic!("{told}"));
    let file = folder.join(name.0);
    Tab::wait_for_file(&file);
    file
}

/// The program takes the file, and everything entered stands in the sheet.
fn is_taken(file: &Path, name: &str) {
    let bytes = std::fs::read(file).expect("it was saved");
    let read = read_record(&bytes);
    assert!(read.findings.is_empty(), "{name}: {:#?}", read.findings);
    let record = read.record.expect("no finding, so a record");
    for field in record_form(&record) {
        let wanted = match good(&field.name) {
            _ if is_told_by_the_card(&field) => continue,
            "not_checked" => "",
            _ if field.name.ends_with("lining") => continue,
            value => value,
        };
        assert_eq!(field.value, wanted, "{name}: {}", field.name);
    }
    assert!(!record.card.ticked.0.is_empty() && !record.card.counted.0.is_empty());
    assert_eq!(judge_record(&record).unfinished(), [""; 0], "{name}");
    let sheet = bleedwright()
        .arg("readings")
        .arg(file)
        .output()
        .expect("the program runs");
    let text = String::from_utf8_lossy(&sheet.stdout);
    assert!(
        sheet.status.success(),
        "{name}: {}",
        String::from_utf8_lossy(&sheet.stderr)
    );
    for part in [
        "0.5 %",
        "21.3 mm",
        "the evening class",
        "2026-11-25",
        "9.2 N m",
    ] {
        let has_no_disc = part == "21.3 mm"
            && !record
                .brakes
                .iter()
                .any(|brake| brake.disc.found().is_some());
        assert!(
            has_no_disc || text.contains(part),
            "{name} has no {part}: {text}"
        );
    }
}

/// Cleared, the card is blank; opened again, it saves the very same file.
fn comes_back(tab: &Tab, file: &Path) {
    clear(tab);
    let left = tab.run("document.querySelectorAll('[data-tick]:checked').length");
    assert_eq!(left, json!(0));
    tab.choose_file("#file", file);
    tab.wait_for("document.getElementById('told').textContent.startsWith('Opened')");
    let again = file.with_file_name("again");
    std::fs::create_dir(&again).expect("the build folder can be written");
    let again = save(tab, &again);
    let read = |path: &Path| std::fs::read_to_string(path).expect("it was saved");
    assert_eq!(read(&again), read(file));
}

/// Closes the job, and says yes.
pub(super) fn clear(tab: &Tab) {
    tab.click("#again");
    tab.wait_for("document.getElementById('ask').open");
    tab.click("#yes");
    tab.wait_for("document.getElementById('told').textContent.startsWith('Closed')");
}

/// By the other methods millilitres are counted, and the stops are the same as on the sheet.
#[test]
fn other_methods_count_millilitres() {
    for method in ["pressure", "vacuum", "gravity", "reverse"] {
        let folder = format!("method-{method}");
        let Some((tab, _)) = demo(&folder, "lapwing", &format!("--method {method}")) else {
            return;
        };
        let options = Options {
            method: match method {
                "pressure" => Method::Pressure,
                "vacuum" => Method::Vacuum,
                "gravity" => Method::Gravity,
                _ => Method::Reverse,
            },
            ..Options::default()
        };
        let plan = plan_demo("lapwing", &options);
        for step in &Card::new(&plan).steps {
            assert!(step.strokes.is_none());
            count(&tab, step);
        }
        assert_eq!(tab.complaints(), [""; 0], "{method}");
    }
}

/// What the jar holds counts for more than strokes, and a jar fills from step to step.
#[test]
fn the_jar_is_believed() {
    let Some((tab, _)) = demo("jar", "lapwing", "") else {
        return;
    };
    let fluid = |step: u32| tab.said(&format!("step-{step}-fluid"));
    let jar = |step: u32, reads: &str| {
        tab.run(&format!(
            "(() => {{
                const jar = document.getElementById('step-{step}-jar-1');
                jar.value = '{reads}';
                jar.dispatchEvent(new Event('input', {{ bubbles: true }}));
            }})()"
        ));
    };
    let card = Card::new(&plan_demo("lapwing", &Options::default()));
    let [one, two] = [&card.steps[0], &card.steps[1]];
    let (push_ml, strokes) = (one.push_ml, one.strokes.expect("a pedal drives it"));
    let ml_after = |count: u64| (count * push_ml) as f64 / strokes as f64;
    tab.run("for (let n = 0; n < 13; n += 1) document.querySelector('#step-1 .more').click()");
    let counted = format!("Fluid: {:.0} of {push_ml} ml.", ml_after(13));
    assert_eq!(fluid(1), counted);
    // As much as so many strokes of the plan: the reservoir wants its first stop.
    let first = one.stops[0].after;
    let by_jar = ml_after(first).ceil();
    jar(1, &by_jar.to_string());
    assert_eq!(
        fluid(1),
        format!("Fluid: {by_jar} of {push_ml} ml by the jar.")
    );
    let banner = || tab.said("banner");
    let due = format!("TOP UP rear brakes: after {first} strokes");
    assert!(banner().starts_with(&due), "{}", banner());
    let held = push_ml + 10;
    jar(1, &held.to_string());
    jar(2, &(held + 10).to_string());
    assert_eq!(
        fluid(2),
        format!("Fluid: 10 of {} ml by the jar.", two.push_ml)
    );
    jar(2, "30");
    let emptied = format!(
        "Fluid: 30 of {} ml by the jar, taken as emptied: it held {held} ml before this step.",
        two.push_ml
    );
    assert!(fluid(2).starts_with(&emptied), "{}", fluid(2));
    let give_up = one.give_up_ml;
    jar(1, &(give_up + 5.0).to_string());
    let over = format!("STOP at {give_up} ml");
    assert!(fluid(1).contains(&over), "{}", fluid(1));
    let over = format!("STOP AND LOOK: {give_up} ml reached");
    assert!(banner().contains(&over), "{}", banner());
}

/// A mouse over the page: what it hits counts, and the stop is seen to where it shows.
#[test]
fn a_click_counts_once() {
    let Some((tab, _)) = demo("click", "lapwing", "") else {
        return;
    };
    tab.look(390, "light");
    let card = Card::new(&plan_demo("lapwing", &Options::default()));
    let step = &card.steps[0];
    let (first, strokes) = (
        step.stops[0].after,
        step.strokes.expect("a pedal drives it"),
    );
    for _ in 0..first {
        tab.click("#step-1 .more");
    }
    let banner = tab.said("banner");
    let wanted = format!("TOP UP rear brakes: after {first} strokes. Step 1, rear left.");
    assert!(banner.starts_with(&wanted), "{banner}");
    // It stays until somebody has seen to it, and then goes; a lower count takes that back.
    tab.click("#step-1 .more");
    let banner = tab.said("banner");
    let still = format!("after {first} strokes, now {}", first + 1);
    assert!(banner.contains(&still), "{banner}");
    tab.click("#banner button");
    tab.wait_for("document.getElementById('banner').childElementCount === 0");
    tab.click("#step-1 .less");
    tab.click("#step-1 .less");
    tab.click("#step-1 .more");
    let ml = (first * step.push_ml) as f64 / strokes as f64;
    assert_eq!(
        tab.said("said"),
        format!("{first} of {strokes}, {ml:.0} ml")
    );
    tab.assert_begins("banner", &wanted);
}
