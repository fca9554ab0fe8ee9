//! Names that try to be more than names.

use super::{Tab, write_card};
use crate::binary::{bleedwright, empty_folder, root};
use crate::readings::layout;
use bleedwright_network::{load, quoted};
use pulldown_cmark::{Event, Options, Parser, Tag};
use scraper::{Html, Selector};
use std::collections::BTreeSet;

const NAMES: [&str; 6] = [
    "</script><script>alert(1)</script>",
    "\"'><img src=x onerror=alert(2)>&amp;",
    "</title></style><!-- <b>`*_[x](javascript:alert(3))",
    "\u{5e9}\u{5dc}\u{5d5}\u{5dd} \u{1f6b2}\u{1f527} \u{645}\u{631}\u{62d}\u{628}\u{627}",
    "]]>{{7*7}}${alert(4)}\\u003cscript\\u003e",
    "# - 1. | www.example.org https://example.org @me",
];

/// Lapwing with a hostile name wherever a name stands on the sheet, and one of 300 characters.
pub(super) fn hostile() -> String {
    let mut text =
        std::fs::read_to_string(layout("lapwing")).expect("the layout is part of the repository");
    let long = "W".repeat(300);
    for (name, hostile) in [
        ("Lapwing, long-wheelbase minibus", NAMES[0]),
        ("rear left", NAMES[1]),
        ("rear right", NAMES[2]),
        ("front left", NAMES[3]),
        ("front brakes", NAMES[4]),
        ("rear brakes", NAMES[5]),
        ("front right", long.as_str()),
    ] {
        let before = text.clone();
        text = text.replace(&quoted(name), &quoted(hostile));
        assert_ne!(text, before, "{name}");
    }
    text
}

/// The card with hostile names, or why the layout was refused.
fn hostile_card(test: &str) -> std::path::PathBuf {
    let folder = empty_folder(&format!("cards/{test}"));
    let layout = folder.join("hostile.ron");
    let text = hostile();
    let loaded = load(text.as_bytes());
    assert!(!loaded.has_errors(), "{:#?}", loaded.findings);
    std::fs::write(&layout, text).expect("the build folder can be written");
    write_card(&layout, "", &folder)
}

fn tags(page: &Html) -> BTreeSet<String> {
    let all = Selector::parse("*").expect("a selector");
    page.select(&all)
        .map(|element| element.value().name().to_owned())
        .collect()
}

fn count(page: &Html, selector: &str) -> usize {
    page.select(&Selector::parse(selector).expect("a selector"))
        .count()
}

/// Another parser finds no fault in the page and no element that an innocent card has not.
#[test]
fn a_page_with_hostile_names_is_a_page_like_any_other() {
    let read = |path: &std::path::Path| std::fs::read_to_string(path).expect("it was written");
    let innocent = write_card(
        &root().join("layouts/lapwing.ron"),
        "",
        &empty_folder("cards/innocent"),
    );
    let innocent = Html::parse_document(&read(&innocent));
    let text = read(&hostile_card("hostile-parsed"));
    let page = Html::parse_document(&text);
    assert_eq!(innocent.errors, [""; 0]);
    assert_eq!(page.errors, [""; 0]);
    assert_eq!(tags(&page), tags(&innocent));
    for selector in [
        "script",
        "style",
        "h3",
        "input",
        "fieldset",
        "main > section",
    ] {
        assert_eq!(
            count(&page, selector),
            count(&innocent, selector),
            "{selector}"
        );
    }
    assert_eq!(
        count(
            &page,
            "img, iframe, object, link, [style], [onerror], [onclick], [src]"
        ),
        0
    );
    let main = page
        .select(&Selector::parse("main").expect("a selector"))
        .next()
        .expect("main");
    let record = main.value().attr("data-record").expect("the record");
    let record: serde_json::Value = serde_json::from_str(record).expect("JSON");
    assert_eq!(record["readings_of"]["name"], NAMES[0]);
}

/// In the browser nothing runs, nothing breaks, and the record keeps the names.
#[test]
fn hostile_names_do_nothing_in_a_browser() {
    let Some(tab) = Tab::new() else {
        return;
    };
    let card = hostile_card("hostile-run");
    tab.look(390, "light");
    tab.open(&card);
    let shown = tab.text("document.querySelector('h1').textContent");
    assert!(shown.contains(NAMES[0]), "{shown}");
    tab.run("for (let n = 0; n < 40; n += 1) document.querySelector('#step-1 .more').click()");
    tab.assert_says("banner", NAMES[5]);
    assert_eq!(
        tab.run("document.documentElement.scrollWidth <= innerWidth"),
        true
    );
    assert_eq!(
        tab.run("document.querySelectorAll('img, script:not(body > script)').length"),
        0
    );
    let file = super::work::save(&tab, card.parent().expect("a folder"));
    let saved = std::fs::read(file).expect("it was saved");
    let read = bleedwright_inspection::read_record(&saved);
    assert_eq!(read.record.expect("a record").vehicle.name, NAMES[0]);
    assert_eq!(tab.complaints(), [""; 0]);
}

/// In Markdown a name is text: no other kind of block or mark than an innocent plan has.
#[test]
fn markdown_with_hostile_names_says_what_it_says() {
    let folder = empty_folder("cards/hostile-markdown");
    let file = folder.join("hostile.ron");
    std::fs::write(&file, hostile()).expect("the build folder can be written");
    let markdown = |path: &std::path::Path| {
        let done = bleedwright()
            .arg("plan")
            .arg(path)
            .args(["--format", "markdown"])
            .output();
        String::from_utf8(done.expect("the program runs").stdout).expect("text")
    };
    let innocent = shape(&markdown(&layout("lapwing"))).0;
    let hostile_text = markdown(&file);
    let (hostile, text) = shape(&hostile_text);
    assert_eq!(hostile, innocent, "{hostile_text}");
    for name in NAMES {
        assert!(text.contains(name), "{name} in {text}");
    }
}

/// The kinds of what stands in a text, in their order, and its words.
fn shape(markdown: &str) -> (Vec<String>, String) {
    // Every extension is looked for, but the one that changes quotation marks.
    let options = Options::all() - Options::ENABLE_SMART_PUNCTUATION;
    let (mut kinds, mut words) = (Vec::new(), String::new());
    for event in Parser::new_ext(markdown, options) {
        match event {
            Event::Text(text) => words.push_str(&text),
            Event::Start(Tag::Heading { level, .. }) => kinds.push(format!("heading {level}")),
            Event::Start(tag) => kinds.push(format!("{tag:?}")),
            Event::End(_) => {}
            Event::SoftBreak => words.push('\n'),
            other => kinds.push(format!("{other:?}")),
        }
    }
    (kinds, words)
}
