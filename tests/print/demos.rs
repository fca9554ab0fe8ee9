//! Every demo vehicle on paper.

use super::reader::Page;
use super::{assert_says_in_order, assert_tidy, card_of, printed, reader, said};
use crate::demo;

#[test]
fn all_that_a_card_says_is_on_its_pages_in_order() {
    for name in demo::ALL {
        let card = card_of(name);
        let pages = reader::read(&printed(&card));
        assert_says_in_order(name, &reader::said(&pages), &said::texts(&card));
    }
}

/// Who works by paper writes there what a record asks for beside the checks, before the sheet is signed.
#[test]
fn a_card_has_lines_for_what_a_record_keeps() {
    for name in demo::ALL {
        let card = card_of(name);
        let names = [
            "Water before",
            "sample from",
            "after",
            "sample from",
            "Bottle",
            "opened on",
            "Fluid next due",
            "Parts fitted",
            "Torque tool",
            "Refused by the owner",
            "Done by",
        ];
        let last_check = card.after.last().expect("something comes after");
        let mut wanted = vec![last_check.does.plain()];
        wanted.extend(names.map(str::to_owned));
        let pages = reader::read(&printed(&card));
        assert_says_in_order(name, &reader::said(&pages), &wanted);
    }
}

/// What a card without its drawing takes at most, by docs/printing.md.
pub(crate) const MOST_PAGES: usize = 3;

#[test]
fn a_demo_takes_three_pages_at_most() {
    for name in demo::ALL {
        let pages = reader::read(&printed(&card_of(name)));
        assert!(
            pages.len() <= MOST_PAGES,
            "{name} takes {} pages",
            pages.len()
        );
    }
}

/// What hands need stands on one side of one sheet, down to the signatures, of up to six screws of plain brakes.
#[test]
fn what_to_do_is_on_the_first_page() {
    for name in ["lapwing", "plover", "dunlin", "turnstone"] {
        let pages = reader::read(&printed(&card_of(name)));
        assert!(
            pages[0].runs.iter().any(|run| run.text == "Done by"),
            "{name}"
        );
    }
}

#[test]
fn text_stays_in_its_place() {
    for name in demo::ALL {
        assert_tidy(name, &reader::read(&printed(&card_of(name))));
    }
}

#[test]
fn every_page_has_its_foot_line() {
    for name in demo::ALL {
        let card = card_of(name);
        let pages = reader::read(&printed(&card));
        let has_cautions = |page: &Page| page.runs.iter().any(|run| run.text == "CAUTION: ");
        let cautions = pages
            .iter()
            .position(has_cautions)
            .expect("every card has cautions")
            + 1;
        let governs = format!("The maker's manual governs. Cautions: page {cautions}");
        for (nth, page) in pages.iter().enumerate() {
            let foot: Vec<&str> = page
                .runs
                .iter()
                .filter(|run| run.is_artifact && run.base > page.height - 60.0)
                .map(|run| run.text.as_str())
                .collect();
            let number = format!("page {} of {}", nth + 1, pages.len());
            let wanted = [&card.vehicle, "layout.ron", &governs, &number];
            assert_eq!(foot, wanted, "{name}");
        }
    }
}

#[test]
fn type_is_large_enough_to_read() {
    for name in demo::ALL {
        for page in reader::read(&printed(&card_of(name))) {
            for run in page.runs.iter().filter(|run| run.text != "!") {
                assert!(run.em >= 8.0, "{name}: `{}` in {} pt", run.text, run.em);
            }
        }
    }
}

#[test]
fn fonts_are_embedded_in_part() {
    for name in demo::ALL {
        let bytes = printed(&card_of(name));
        let fonts = reader::fonts(&bytes);
        assert!(!fonts.is_empty(), "{name} has no font");
        for font in fonts {
            // Six capitals and a plus sign before the name of a font say that it is a part of it (ISO 32000-1, 9.6.4).
            let (tag, _) = font
                .split_once('+')
                .unwrap_or_else(|| panic!("{name}: all of {font}"));
            assert!(tag.len() == 6 && tag.bytes().all(|byte| byte.is_ascii_uppercase()));
        }
        assert!(bytes.len() < 100_000, "{name}: {} bytes", bytes.len());
    }
}

#[test]
fn the_same_card_gives_the_same_bytes() {
    for name in demo::ALL {
        assert!(printed(&card_of(name)) == printed(&card_of(name)), "{name}");
    }
}
