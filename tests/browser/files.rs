//! Files that a card refuses, and a browser that keeps nothing.

use super::work::{clear, enter, save, state, tick};
use super::{Tab, demo};
use crate::binary::empty_folder;
use crate::readings::blank;
use crate::table::rows;
use bleedwright_inspection::record::AMOUNTS_REVISION;
use serde_json::{Value, json};
use std::path::Path;

fn told(tab: &Tab) -> String {
    tab.said("told")
}

/// Gives a file to the card and waits for what it says.
fn open(tab: &Tab, folder: &Path, content: &[u8]) -> String {
    let file = folder.join("given.json");
    std::fs::write(&file, content).expect("the build folder can be written");
    tab.run("document.getElementById('told').textContent = ''");
    tab.choose_file("#file", &file);
    tab.wait_for(
        "document.getElementById('told').textContent !== '' || document.getElementById('ask').open",
    );
    told(tab)
}

fn lapwing() -> Value {
    serde_json::from_str(&blank("lapwing").to_json()).expect("a record is JSON")
}

fn changed(change: impl Fn(&mut Value)) -> Vec<u8> {
    let mut record = lapwing();
    change(&mut record);
    record.to_string().into_bytes()
}

/// What is set where in a record, and what the card says of it.
const CHANGES: &str = r#"
/format | 2 | the format number is 2
/readings_of/screws | ["rear left"] | another layout
/checks/colour | "blue" | a field “colour”
/weather | {} | a part “weather”
/checks/moisture | "30 %" | cannot be a reading
/checks/leak_found | "perhaps" | is not known: yes, no
/brakes/0/name | "fifth" | “fifth” among its brakes
"#;

#[test]
fn what_is_no_record_of_this_vehicle_changes_nothing() {
    let Some((tab, folder)) = demo("refused", "lapwing", "") else {
        return;
    };
    tick(&tab, "before 1");
    enter(&tab, "moisture", "1 %");
    let before = state(&tab);
    let whole = blank("lapwing").to_json();
    let files: [(Vec<u8>, &str); 7] = [
        (b"".to_vec(), "not JSON"),
        (
            whole.as_bytes()[..whole.len() / 2].to_vec(),
            "only a part of a file",
        ),
        (b"\x89PNG\r\n\x1a\n\0\0".to_vec(), "not a text"),
        (b"[1, 2]".to_vec(), "not a record"),
        (
            b"{\"format\": 1, \"cylinders\": []}".to_vec(),
            "not a record",
        ),
        (
            blank("lapwing").to_ron().into_bytes(),
            "--format record-json",
        ),
        (blank("plover").to_json().into_bytes(), "it belongs to"),
    ];
    let changes = rows(CHANGES).map(|[place, value, wanted]| {
        let (owner, field) = place
            .rsplit_once('/')
            .expect("a place begins with a stroke");
        let value: Value = serde_json::from_str(value).expect("it is JSON");
        let file = changed(|record| {
            let owner = record.pointer_mut(owner).expect("the record has it");
            owner[field] = value.clone();
        });
        (file, wanted)
    });
    for (content, wanted) in files.into_iter().chain(changes) {
        let said = open(&tab, &folder, &content);
        assert!(said.contains(wanted), "{wanted}: {said}");
        assert!(said.starts_with("Not opened: given.json: "), "{said}");
        assert!(
            said.ends_with("Nothing on this page was changed."),
            "{said}"
        );
        assert_eq!(state(&tab), before, "{wanted}");
    }
    let large = vec![b' '; 4 * 1024 * 1024 + 1];
    assert!(open(&tab, &folder, &large).contains("too large"));
    assert_eq!(state(&tab), before);
    assert_eq!(tab.complaints(), [""; 0]);
}

/// A least thickness of nothing in a file of earlier days is opened, as the program reads it, marked, and not saved again.
#[test]
fn a_least_thickness_of_nothing_is_marked() {
    let Some((tab, folder)) = demo("nothing", "lapwing", "") else {
        return;
    };
    let file = changed(|record| record["brakes"][0]["disc_minimum"] = json!("0 mm"));
    let said = open(&tab, &folder, &file);
    assert!(!said.contains("Not opened"), "{said}");
    let wrong = "document.getElementById('brakes-0-disc_minimum-wrong')?.textContent ?? ''";
    assert!(tab.text(wrong).contains("2 mm to 60 mm"));
    tab.click("#save");
    assert!(told(&tab).starts_with("Not saved: front left disc minimum"));
    enter(&tab, "front left disc minimum", "20 mm");
    assert_eq!(tab.text(wrong), "");
    save(&tab, &folder);
}

/// A record of the command line goes into the card; ticks of another plan do not, and nothing is replaced unasked.
#[test]
fn readings_without_marks_of_this_plan_are_taken() {
    let Some((tab, folder)) = demo("taken", "lapwing", "") else {
        return;
    };
    let written = |plan: &str, amounts: Option<u32>| {
        changed(|record| {
            record["checks"]["moisture"] = json!("1.5 %");
            record["checks"]["fluid"] = json!("DOT 5.1");
            record["brakes"][0]["disc"] = json!("13/16 in ± 0.1 mm");
            record["card"] =
                json!({ "plan": plan, "ticked": ["step 1"], "counted": ["step 1: 52"] });
            if let Some(amounts) = amounts {
                record["card"]["amounts"] = json!(amounts.to_string());
            }
        })
    };
    let said = open(&tab, &folder, &written("another", Some(AMOUNTS_REVISION)));
    assert!(said.contains("belong to another plan"), "{said}");
    clear(&tab);
    let said = open(&tab, &folder, &written("another", None));
    assert!(said.contains("were made from an older plan"), "{said}");
    let field = |id: &str| tab.text(&format!("document.getElementById('{id}').value"));
    assert_eq!(field("checks-moisture"), "1.5");
    assert_eq!(field("checks-fluid"), "dot5_1");
    assert_eq!(field("brakes-0-disc"), "13/16 in ± 0.1 mm");
    assert_eq!(field("step-1-count"), "0");
    // There is something on the page now, so that it asks.
    let plan = tab.text("document.querySelector('main').dataset.plan");
    open(&tab, &folder, &written(&plan, None));
    assert_eq!(tab.run("document.getElementById('ask').open"), json!(true));
    tab.click("#no");
    tab.wait_for("document.getElementById('told').textContent.startsWith('Not opened.')");
    assert_eq!(field("step-1-count"), "0");
    open(&tab, &folder, &written(&plan, None));
    tab.click("#yes");
    tab.wait_for("document.getElementById('told').textContent.startsWith('Opened given.json.')");
    assert_eq!(field("step-1-count"), "52");
}

/// A reading that the program would refuse is not saved, and the card says which.
#[test]
fn what_cannot_stand_in_a_record_is_not_saved() {
    let Some((tab, folder)) = demo("wrong", "lapwing", "") else {
        return;
    };
    for (name, value, wanted) in [
        ("front left disc", "21.3 furlong", "not known: mm"),
        ("front left disc", "2130 mm", "2 mm to 60 mm"),
        ("front left disc", "-2 mm", "not understood"),
        ("front left disc", "1/0 in", "not a number"),
        ("pedal hold time", "61 min", "0 s to 60 min"),
        ("boiling point", "20", "90 degC"),
        ("moisture", "wet", "not understood"),
    ] {
        enter(&tab, name, value);
        tab.click("#save");
        let said = told(&tab);
        assert!(
            said.starts_with(&format!("Not saved: {name} ")) && said.contains(wanted),
            "{value}: {said}"
        );
        let focus = tab.text("document.activeElement.dataset.name");
        assert_eq!(focus, name);
        enter(&tab, name, "");
    }
    enter(&tab, "pedal free", "40 mm");
    enter(&tab, "pedal depressed", "2 in");
    tab.click("#save");
    assert!(told(&tab).contains("contradicts"), "{}", told(&tab));
    enter(&tab, "pedal free", "3 in");
    let file = save(&tab, &folder);
    let text = std::fs::read(file).expect("it was saved");
    assert!(bleedwright_inspection::read_record(&text).record.is_some());
}

/// What the card takes for a reading, the program takes too; what people usually write, both do.
#[test]
fn what_the_card_takes_the_program_takes() {
    let Some((tab, _)) = demo("quantities", "lapwing", "") else {
        return;
    };
    let numbers = [
        "0", "7", "7.", ".5", "20.1", "007", "13/16", "1 3/16", "1-3/16", "1/0", "-3", "1e2",
        "700.0001", "9999999", "NaN", "7,5", "",
    ];
    let units = [
        "", " ", "mm", " mm", " in", " \"", " MM", " N m", " lbf  ft", " %", " degC", " °F", " K",
        " min", " furlong", " mm mm",
    ];
    let spreads = [
        "",
        " ± 0.1",
        " +- 10 %",
        "±0.1 mm",
        " ± 50 mm",
        " +/- 1/16 in",
        " ± ",
        " ± 0.1 mm ± 1",
    ];
    let (mut taken, mut refused) = (0, 0);
    for (name, unit) in [
        ("front left disc", "mm"),
        ("rear left screw torque", "N m"),
        ("moisture", "%"),
        ("boiling point", "degC"),
        ("pedal hold time", "s"),
    ] {
        let texts: Vec<String> = numbers
            .iter()
            .flat_map(|number| units.iter().map(move |unit| format!("{number}{unit}")))
            .flat_map(|value| spreads.iter().map(move |spread| format!("{value}{spread}")))
            .collect();
        let taken_by_the_card = tab.run(&format!(
            "((texts) => {{
                const field = document.querySelector('[data-name={}]');
                return texts.map((text) => {{
                    field.value = text;
                    field.dispatchEvent(new Event('change'));
                    return field.getAttribute('aria-invalid') === 'true' ? null : field.value.trim();
                }});
            }})({})",
            json!(name),
            json!(texts)
        ));
        for (text, found) in texts
            .iter()
            .zip(taken_by_the_card.as_array().expect("a list"))
        {
            let Some(found) = found.as_str().filter(|found| !found.is_empty()) else {
                refused += 1;
                continue;
            };
            let has_unit = found.contains(|c: char| !(c.is_ascii_digit() || " .,/-".contains(c)));
            let value = if has_unit {
                found.to_owned()
            } else {
                format!("{found} {unit}")
            };
            let set = bleedwright_inspection::set_readings(
                &blank("lapwing").to_json(),
                &[(name, &value)],
            );
            assert!(
                set.is_ok(),
                "{name}: the card takes `{text}`, the program says {set:?}"
            );
            taken += 1;
        }
        enter(&tab, name, "");
    }
    assert!(
        taken > 200 && refused > 2000,
        "{taken} taken, {refused} refused"
    );
    for (name, value) in [
        ("front left disc", "21.3"),
        ("front left disc", "13/16 in"),
        ("front left disc", "1 3/16 in ± 1/16 in"),
        ("front left disc", "20.1 ± 0.2 mm"),
        ("front left disc", "20.1 mm +- 10 %"),
        ("rear left screw torque", "6 lbf ft"),
        ("rear left screw torque", "80 Nm"),
        ("moisture", "0.5 %"),
        ("boiling point", "356 °F"),
        ("pedal hold time", "1/2 min"),
    ] {
        enter(&tab, name, value);
        assert_eq!(
            tab.run("document.querySelectorAll('.wrong').length"),
            json!(0),
            "{name}: {value}"
        );
        enter(&tab, name, "");
    }
}

/// Without a memory of its own the browser says so, and the card goes on.
#[test]
fn a_browser_that_keeps_nothing_says_so() {
    let Some(tab) = Tab::new() else {
        return;
    };
    let folder = empty_folder("cards/keeps-nothing");
    let layout = crate::binary::root().join("layouts/lapwing.ron");
    let card = super::write_card(&layout, "", &folder);
    for script in [
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } })",
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }",
    ] {
        let added = tab.ask(
            "Page.addScriptToEvaluateOnNewDocument",
            &json!({ "source": script }),
        );
        tab.open(&card);
        tab.click("#step-1 .more");
        assert_eq!(
            tab.text("document.getElementById('step-1-count').value"),
            "1"
        );
        let said = tab.text("document.getElementById('unkept').innerText");
        assert!(
            said.contains("save the file before you close the page"),
            "{said}"
        );
        tab.ask(
            "Page.removeScriptToEvaluateOnNewDocument",
            &json!({ "identifier": added["identifier"] }),
        );
    }
    // What is kept and is not ours does no harm either.
    tab.open(&card);
    tab.run(
        "localStorage.setItem('bleedwright-job-1', '{\"ticked\": 3}');
         localStorage.setItem('bleedwright-job-2', 'null');",
    );
    tab.reload();
    assert_eq!(
        tab.run("document.querySelectorAll('[data-tick]:checked').length"),
        json!(0)
    );
    assert_eq!(tab.complaints(), [""; 0]);
}
