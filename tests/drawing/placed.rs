//! Pictures to scale: where the symbols are, measured in the SVG, against the positions of the file.

use super::cars::{Flaw, car};
use super::picture;
use super::rules::faults;
use super::seen::{Frame, Seen, see};
use crate::demo;
use bleedwright_network::{Layout, Position, load};
use bleedwright_planner::Options;
use std::collections::BTreeMap;
use uom::si::length::meter;

/// Both ends of a symbol are rounded to the hundredth of a millimetre; so is a difference of two centres.
const ROUNDING_MM: f64 = 0.0101;

/// The number after `to scale 1:` in the legend; else why there is none.
fn scale(seen: &Seen) -> Result<f64, String> {
    let words = seen.labels.iter().map(|label| label.text.as_str());
    let words: Vec<&str> = words
        .filter(|text| text.starts_with("Seen from above"))
        .collect();
    let [words] = words[..] else {
        panic!("the legend says once what is to scale: {words:?}");
    };
    match words.split_once("to scale 1:") {
        Some((_, rest)) => {
            let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
            Ok(digits.parse().expect("the scale is a number"))
        }
        None => Err(words.to_owned()),
    }
}

fn positions(layout: &Layout) -> BTreeMap<&str, Position> {
    let parts = layout.parts.iter().map(|part| (&part.id, part.position));
    let cylinders = layout.cylinders.iter();
    let cylinders = cylinders.map(|cylinder| (&cylinder.id, cylinder.position));
    let found = parts.chain(cylinders);
    found
        .filter_map(|(id, position)| Some((id.as_str(), position?)))
        .collect()
}

/// The centre of a symbol, its screws and its name left out.
fn centre(seen: &Seen, part: &str) -> (f64, f64) {
    let shapes = seen.shapes.iter();
    let corners: Vec<(f64, f64)> = shapes
        .filter(|shape| shape.part == part && shape.kind == "part")
        .flat_map(|shape| {
            let frame = shape.frame;
            [(frame.left, frame.top), (frame.right, frame.bottom)]
        })
        .collect();
    assert!(!corners.is_empty(), "{part} is drawn");
    let frame = Frame::around(&corners);
    (
        f64::midpoint(frame.left, frame.right),
        f64::midpoint(frame.top, frame.bottom),
    )
}

/// Every way from one part to another is as the file says, front up, at the scale of the legend.
fn assert_to_scale(seen: &Seen, layout: &Layout, scale: f64) {
    let positions = positions(layout);
    assert!(positions.len() > 1, "there is something to compare");
    for (a, from) in &positions {
        for (b, to) in &positions {
            let (drawn_a, drawn_b) = (centre(seen, a), centre(seen, b));
            let metres = |from: Position, to: Position| {
                let forward = to.x.nominal - from.x.nominal;
                let left = to.y.nominal - from.y.nominal;
                (-left.get::<meter>(), -forward.get::<meter>())
            };
            let (right, down) = metres(*from, *to);
            let off = (
                drawn_b.0 - drawn_a.0 - right * 1000.0 / scale,
                drawn_b.1 - drawn_a.1 - down * 1000.0 / scale,
            );
            assert!(
                off.0.abs() <= ROUNDING_MM && off.1.abs() <= ROUNDING_MM,
                "from {a} to {b} it is off by {off:?} mm at 1:{scale}"
            );
        }
    }
}

#[test]
fn the_plover_is_drawn_to_scale() {
    let loaded = demo::load_demo("plover");
    let network = loaded.sound_network().expect("a demo is sound");
    let seen = see(&picture(network, &Options::default()));
    let scale = scale(&seen).expect("it is drawn to scale");
    assert!(
        positions(network.layout()).len() >= 11,
        "all parts but the valves on the cylinder have positions"
    );
    assert_to_scale(&seen, network.layout(), scale);
    // The bar of the scale is as long as it says.
    let bar = format!("0.5 m, 1:{scale}");
    assert!(seen.labels.iter().any(|label| label.text == bar), "{bar}");
}

#[test]
fn demos_without_positions_are_not_to_scale_and_need_no_reason() {
    for name in demo::ALL.iter().filter(|name| **name != "plover") {
        let loaded = demo::load_demo(name);
        let network = loaded.sound_network().expect("a demo is sound");
        let seen = see(&picture(network, &Options::default()));
        let words = scale(&seen).expect_err("it has no positions");
        assert!(words.contains("front up; not to scale."), "{name}: {words}");
    }
}

/// The search for ways is bounded by the sheet, so that a large layout takes no longer for its positions.
#[test]
fn more_parts_than_a_sheet_holds_are_not_to_scale() {
    let text = car(1, Flaw::None);
    let mut parts = String::new();
    let mut lines = String::new();
    let mut last = "master.primary".to_owned();
    for nth in 0..3_000 {
        let x = f64::from(nth % 60) * 0.3 - 9.0;
        let y = f64::from(nth / 60) * 0.3 - 9.0;
        parts += &format!(
            "(id: \"u{nth}\", kind: union, position: (x: \"{x:.2} m\", y: \"{y:.2} m\")),\n"
        );
        lines += &format!(
            "(id: \"l{nth}\", from: \"{last}\", to: \"u{nth}\", \
             kind: pipe(size: \"4.75 mm\", length: \"0.3 m\")),\n"
        );
        last = format!("u{nth}");
    }
    let text = text.replace("parts: [\n", &format!("parts: [\n{parts}"));
    let text = text.replace("lines: [\n", &format!("lines: [\n{lines}"));
    let loaded = load(text.as_bytes());
    let network = loaded
        .sound_network()
        .unwrap_or_else(|| panic!("{:#?}", loaded.findings));
    let svg = picture(network, &Options::default());
    let words = scale(&see(&svg)).expect_err("a sheet holds no 3,000 parts");
    assert!(words.contains("parts are too many for a sheet"), "{words}");
}

/// Cars as they are built are mostly drawn to scale; where positions are missing or too near, the legend says whose.
#[test]
fn cars_with_positions_are_to_scale_or_say_why_not() {
    let (mut scaled, mut named) = (0, 0);
    let mut excused: BTreeMap<String, usize> = BTreeMap::new();
    for seed in 0..80 {
        let flaw = match seed % 8 {
            3 => Flaw::TooNear,
            6 => Flaw::Missing,
            _ => Flaw::None,
        };
        let text = car(seed, flaw);
        let loaded = load(text.as_bytes());
        let network = loaded
            .sound_network()
            .unwrap_or_else(|| panic!("{seed}: {:#?}\n{text}", loaded.findings));
        let svg = picture(network, &Options::default());
        let faults = faults(&svg, network.layout());
        assert!(faults.is_empty(), "{seed} {flaw:?}: {faults:#?}\n{text}");
        let seen = see(&svg);
        match (scale(&seen), flaw) {
            (Ok(scale), Flaw::None) => {
                scaled += 1;
                assert_to_scale(&seen, network.layout(), scale);
            }
            (Ok(_), _) => panic!("{seed}: {flaw:?} cannot be to scale"),
            (Err(words), Flaw::Missing) => {
                let culprit = "not to scale: `front left brake` has no position";
                assert!(words.contains(culprit), "{seed}: {words}");
            }
            (Err(words), Flaw::TooNear) => {
                assert!(
                    words.contains("stand too near each other"),
                    "{seed}: {words}"
                );
                named += usize::from(
                    words.contains("`front left joint`") && words.contains("`front left brake`"),
                );
            }
            (Err(words), Flaw::None) => {
                assert!(words.contains("not to scale: "), "{seed}: {words}");
                *excused.entry(words).or_default() += 1;
            }
        }
    }
    // Another pair of the same car may be too near as well.
    assert!(named >= 6, "only {named} of 10 name the pair");
    assert!(
        scaled >= 40,
        "only {scaled} of 60 are to scale: {excused:#?}"
    );
}
