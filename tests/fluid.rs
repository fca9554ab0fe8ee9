//! The verb `fluid`: verdicts, common practice, properties, what is refused, what is printed.

mod properties;
mod refusals;
mod verdicts;

use crate::command_line::run;
use serde_json::Value;

/// The document of a call.
fn document(arguments: &[&str]) -> Value {
    let mut call = vec!["fluid", "--format", "json"];
    call.extend(arguments);
    let run = run(&call);
    assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
    assert!(run.stderr.is_empty(), "{call:?}: {}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{call:?}: {error}"))
}

/// Both outputs and the exit code of a call.
fn output_of(arguments: &[&str]) -> String {
    let mut call = vec!["fluid"];
    call.extend(arguments);
    run(&call).shown()
}

#[test]
fn text_of_a_reading_and_a_bottle() {
    insta::assert_snapshot!(output_of(&[
        "--grade",
        "dot4",
        "--moisture",
        "2.5 %",
        "--age",
        "30 months",
        "--label-wet",
        "311 degF",
        "--bottle-moisture",
        "0.4 %",
        "--opened-for",
        "8 months",
        "--width",
        "80",
    ]));
}

#[test]
fn text_of_fluids_that_do_not_mix() {
    insta::assert_snapshot!(output_of(&[
        "--layout",
        "layouts/lapwing.ron",
        "--grade",
        "dot4",
        "--mixed-with",
        "dot5",
        "--moisture",
        "1 %",
        "--width",
        "48",
    ]));
}

#[test]
fn text_of_the_limits_alone() {
    insta::assert_snapshot!(output_of(&["--grade", "dot5", "--width", "80"]));
}

#[test]
fn text_of_a_refusal() {
    insta::assert_snapshot!(output_of(&["--grade", "dot5", "--moisture", "2 %"]));
}

/// No line is wider than asked, and without colour nothing is lost: the word of the verdict is there.
#[test]
fn narrow_and_without_colour() {
    for width in ["24", "40", "60", "80"] {
        let most: usize = width.parse().expect("a number");
        let call = [
            "fluid",
            "--grade",
            "dot4",
            "--moisture",
            "4 %",
            "--bottle-moisture",
            "1 %",
            "--color",
            "never",
            "--width",
            width,
        ];
        let plain = run(&call);
        assert!(!plain.stdout.contains('\u{1b}'), "{width}");
        let words = plain
            .stdout
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        assert!(
            words.contains("IN THE CAR: UNSAFE, DO NOT DRIVE"),
            "{words}"
        );
        assert!(words.contains("NEW BOTTLE: DO NOT USE"), "{words}");
        for line in plain.stdout.lines() {
            let is_one_word = line.split_whitespace().nth(1).is_none();
            assert!(
                line.chars().count() <= most || is_one_word,
                "{width}: {line}"
            );
        }
    }
    let coloured = run(&[
        "fluid",
        "--grade",
        "dot4",
        "--moisture",
        "4 %",
        "--color",
        "always",
    ]);
    let head: String = coloured.stdout.lines().take(2).collect();
    assert!(head.contains('\u{1b}') && head.contains("UNSAFE"), "{head}");
}

/// A sheet asks for a sealed bottle within its date, and for no reading of it.
#[test]
fn the_sheet_asks_for_a_sealed_bottle() {
    let plan = run(&["plan", "layouts/lapwing.ron"]).unwrapped();
    assert!(
        plan.contains("from a sealed bottle within its date"),
        "{plan}"
    );
    assert!(!plan.contains("moisture"), "{plan}");
}
