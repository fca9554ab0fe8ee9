//! The verb `fluid`: verdicts, common practice, properties, what is printed.

mod properties;
mod verdicts;

use crate::command_line::{self, run};
use serde_json::Value;

/// The document of a call.
fn document(options: &str) -> Value {
    command_line::document(&format!("fluid --format json {options}"))
}

/// Both outputs and the exit code of a call.
fn output_of(options: &str) -> String {
    run(&format!("fluid {options}")).shown()
}

#[test]
fn text_of_a_reading_and_a_bottle() {
    insta::assert_snapshot!(output_of(
        "--grade dot4 --moisture '2.5 %' --age '30 months' --label-wet '311 degF' \
        --bottle-moisture '0.4 %' --opened-for '8 months' --width 80"
    ));
}

#[test]
fn text_of_fluids_that_do_not_mix() {
    insta::assert_snapshot!(output_of(
        "--layout layouts/lapwing.ron --grade dot4 --mixed-with dot5 --moisture '1 %' \
        --width 48"
    ));
}

#[test]
fn text_of_the_limits_alone() {
    insta::assert_snapshot!(output_of("--grade dot5 --width 80"));
}

#[test]
fn text_of_a_refusal() {
    insta::assert_snapshot!(output_of("--grade dot5 --moisture '2 %'"));
}

/// Without colour nothing is lost: the word of the verdict is there.
#[test]
fn without_colour() {
    for width in [24, 40, 60, 80] {
        let options = format!("--color never --width {width}");
        let sheet = run(&format!(
            "fluid --grade dot4 --moisture '4 %' --bottle-moisture '1 %' {options}"
        ));
        let words = sheet.unwrapped();
        assert!(!words.contains('\u{1b}'), "{width}");
        for verdict in ["IN THE CAR: UNSAFE, DO NOT DRIVE", "NEW BOTTLE: DO NOT USE"] {
            assert!(words.contains(verdict), "{verdict}: {words}");
        }
    }
    let coloured = run("fluid --grade dot4 --moisture '4 %' --color always");
    let head: String = coloured.stdout.lines().take(2).collect();
    assert!(head.contains('\u{1b}') && head.contains("UNSAFE"), "{head}");
}

/// A sheet asks for a sealed bottle within its date, and for no reading of it.
#[test]
fn the_sheet_asks_for_a_sealed_bottle() {
    let plan = run("plan layouts/lapwing.ron").unwrapped();
    assert!(
        plan.contains("from a sealed bottle within its date"),
        "{plan}"
    );
    assert!(!plan.contains("moisture"), "{plan}");
}
