//! A drawing behind the words of a card.

use super::{
    assert_apart, assert_says_in_order, assert_tidy, card_of, plan_of, printed, reader, said,
};
use crate::demo;
use bleedwright_drawing::chart::{Chart, Level, Series, Upright, chart};
use bleedwright_drawing::{
    Circle, Group, Ink, Mark, Path, Picture, Point, Stroke, Text, schematic_for_card,
};
use bleedwright_report::drawn_words;

/// A chart with all kinds of marks; its size is what a drawing has.
fn drawing(width_mm: f64, height_mm: f64) -> Picture {
    let series = |name: &str, up: f64| Series {
        name: name.to_owned(),
        points: vec![(0.0, up), (10.0, up + 4.0), (20.0, up + 5.0)],
        band: vec![
            (up - 1.0, up + 1.0),
            (up + 2.0, up + 5.0),
            (up + 2.0, up + 8.0),
        ],
    };
    let mut picture = chart(&Chart {
        title: "Air left".to_owned(),
        description: "Air in every circuit against the strokes.".to_owned(),
        across: "strokes".to_owned(),
        upward: "air, ml".to_owned(),
        series: vec![series("front", 3.0), series("rear", 12.0)],
        uprights: vec![Upright {
            at: 10.0,
            label: "2".to_owned(),
        }],
        levels: vec![Level {
            at: 8.0,
            label: "enough".to_owned(),
        }],
    });
    let circle = Circle {
        centre: Point::new(width_mm - 4.0, height_mm - 4.0),
        radius_mm: 3.0,
        fill: Some(Ink::WHITE),
        stroke: Some(Stroke::solid(Ink::BLACK, 0.3)),
    };
    let corner = Text::new(Point::new(width_mm, height_mm), 3.0, "far corner")
        .anchored(bleedwright_drawing::Anchor::End);
    let group = Group {
        class: "part",
        name: "a part".to_owned(),
        circuit: None,
        title: None,
        marks: vec![circle.into(), corner.into()],
    };
    picture.marks.push(Mark::Group(group));
    let frame = Path::rectangle(
        Point::default(),
        width_mm,
        height_mm,
        None,
        Some(Stroke::solid(Ink::GREY, 0.2)),
    );
    picture.marks.push(frame.into());
    (picture.width_mm, picture.height_mm) = (width_mm, height_mm);
    picture
}

fn texts(marks: &[Mark]) -> Vec<String> {
    let mut found = Vec::new();
    for mark in marks {
        match mark {
            Mark::Text(text) if !text.text.is_empty() => found.push(text.text.clone()),
            Mark::Group(group) => found.extend(texts(&group.marks)),
            _ => {}
        }
    }
    found
}

#[test]
fn a_drawing_of_any_size_stands_behind_the_words() {
    for (width_mm, height_mm) in [(170.0, 105.0), (400.0, 110.0), (180.0, 900.0), (20.0, 30.0)] {
        let what = format!("{width_mm} x {height_mm} mm");
        let picture = drawing(width_mm, height_mm);
        let card = card_of("lapwing");
        let bytes = bleedwright_print::pdf(&card, "", Some(&picture)).expect("it can be printed");
        assert!(
            bytes == bleedwright_print::pdf(&card, "", Some(&picture)).expect("it can be printed")
        );
        let pages = reader::read(&bytes);
        let mut wanted = said::texts(&card);
        wanted.push("PIPEWORK".to_owned());
        wanted.extend(texts(&picture.marks));
        assert_says_in_order(&what, &reader::said(&pages), &wanted);
        let last = pages.last().expect("there are pages");
        let corner = last
            .runs
            .iter()
            .find(|run| run.text == "far corner")
            .expect("it is on the last page");
        assert!(
            corner.right <= last.width - super::BLANK && corner.base <= last.height - super::BLANK,
            "{what}"
        );
    }
}

#[test]
fn a_drawing_that_fits_below_the_words_takes_no_page_of_its_own() {
    let picture = drawing(170.0, 105.0);
    let mut fits = 0;
    for name in demo::ALL {
        let card = card_of(name);
        let bytes = bleedwright_print::pdf(&card, "", Some(&picture)).expect("it can be printed");
        let (pages, alone) = (reader::read(&bytes), reader::read(&printed(&card)));
        let more = pages.len() - alone.len();
        assert!(more <= 1, "{name}: {more} pages more");
        if more == 0 {
            fits += 1;
            assert_tidy(name, &pages[..1]);
        }
    }
    assert!(fits >= 2, "{fits} demos have room for it");
}

#[test]
fn letters_keep_to_the_room_that_the_drawing_leaves_them() {
    let text = "\u{5d0}\u{5d1}\u{5d2} WWWW \u{1f68c}";
    let mut picture = drawing(170.0, 105.0);
    let mark = Text::new(Point::new(20.0, 50.0), 4.0, text);
    let room = mark.width_mm() * 72.0 / 25.4;
    picture.marks = vec![mark.into()];
    let bytes =
        bleedwright_print::pdf(&card_of("lapwing"), "", Some(&picture)).expect("it can be printed");
    let pages = reader::read(&bytes);
    let runs: Vec<_> = pages.iter().flat_map(|page| &page.runs).collect();
    let named = runs
        .iter()
        .find(|run| run.text.starts_with("U+05D0 U+05D1 U+05D2 WWWW"))
        .expect("it is there");
    assert!(
        named.right - named.left <= room + 0.1,
        "{} in {room}",
        named.right - named.left
    );
}

#[test]
fn every_demo_is_printed_with_its_pipework() {
    for name in demo::ALL {
        let (network, plan) = (demo::load_demo(name), plan_of(name));
        let picture = schematic_for_card(&network, &plan, drawn_words);
        let most = super::demos::MOST_PAGES + 1;
        let bytes =
            bleedwright_print::pdf(&card_of(name), "", Some(&picture)).expect("it can be printed");
        let pages = reader::read(&bytes);
        assert!(pages.len() <= most, "{name} takes {} pages", pages.len());
        // Lines of a drawing end below the circles and boxes that cover them.
        assert_apart(name, &pages);
        for run in pages.iter().flat_map(|page| &page.runs) {
            assert!(run.em >= 5.9, "{name}: `{}` in {} pt", run.text, run.em);
        }
        let said = reader::said(&pages);
        let (_, drawn) = said
            .split_once("PIPEWORK")
            .expect("the drawing has a heading");
        assert_says_in_order(name, drawn, &texts(&picture.marks));
    }
}
