//! How a card looks: it fits, it can be touched, and everybody can read it.

use super::{Tab, demo};
use crate::binary::empty_folder;
use crate::demo::plan_demo;
use bleedwright_planner::Options;
use bleedwright_report::{Card, Said};
use serde_json::Value;

/// Every card has at least so many things to touch.
const CARD_TARGETS: u64 = 41;

/// A card at every width, light and dark: quiet, no wider than the window, large enough to touch, and without a fault
/// that the accessibility checker calls serious.
pub(super) fn check(name: &str) {
    let Some((tab, _)) = demo("looks", name, "") else {
        return;
    };
    tab.run(tab.axe());
    for scheme in ["light", "dark"] {
        for width in [390, 820, 1280] {
            tab.look(width, scheme);
            let at = format!("{name} at {width} px, {scheme}");
            fits(&tab, &at);
            if scheme == "light" {
                can_be_touched(&tab, &at, CARD_TARGETS);
            }
            can_be_read(&tab, &at);
        }
    }
    // With everything on it that can come up.
    tab.look(390, "light");
    come_up(&tab);
    fits(&tab, name);
    can_be_touched(&tab, name, CARD_TARGETS);
    can_be_read(&tab, name);
    assert_eq!(tab.complaints(), [""; 0], "{name}");
}

/// At the wheel a step fills the screen: what a hand needs of it, its counter, its jar and its tick stand above the buttons
/// that lead on, without scrolling.
#[test]
fn one_step_fills_the_screen() {
    for name in ["lapwing", "godwit", "redshank"] {
        let Some((tab, _)) = demo("one-step", name, "") else {
            return;
        };
        tab.look(390, "light");
        tab.run("document.getElementById('one').click()");
        let steps = tab.run("document.querySelectorAll('.step').length");
        for nth in 1..=steps.as_u64().expect("steps are counted") {
            let place = tab.run(
                "(() => {
                    const shown = [...document.querySelectorAll('.step')].filter((step) => step.checkVisibility());
                    const ends = shown[0].querySelector('.ticks').getBoundingClientRect().bottom + innerHeight - 844;
                    return [shown.length, shown[0].id, ends, document.getElementById('walk').getBoundingClientRect().top, scrollY];
                })()",
            );
            let at = format!("{name}, step {nth}: {place}");
            assert_eq!(place[0], 1, "{at}");
            assert_eq!(place[1], format!("step-{nth}"), "{at}");
            assert!(place[2].as_f64() <= place[3].as_f64(), "{at}");
            assert_eq!(place[4], 0, "{at}");
            fits(&tab, &at);
            tab.run("document.getElementById('next').click()");
        }
        assert_eq!(
            tab.run("document.getElementById('next').disabled"),
            Value::Bool(true)
        );
        tab.run("document.getElementById('back').click(); document.getElementById('list').click()");
        let all = tab.run(
            "[...document.querySelectorAll('.step')].filter((it) => it.checkVisibility()).length",
        );
        assert_eq!(all, steps, "{name}");
        assert_eq!(tab.complaints(), [""; 0], "{name}");
    }
}

/// Brings up a stop, the amount to give up at, a field that is wrong, and the question.
fn come_up(tab: &Tab) {
    tab.run(
        "const more = document.querySelector('.more');
         while (!document.querySelector('.over')) more.click();
         const field = document.querySelector('[data-quantity]');
         field.value = 'much';
         field.dispatchEvent(new Event('change'));
         document.getElementById('save').click();",
    );
    tab.wait_for("document.querySelector('#banner button') && document.querySelector('.wrong')");
}

pub(super) fn fits(tab: &Tab, at: &str) {
    let wide = tab.run("[document.documentElement.scrollWidth, innerWidth]");
    assert!(wide[0].as_f64() <= wide[1].as_f64(), "{at}: {wide} px");
}

/// Every target is at least 44 px both ways: what a label belongs to is touched by its label.
pub(super) fn can_be_touched(tab: &Tab, at: &str, at_least: u64) {
    let small = tab.run(
        "[...document.querySelectorAll('a, button, input, select, textarea, [tabindex]')]
            .map((element) => element.closest('label') ?? element)
            .filter((element) => element.checkVisibility({ visibilityProperty: true }))
            .map((element) => [element.outerHTML.slice(0, 120), element.getBoundingClientRect()])
            .filter(([, box]) => box.width < 44 || box.height < 44)
            .map(([html, box]) => `${box.width} x ${box.height}: ${html}`)",
    );
    assert_eq!(small.as_array().map(Vec::len), Some(0), "{at}: {small:#}");
    let targets = tab.run("document.querySelectorAll('button, input, select').length");
    assert!(
        targets.as_u64() >= Some(at_least),
        "{at}: only {targets} targets"
    );
}

pub(super) fn can_be_read(tab: &Tab, at: &str) {
    let faults = tab.run(
        "axe.run(document, { resultTypes: ['violations'] }).then((found) => {
            if (found.passes.length < 10) throw new Error('the checker did not run');
            return found.violations
                .filter((fault) => ['serious', 'critical'].includes(fault.impact))
                .map((fault) => `${fault.id}: ${fault.nodes.map((node) => node.html + ' ' + node.failureSummary).join('; ').slice(0, 800)}`);
        })",
    );
    let none = Value::Array(Vec::new());
    assert_eq!(faults, none, "{at}");
}

/// Steps follow one another by the keyboard alone, and what has the focus shows it.
#[test]
fn the_keyboard_is_enough() {
    let Some((tab, _)) = demo("keyboard", "lapwing", "") else {
        return;
    };
    tab.run("document.querySelector('#step-1 .more').focus()");
    for _ in 0..3 {
        tab.press(" ", 32, " ");
    }
    tab.press("Enter", 13, "\r");
    assert_eq!(
        tab.text("document.querySelector('#step-1-count').value"),
        "4"
    );
    // Every target can be reached by the tabulator, and is seen when it is.
    let reached = tab.run("document.activeElement.closest('#step-1') !== null");
    assert_eq!(reached, Value::Bool(true));
    let mut seen = 0;
    for _ in 0..25 {
        tab.press("Tab", 9, "");
        let outline = tab.run(
            "[getComputedStyle(document.activeElement).outlineStyle,
              parseFloat(getComputedStyle(document.activeElement).outlineWidth),
              document.activeElement.tagName]",
        );
        assert_ne!(outline[2], "BODY", "the focus is lost");
        assert!(
            outline[0] != "none" && outline[1].as_f64() >= Some(2.0),
            "{outline}"
        );
        seen += 1;
    }
    assert_eq!(seen, 25);
    assert_eq!(tab.complaints(), [""; 0]);
}

/// Without its script the sheet is whole: ticks work, counters are not there.
#[test]
fn it_reads_without_script() {
    let Some(tab) = Tab::new() else {
        return;
    };
    let off = serde_json::json!({ "value": true });
    tab.ask("Emulation.setScriptExecutionDisabled", &off);
    let folder = empty_folder("cards/without-script");
    let layout = crate::binary::root().join("layouts/lapwing.ron");
    let card = super::write_card(&layout, "", &folder);
    let url = format!("file://{}", card.display());
    tab.ask("Page.navigate", &serde_json::json!({ "url": url }));
    tab.wait_for("document.readyState === 'complete' && document.querySelector('main')");
    let shown = |selector: &str| {
        tab.run(&format!(
            "document.querySelector('{selector}').checkVisibility()"
        )) == Value::Bool(true)
    };
    for selector in [".counter", "#save", "#banner", "#progress", "nav a.live"] {
        assert!(!shown(selector), "{selector}");
    }
    for selector in [
        "#step-1",
        "[data-tick]",
        "#cautions",
        ".assumed li",
        "#checks-moisture",
        ".jar input",
    ] {
        assert!(shown(selector), "{selector}");
    }
    tab.click("[data-tick='before 1']");
    let ticked = tab.run("document.querySelector(\"[data-tick='before 1']\").checked");
    assert_eq!(ticked, Value::Bool(true));
    let text = tab.text("document.body.innerText");
    let card = Card::new(&plan_demo("lapwing", &Options::default()));
    let step = &card.steps[0];
    let (name, when) = &step.rows[0].levels[0];
    let cells = step.rows[0].cells.iter().map(Said::plain);
    let level = [name.clone(), when.plain(), "Ready:".to_owned()];
    for part in cells.chain(level) {
        assert!(text.contains(&part), "{part}");
    }
    assert_eq!(tab.complaints(), [""; 0]);
}
