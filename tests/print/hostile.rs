//! Cards that nobody means to print.

use super::{assert_says_in_order, assert_tidy, card_of, printed, reader, said};
use bleedwright_report::{Card, Piece, Said};

/// Puts `text` into a sentence.
fn put(sentence: &mut Said, text: &str) {
    let mut pieces = sentence.pieces().to_vec();
    pieces.insert(pieces.len() / 2, Piece::Bare(format!(" {text} ")));
    *sentence = pieces.into();
}

/// A sentence that is nothing but `text`.
fn bare(text: &str) -> Said {
    vec![Piece::Bare(text.to_owned())].into()
}

/// Every sentence of a card but those of its steps.
fn sentences(card: &mut Card) -> Vec<&mut Said> {
    let mut all = vec![
        &mut card.facts,
        &mut card.job,
        &mut card.ready,
        &mut card.buy,
    ];
    for list in [
        &mut card.warnings,
        &mut card.order,
        &mut card.each,
        &mut card.done,
        &mut card.assumed,
        &mut card.certainty,
    ] {
        all.extend(list);
    }
    let lines = [
        &mut card.cautions,
        &mut card.look,
        &mut card.before,
        &mut card.after,
    ];
    all.extend(lines.into_iter().flatten().map(|line| &mut line.does));
    all.extend(card.otherwise.iter_mut().map(|it| &mut it.then.does));
    all
}

/// A card in which every name, and with it every sentence, holds `text`.
fn card_with(text: &str) -> Card {
    let mut card = card_of("plover");
    text.clone_into(&mut card.vehicle);
    card.notes = Some(text.to_owned());
    card.date = Some(text.to_owned());
    card.danger = Some(bare(text));
    for sentence in sentences(&mut card) {
        put(sentence, text);
    }
    for step in &mut card.steps {
        step.screws = vec![text.to_owned()];
        step.notes.push(bare(text));
        put(&mut step.why, text);
        for sentence in &mut step.bounds {
            put(sentence, text);
        }
        for row in &mut step.rows {
            row.screw = Some(text.to_owned());
            row.tool.iter_mut().for_each(|it| put(it, text));
        }
        step.runs.iter_mut().for_each(|it| put(&mut it.of, text));
    }
    card
}

/// Prints a card full of `text`, which must appear as `shown`.
fn assert_shown(text: &str, shown: &str) {
    let card = card_with(text);
    let pages = reader::read(&printed(&card));
    assert_tidy(shown, &pages);
    let wanted: Vec<String> = said::texts(&card)
        .iter()
        .map(|sentence| sentence.replace(text, shown))
        .collect();
    let said = reader::said(&pages);
    assert_says_in_order(shown, &said, &wanted);
    let unseen = |c: char| c.is_control() && c != '\n';
    assert!(
        !said.contains(unseen),
        "{shown}: a control character is on the page"
    );
}

#[test]
fn marks_of_other_formats_are_text_like_any_other() {
    for text in [
        "<script>alert(1)</script>",
        "\"quoted\" 'twice' `thrice`",
        "(unbalanced ((",
        "\\) Tj ET Q \\",
        "%%EOF",
        "& &amp; </text>",
        "[x] *bold* | #",
    ] {
        assert_shown(text, text);
    }
}

#[test]
fn letters_of_many_languages_are_shown() {
    for text in [
        "Grünfink Ærø Łódź naïve œuf",
        "Ελληνικά µ μ Ω Ω",
        "Кулик-сорока",
        "Chim dẽ giun",
        "½ × ± − ≤ ≥ → ° € …",
    ] {
        assert_shown(text, text);
    }
}

#[test]
fn what_the_font_lacks_is_named() {
    assert_shown("\u{5e9}\u{5dc}", "U+05E9 U+05DC");
    assert_shown("\u{1f68c}", "U+1F68C");
    assert_shown("\u{202e}\u{200b}", "U+202E U+200B");
    assert_shown("\u{1b}[31m", "U+001B [31m");
    assert_shown("\u{0}\u{7f}\u{9b}", "U+0000 U+007F U+009B");
    assert_shown("\u{e000}\u{fffe}\u{feff}", "U+E000 U+FFFE U+FEFF");
    assert_shown("\u{10ffff}", "U+10FFFF");
}

#[test]
fn long_words_are_broken_inside_their_boxes() {
    let digits: String = (0..300)
        .map(|nth| char::from(b'0' + (nth % 10) as u8))
        .collect();
    assert_shown(&digits, &digits);
    let wide = "W".repeat(300);
    assert_shown(&wide, &wide);
    let turned = "\u{5d0}".repeat(300);
    let shown = vec!["U+05D0"; 300].join(" ");
    assert_shown(&turned, &shown);
}

#[test]
fn a_name_of_a_hundred_thousand_letters_ends() {
    let mut card = card_of("plover");
    card.vehicle = "a".repeat(100_000);
    let pages = reader::read(&printed(&card));
    assert_tidy("a long name", &pages);
    assert_says_in_order("a long name", &reader::said(&pages), &said::texts(&card));
}

#[test]
fn an_empty_card_is_a_page() {
    let mut card = card_of("plover");
    card.vehicle.clear();
    for text in [
        &mut card.facts,
        &mut card.job,
        &mut card.ready,
        &mut card.buy,
    ] {
        *text = Said::default();
    }
    card.steps.clear();
    card.otherwise.clear();
    for list in [&mut card.look, &mut card.before, &mut card.after] {
        list.clear();
    }
    for list in [
        &mut card.warnings,
        &mut card.each,
        &mut card.done,
        &mut card.order,
    ] {
        list.clear();
    }
    let pages = reader::read(&printed(&card));
    assert_eq!(pages.len(), 1);
    assert_says_in_order("empty", &reader::said(&pages), &said::texts(&card));
}

#[test]
fn sentences_without_a_word_do_no_harm() {
    for text in ["", " ", "\n\t\n"] {
        let card = card_with(text);
        let mut blank = card.clone();
        for sentence in sentences(&mut blank) {
            *sentence = bare(text);
        }
        for step in &mut blank.steps {
            step.rows.iter_mut().for_each(|row| row.tool = None);
            step.why = bare(text);
        }
        for card in [card, blank] {
            let pages = reader::read(&printed(&card));
            assert_tidy("blank", &pages);
            assert_says_in_order("blank", &reader::said(&pages), &said::texts(&card));
        }
    }
}

#[test]
fn a_hundred_screws_run_over_many_pages() {
    let mut card = card_of("lapwing");
    let four = card.steps.clone();
    card.steps = (0..100)
        .map(|nth| {
            let mut step = four[nth % 4].clone();
            step.number = nth + 1;
            step.screws = vec![format!("screw of caliper {}", nth + 1)];
            step.rows[0].screw = step.screws.first().cloned();
            step
        })
        .collect();
    let pages = reader::read(&printed(&card));
    assert!(pages.len() > 8, "{} pages", pages.len());
    assert_tidy("a hundred", &pages);
    assert_says_in_order("a hundred", &reader::said(&pages), &said::texts(&card));
    for (nth, page) in pages.iter().enumerate() {
        let texts: Vec<&str> = page.runs.iter().map(|run| run.text.as_str()).collect();
        let steps = texts
            .iter()
            .filter(|text| text.starts_with("screw of caliper"))
            .count();
        let begins = page.runs[0].text.as_str();
        if nth > 0 && steps > 0 {
            assert_eq!(begins, "STEPS, continued");
            assert!(texts.contains(&"STROKES") && texts.contains(&"TOP UP"));
        }
        // Every step is whole: its name and its tools are on one page.
        let ends = texts
            .iter()
            .filter(|text| text.starts_with("spanner "))
            .count();
        assert_eq!(steps, ends, "page {}", nth + 1);
    }
}
