//! The verb `fluid`: verdicts, common practice, properties, what is printed.

mod properties;
mod verdicts;

use crate::command_line::{self, run};
use serde_json::Value;

fn document(options: &str) -> Value {
    command_line::document(&format!("fluid --format json {options}"))
}

/// Both outputs and the exit code of a call.
fn output_of(options: &str) -> String {
    run(&format!("fluid {options}")).shown()
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
