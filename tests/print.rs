//! The card for the printer, read again by two readers that know nothing of its writer.

mod command;
pub(crate) mod demos;
mod hostile;
mod misread;
mod picture;
mod poppler;
mod reader;
pub(crate) mod said;

use crate::demo;
use bleedwright_planner::{Options, Plan};
use bleedwright_report::Card;
use reader::{Page, Run};

/// The plan of a demo vehicle with all its findings, as the program makes it.
fn plan_of(name: &str) -> Plan {
    let loaded = bleedwright_network::load(demo::demo_text(name).as_bytes());
    let network = loaded.sound_network().expect("a demo is sound");
    let planned = bleedwright_planner::plan(network, &Options::default());
    let mut plan = planned.plan.expect("a demo can be planned");
    plan.findings = loaded.findings;
    plan.findings.extend(planned.findings);
    *plan
}

fn card_of(name: &str) -> Card {
    Card::new(&plan_of(name))
}

/// The file for a card without a picture.
fn printed(card: &Card) -> Vec<u8> {
    bleedwright_print::pdf(card, "layout.ron", None).expect("every card can be printed")
}

/// A text without its blanks, and without the marks round a name: where lines end, and how a name stands out, is the
/// printer's affair.
fn squeezed(text: &str) -> String {
    let is_said = |c: &char| !c.is_whitespace() && *c != '`';
    text.chars().filter(is_said).collect()
}

/// Asserts that `page texts` say all of `texts`, one after the other.
fn assert_says_in_order(what: &str, said: &str, texts: &[String]) {
    let said = squeezed(said);
    let mut from = 0;
    for text in texts {
        let wanted = squeezed(text);
        let at = said[from..].find(&wanted).unwrap_or_else(|| {
            let there = if said.contains(&wanted) {
                "comes too early"
            } else {
                "is missing"
            };
            panic!(
                "{what}: `{text}` {there}; after {from} comes {:.200}",
                &said[from..]
            )
        });
        from += at + wanted.len();
    }
}

/// Ten millimetres in points: what a printer may leave blank.
const BLANK: f64 = 10.0 * 72.0 / 25.4;

/// Asserts that all text stays inside the margins, that no two texts touch, and that none crosses an upright line.
fn assert_tidy(what: &str, pages: &[Page]) {
    assert_apart(what, pages);
    for page in pages {
        for upright in &page.uprights {
            let cut = page.runs.iter().find(|run| upright.cuts(run));
            assert!(
                cut.is_none(),
                "{what}: a line at {} cuts {cut:?}",
                upright.x
            );
        }
    }
}

/// Asserts that all text stays inside the margins and that no two texts touch.
fn assert_apart(what: &str, pages: &[Page]) {
    for (number, page) in pages.iter().enumerate() {
        let has_ink = |run: &&Run| !run.text.trim().is_empty();
        let inks: Vec<&Run> = page.runs.iter().filter(has_ink).collect();
        for (nth, run) in inks.iter().enumerate() {
            let place = format!("{what}, page {}: `{}`", number + 1, run.text);
            let is_across = run.left >= BLANK && run.right <= page.width - BLANK;
            let is_along = run.top() >= BLANK && run.bottom() <= page.height - BLANK;
            assert!(is_across && is_along, "{place} leaves the page");
            for other in &inks[..nth] {
                assert!(!run.touches(other), "{place} touches `{}`", other.text);
            }
        }
    }
}
