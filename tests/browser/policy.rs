//! What a card is made of, read without a browser.

use super::write_card;
use crate::binary::{bleedwright, empty_folder, root};
use crate::command_line::{self, words};
use crate::readings::sheets::base64;
use scraper::{Html, Selector};
use sha2::{Digest, Sha256};
use std::sync::atomic::{AtomicUsize, Ordering};

fn card(name: &str) -> String {
    // Several tests ask for one vehicle at the same time, each in a folder of its own.
    static ASKED: AtomicUsize = AtomicUsize::new(0);
    let nth = ASKED.fetch_add(1, Ordering::Relaxed);
    let layout = root().join(format!("layouts/{name}.ron"));
    let card = write_card(&layout, "", &empty_folder(&format!("cards/policy-{nth}")));
    std::fs::read_to_string(card).expect("it was written")
}

fn all<'p>(page: &'p Html, selector: &str) -> Vec<scraper::ElementRef<'p>> {
    page.select(&Selector::parse(selector).expect("a selector"))
        .collect()
}

/// The policy names exactly the styles and the script that the page has, and nothing in the page needs more.
#[test]
fn a_card_allows_its_own_script_and_nothing_else() {
    let text = card("lapwing");
    let page = Html::parse_document(&text);
    let prints = |element: &str| {
        let print = |element: &scraper::ElementRef<'_>| {
            let text: String = element.text().collect();
            format!("'sha256-{}'", base64(&Sha256::digest(text.as_bytes())))
        };
        let prints: Vec<String> = all(&page, element).iter().map(print).collect();
        prints.join(" ")
    };
    let policy = format!(
        "default-src 'none'; style-src {}; script-src {}; base-uri 'none'; form-action 'none'",
        prints("style"),
        prints("script")
    );
    let meta = &all(&page, "meta[http-equiv=Content-Security-Policy]")[0];
    assert_eq!(
        meta.value().attr("content"),
        Some(policy.as_str()),
        "html/card.rs needs this policy"
    );
    for element in all(&page, "*") {
        for (name, value) in element.value().attrs() {
            assert!(
                !name.starts_with("on") && name != "style" && name != "src",
                "{name}={value}"
            );
            assert!(name != "href" || value.starts_with('#'), "{value}");
        }
    }
    for barred in [
        "innerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "fetch(",
        "http://",
        "https://",
        "@import",
        "url(",
    ] {
        assert!(!text.contains(barred), "{barred}");
    }
}

#[test]
fn a_card_is_small() {
    for name in crate::demo::ALL {
        let size = card(name).len();
        assert!(size <= 300_000, "{name}: {size} bytes");
    }
}

/// Every label belongs to a field, every field has one name, and no identifier stands twice.
#[test]
fn every_field_has_one_label() {
    for name in crate::demo::ALL {
        let text = card(name);
        let page = Html::parse_document(&text);
        assert_eq!(page.errors, [""; 0], "{name}");
        let mut ids: Vec<&str> = all(&page, "[id]")
            .iter()
            .filter_map(|element| element.value().id())
            .collect();
        let before = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), before, "{name}");
        for label in all(&page, "label[for]") {
            let id = label.value().attr("for").expect("it was asked for");
            assert!(ids.binary_search(&id).is_ok(), "{name}: no field {id}");
        }
    }
}

/// The same plan gives the same bytes, and a draft says on top that it guesses.
#[test]
fn a_card_is_the_same_every_time_and_says_what_is_guessed() {
    assert_eq!(card("plover"), card("plover"));
    assert!(!card("plover").contains("<strong>Draft: </strong>"));
    let folder = empty_folder("cards/drafted");
    let layout = folder.join("stilt.ron");
    let drafted = command_line::run(&format!(
        "draft --split X --steering left --wheelbase '2.50 m' --track '1.44 m' \
         --pipe '4.75 mm x 0.70 mm' --fluid dot4 --name Stilt -o '{}'",
        layout.display()
    ));
    assert_eq!(drafted.code, Some(0), "{}", drafted.stderr);
    let text = std::fs::read_to_string(write_card(&layout, "", &folder)).expect("it was written");
    let page = Html::parse_document(&text);
    let warning: String = all(&page, "header .warning")[0].text().collect();
    assert!(
        warning.starts_with("Draft: guesses of the layout"),
        "{warning}"
    );
    assert_eq!(all(&page, ".assumed .guess").len(), 1);
}

/// Where a card goes: never over the layout, over another file only when asked.
#[test]
fn a_card_is_written_over_nothing_unasked() {
    let folder = empty_folder("cards/destination");
    let layout = folder.join("lapwing.ron");
    std::fs::copy(root().join("layouts/lapwing.ron"), &layout).expect("the layout can be copied");
    let before = std::fs::read(&layout).expect("it was copied");
    let run = |options: &str| {
        let done = bleedwright()
            .current_dir(&folder)
            .args(["plan", "lapwing.ron"])
            .args(words(options))
            .output();
        let done = done.expect("the program runs");
        (
            done.status.code(),
            String::from_utf8_lossy(&done.stderr).into_owned(),
        )
    };
    let (code, told) = run("--format html -o lapwing.ron --overwrite");
    assert_eq!(code, Some(1));
    assert!(told.contains("-o names the layout itself"), "{told}");
    assert_eq!(std::fs::read(&layout).expect("it is there"), before);
    assert_eq!(run("--format markdown -o plan.md").0, Some(0));
    let (code, told) = run("--format html -o plan.md");
    assert_eq!(code, Some(1));
    assert!(told.contains("--overwrite"), "{told}");
    let markdown = std::fs::read_to_string(folder.join("plan.md")).expect("it was written");
    assert!(markdown.starts_with("# Bleed plan: Lapwing"));
    assert_eq!(run("-o plan.md --overwrite --color always").0, Some(0));
    let text = std::fs::read_to_string(folder.join("plan.md")).expect("it was written");
    assert!(text.starts_with("BLEED PLAN") && !text.contains('\u{1b}'));
    // A layout with errors leaves no file.
    std::fs::write(&layout, "(format: 1)").expect("the folder can be written");
    assert_eq!(run("--format html -o none.html").0, Some(3));
    assert!(!folder.join("none.html").exists());
}
