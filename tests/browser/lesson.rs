//! The lesson in a browser: stepped through, and still whole without its script.

use super::Tab;
use super::looks::{can_be_read, can_be_touched, fits};
use crate::binary::empty_folder;
use crate::command_line::printed;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// Writes a lesson with the program itself.
fn write_lesson(call: &str, folder: &Path) -> PathBuf {
    let page = folder.join("lesson.html");
    let to = page.display();
    printed(&format!("compare {call} --format html -o '{to}'"));
    page
}

const SPLITS: &str = "layouts/lapwing.ron layouts/plover.ron";

/// The step that every side shows.
fn shown(tab: &Tab) -> Vec<String> {
    let steps = tab.run(
        "[...document.querySelectorAll('.scene')].filter((scene) => scene.checkVisibility())
            .map((scene) => scene.dataset.step)",
    );
    let steps = steps.as_array().expect("a list").iter();
    steps
        .map(|step| step.as_str().expect("a number").to_owned())
        .collect()
}

/// How a pipe stands in the picture of the first side.
fn state(tab: &Tab, line: &str) -> String {
    tab.text(&format!(
        "document.querySelector('.side [data-kind=\"line\"][data-name=\"{line}\"]').dataset.state"
    ))
}

#[test]
fn a_lesson_is_stepped_through() {
    let Some(tab) = Tab::new() else { return };
    tab.look(1280, "light");
    tab.open(&write_lesson(SPLITS, &empty_folder("cards/lesson")));
    assert_eq!(shown(&tab), ["0", "0"]);
    assert_eq!(state(&tab, "long rear pipe"), "old");
    tab.click("#on");
    assert_eq!(shown(&tab), ["1", "1"]);
    assert_eq!(state(&tab, "long rear pipe"), "passed");
    assert_eq!(state(&tab, "right axle pipe"), "old");
    tab.run("document.activeElement.blur()");
    tab.press("ArrowRight", 39, "");
    assert_eq!(shown(&tab), ["2", "2"]);
    assert_eq!(state(&tab, "right axle pipe"), "passed");
    assert_eq!(state(&tab, "front left pipe"), "old");
    tab.run("document.getElementById('step').focus()");
    tab.press("ArrowRight", 39, "");
    tab.press("ArrowRight", 39, "");
    tab.press("ArrowRight", 39, "");
    assert_eq!(shown(&tab), ["4", "4"]);
    assert_eq!(state(&tab, "long rear pipe"), "clean");
    assert_eq!(
        tab.run("document.getElementById('on').disabled"),
        Value::Bool(true)
    );
    let said = tab.text("document.getElementById('step').getAttribute('aria-valuetext')");
    assert!(said.contains("Step 4 of 4: front right"), "{said}");
    tab.click("#back");
    assert_eq!(shown(&tab), ["3", "3"]);
    // What is open for one step is open for the next.
    tab.run("document.querySelector('.scene:not([hidden]) summary').click()");
    tab.wait_for("document.querySelectorAll('.side:first-child details:not([open])').length === 0");
    assert_eq!(tab.complaints(), [""; 0]);
}

/// Two orders of one vehicle, and a vehicle with many screws beside one with few.
#[test]
fn a_lesson_can_be_read_and_touched() {
    let Some(tab) = Tab::new() else { return };
    let lessons = [
        "layouts/curlew.ron --with '--begin nearest' --for fill",
        "layouts/avocet.ron layouts/turnstone.ron",
    ];
    for (nth, call) in lessons.into_iter().enumerate() {
        tab.open(&write_lesson(
            call,
            &empty_folder(&format!("cards/lesson-{nth}")),
        ));
        tab.run(tab.axe());
        for width in [390, 820, 1280] {
            tab.look(width, "light");
            let at = format!("{call} at {width} px");
            fits(&tab, &at);
            can_be_touched(&tab, &at, 3);
            can_be_read(&tab, &at);
        }
        assert_eq!(tab.complaints(), [""; 0], "{call}");
    }
}

#[test]
fn a_lesson_reads_without_script() {
    let Some(tab) = Tab::new() else { return };
    tab.ask(
        "Emulation.setScriptExecutionDisabled",
        &serde_json::json!({ "value": true }),
    );
    tab.open(&write_lesson(
        SPLITS,
        &empty_folder("cards/lesson-scriptless"),
    ));
    assert_eq!(
        shown(&tab),
        ["0", "1", "2", "3", "4", "0", "1", "2", "3", "4"]
    );
    assert_eq!(
        tab.run("document.querySelector('.stepper').checkVisibility()"),
        Value::Bool(false)
    );
    let lost = tab.text("document.querySelector('.losses').innerText");
    for word in ["primary", "rear left, rear right", "none", "mm"] {
        assert!(lost.contains(word), "{word} in {lost}");
    }
}

/// Names that try to be more than names are shown, and nothing runs.
#[test]
fn hostile_names_do_nothing_in_a_lesson() {
    let Some(tab) = Tab::new() else { return };
    let folder = empty_folder("cards/lesson-hostile");
    let layout = folder.join("hostile.ron");
    std::fs::write(&layout, super::hostile::hostile()).expect("the build folder can be written");
    let path = layout.to_str().expect("the path is text");
    tab.look(390, "light");
    tab.open(&write_lesson(
        &format!("'{path}' --with '--begin nearest'"),
        &folder,
    ));
    let title = tab.text("document.querySelector('h1').textContent");
    assert!(title.contains("</script><script>alert(1)"), "{title}");
    tab.click("#on");
    assert_eq!(shown(&tab), ["1", "1"]);
    fits(&tab, "hostile");
    assert_eq!(
        tab.run("document.querySelectorAll('img, script:not(body > script)').length"),
        0
    );
    assert_eq!(tab.complaints(), [""; 0]);
}
