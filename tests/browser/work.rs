//! What a technician does with a card: ticks, counts, sees to the reservoir, writes readings, saves, opens again.

use super::{Tab, demo};
use crate::binary::bleedwright;
use crate::demo::plan_demo;
use crate::readings::{blank, good};
use bleedwright_inspection::record::FieldKind;
use bleedwright_inspection::{read_record, record_form};
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
            const button = banner.querySelector('button');
            if (!button) return;
            for (const line of banner.querySelectorAll('p')) {
                stops.push([Number(element.querySelector('.count input').value), line.textContent]);
            }
            button.focus();
            button.click();
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
    let Some((tab, folder)) = demo("works", name, &[]) else {
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
        tab.run(&format!(
            "document.querySelector(\"[data-tick='step {}']\").click()",
            step.number
        ));
    }
    let wanted: usize = card.steps.iter().map(|step| step.stops.len()).sum();
    assert_eq!(seen, wanted, "{name}");
    enter_readings(&tab, name);
    let before = state(&tab);
    tab.reload();
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
            text.starts_with(&format!("{verb} {}: ", stop.compartment)),
            "{text}"
        );
    }
    let fluid = tab.text(&format!(
        "document.getElementById('step-{}-fluid').textContent",
        step.number
    ));
    assert!(
        fluid.contains("Amount reached"),
        "step {}: {fluid}",
        step.number
    );
    found.len()
}

/// Enters a good value for every reading that the form asks for.
fn enter_readings(tab: &Tab, name: &str) {
    for field in record_form(&blank(name)) {
        if field.name == "vehicle name" {
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
    let told = tab.text("document.getElementById('told').textContent");
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
            "not_checked" => "",
            _ if field.name.ends_with("lining") => continue,
            _ if field.name == "vehicle name" => continue,
            value => value,
        };
        assert_eq!(field.value, wanted, "{name}: {}", field.name);
    }
    assert!(!record.card.ticked.0.is_empty() && !record.card.counted.0.is_empty());
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

/// Starts again, and says yes.
pub(super) fn clear(tab: &Tab) {
    tab.click("#again");
    tab.wait_for("document.getElementById('ask').open");
    tab.click("#yes");
    tab.wait_for("document.getElementById('told').textContent.startsWith('Cleared')");
}

/// By the other methods millilitres are counted, and the stops are the same as on the sheet.
#[test]
fn other_methods_count_millilitres() {
    for method in ["pressure", "vacuum", "gravity", "reverse"] {
        let folder = format!("method-{method}");
        let Some((tab, _)) = demo(&folder, "lapwing", &["--method", method]) else {
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
    let Some((tab, _)) = demo("jar", "lapwing", &[]) else {
        return;
    };
    let fluid = |step: u32| {
        tab.text(&format!(
            "document.getElementById('step-{step}-fluid').textContent"
        ))
    };
    let jar = |step: u32, reads: &str| {
        tab.run(&format!(
            "(() => {{
                const jar = document.getElementById('step-{step}-jar-1');
                jar.value = '{reads}';
                jar.dispatchEvent(new Event('input', {{ bubbles: true }}));
            }})()"
        ));
    };
    tab.run("for (let n = 0; n < 13; n += 1) document.querySelector('#step-1 .more').click()");
    assert_eq!(fluid(1), "Fluid: 40 of 160 ml.");
    jar(1, "55");
    assert_eq!(fluid(1), "Fluid: 55 of 160 ml by the jar.");
    // 55 ml are as much as 17 strokes of the plan: the reservoir wants its first stop.
    let banner = || tab.text("document.getElementById('banner').textContent");
    assert!(
        banner().starts_with("TOP UP rear brakes: after 17 strokes"),
        "{}",
        banner()
    );
    jar(1, "170");
    jar(2, "180");
    assert_eq!(fluid(2), "Fluid: 10 of 21 ml by the jar.");
    jar(2, "30");
    let emptied =
        "Fluid: 30 of 21 ml by the jar, taken as emptied: it held 170 ml before this step.";
    assert!(fluid(2).starts_with(emptied), "{}", fluid(2));
    jar(1, "395");
    assert!(fluid(1).contains("GIVE UP at 390 ml"), "{}", fluid(1));
    assert!(banner().contains("GIVE UP: 390 ml reached"), "{}", banner());
}

/// A mouse over the page: what it hits counts, and the stop is seen to where it shows.
#[test]
fn a_click_counts_once() {
    let Some((tab, _)) = demo("click", "lapwing", &[]) else {
        return;
    };
    tab.look(390, "light");
    for _ in 0..6 {
        tab.click("#step-4 .more");
    }
    let banner = tab.text("document.getElementById('banner').textContent");
    let wanted = "TOP UP front brakes: after 6 strokes. Step 4, front right.";
    assert!(banner.starts_with(wanted), "{banner}");
    // It stays until somebody has seen to it, and then goes.
    tab.click("#step-4 .more");
    let banner = tab.text("document.getElementById('banner').textContent");
    assert!(banner.contains("after 6 strokes, now 7"), "{banner}");
    tab.click("#banner button");
    tab.wait_for("document.getElementById('banner').childElementCount === 0");
    tab.click("#step-4 .less");
    tab.click("#step-4 .less");
    tab.click("#step-4 .more");
    assert_eq!(
        tab.text("document.getElementById('said').textContent"),
        "6 of 14, 21 ml"
    );
    assert_eq!(
        tab.text("document.getElementById('banner').textContent"),
        ""
    );
}
