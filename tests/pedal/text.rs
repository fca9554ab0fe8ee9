//! The printed page: whole outputs, width, colour.

use super::output_of;
use crate::command_line::run;
use crate::demo::ALL;

const LAPWING: &str = "layouts/lapwing.ron";

#[test]
fn text_of_lapwing() {
    insta::assert_snapshot!(output_of(&[
        LAPWING,
        "--force",
        "300 N",
        "--booster",
        "running",
        "--width",
        "80",
    ]));
}

#[test]
fn text_of_readings() {
    insta::assert_snapshot!(output_of(&[
        LAPWING,
        "--booster",
        "exhausted",
        "--measured",
        "50 N: 50 mm",
        "--measured",
        "300 N: 66 mm ± 1 mm",
        "--pumped",
        "300 N: 58 mm ± 1 mm",
        "--width",
        "80",
    ]));
}

#[test]
fn text_of_sizes() {
    insta::assert_snapshot!(output_of(&[
        "layouts/curlew.ron",
        "--force",
        "500 N",
        "--bore",
        "0.7 in",
        "--bore",
        "0.7 in + 13/16 in",
        "--ratio",
        "5",
        "--ratio",
        "6",
        "--width",
        "80",
    ]));
}

#[test]
fn text_of_a_symptom() {
    insta::assert_snapshot!(output_of(&[
        "layouts/ruff.ron",
        "--control",
        "master",
        "--symptom",
        "sinking",
        "--width",
        "80",
    ]));
}

/// A reservoir that a clutch draws on too.
#[test]
fn text_of_air_that_is_said_and_a_shared_reservoir() {
    insta::assert_snapshot!(output_of(&[
        "layouts/ruff.ron",
        "--control",
        "master",
        "--air",
        "1.5 ml",
        "--width",
        "80",
    ]));
}

/// Whether a line is too wide although it could have been broken.
fn is_too_wide(line: &str, width: usize) -> bool {
    line.chars().count() > width && line.split_whitespace().nth(1).is_some()
}

#[test]
fn narrow_paper_is_kept_to() {
    for call in [
        &[LAPWING][..],
        &["layouts/curlew.ron", "--bore", "0.7 in + 13/16 in"],
        &["layouts/plover.ron", "--symptom", "low"],
        &[
            LAPWING,
            "--booster",
            "running",
            "--measured",
            "300 N: 120 mm",
            "--pumped",
            "300 N: 110 mm",
        ],
    ] {
        for width in ["24", "40", "60"] {
            let most: usize = width.parse().expect("a number");
            let mut all = vec!["pedal"];
            all.extend(call);
            all.extend(["--color", "never", "--width", width]);
            let plain = run(&all);
            assert_eq!(plain.code, Some(0), "{all:?}: {}", plain.stderr);
            assert!(!plain.stdout.contains('\u{1b}'), "{all:?}");
            let wide: Vec<&str> = plain
                .stdout
                .lines()
                .filter(|line| is_too_wide(line, most))
                .collect();
            assert!(wide.is_empty(), "{all:?}: {wide:#?}");
        }
    }
}

/// Colour adds nothing but colour.
#[test]
fn colour_carries_no_meaning_of_its_own() {
    for name in ALL {
        let path = format!("layouts/{name}.ron");
        let call = |colour: &str| run(&["pedal", &path, "--color", colour, "--width", "80"]);
        let (plain, coloured) = (call("never"), call("always"));
        if plain.code != Some(0) {
            // Several controls: that is told in `refusals`.
            assert!(
                plain.stderr.contains("--control"),
                "{name}: {}",
                plain.stderr
            );
            continue;
        }
        assert!(coloured.stdout.contains('\u{1b}'), "{name}");
        let mut bare = coloured.stdout.clone();
        for code in ["\u{1b}[0m", "\u{1b}[1m", "\u{1b}[31m", "\u{1b}[33m"] {
            bare = bare.replace(code, "");
        }
        assert_eq!(bare, plain.stdout, "{name}");
    }
}
