//! Sentences in pieces: what is no word is a figure or stands in the file.

use crate::asked::{by, opening, with_purpose};
use crate::demo::{ALL, demo_text, load_demo};
use crate::print::said::said;
use bleedwright_planner::{Method, Options, Purpose, plan};
use bleedwright_report::{Card, Piece};

/// What a figure may be written with beside digits and marks.
const UNITS: &[&str] = &[
    "ml", "l", "mm", "m", "s", "min", "h", "bar", "psi", "N", "kPa", "MPa", "um2", "mm2", "g", "x",
    "of", "e", "i", "°C", "BW", "does", "not", "run", "none", "one", "two", "three", "four",
    "five",
];

fn is_figure(text: &str) -> bool {
    let words = text.split(|c: char| !c.is_alphabetic() && c != '°' && !c.is_ascii_digit());
    words
        .map(|word| word.trim_matches(|c: char| c.is_ascii_digit()))
        .all(|word| word.is_empty() || UNITS.contains(&word))
}

/// A part's port, two cylinders under one bar and the circuits that the program names are made of names and words.
fn is_of_the_file(text: &str, file: &str, circuits: &[String]) -> bool {
    let parts = text.split(" + ").flat_map(|part| part.split('.'));
    let mut parts = parts.flat_map(|part| part.split(", "));
    let is_known = |part: &str| part.trim().is_empty() || file.contains(part.trim());
    file.contains(text) || circuits.iter().any(|it| it == text) || parts.all(is_known)
}

#[test]
fn what_is_no_word_is_a_figure_or_stands_in_the_file() {
    let (mut names, mut figures) = (0, 0);
    for name in ALL {
        let (file, network) = (demo_text(name).replace("\\\"", "\""), load_demo(name));
        let circuits: Vec<String> = network.circuits().map(|(_, it)| it.name.clone()).collect();
        let part = network.layout().parts[0].id.clone();
        for options in [
            Options::default(),
            with_purpose(Purpose::Fill),
            by(Method::Vacuum),
            by(Method::Reverse),
            opening(&[&part]),
        ] {
            let Some(plan) = plan(&network, &options).plan else {
                continue;
            };
            for piece in said(&Card::new(&plan))
                .iter()
                .flat_map(|it| it.pieces().to_vec())
            {
                match &piece {
                    Piece::Words(_) => {}
                    Piece::Name(text) | Piece::Bare(text) => {
                        names += 1;
                        assert!(is_of_the_file(text, &file, &circuits), "{name}: {piece:?}");
                    }
                    Piece::Figure(text) => {
                        figures += 1;
                        assert!(is_figure(text), "{name}: {piece:?}");
                    }
                }
            }
        }
    }
    assert!(
        names > 1_000 && figures > 1_000,
        "{names} names, {figures} figures"
    );
}
