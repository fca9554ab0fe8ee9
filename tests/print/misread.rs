//! What must not be misread, on every kind of sheet: text, Markdown, page, paper.

use super::{reader, squeezed};
use crate::binary::root;
use crate::command_line::run_with_input;
use std::path::Path;

const FORMATS: [&str; 3] = ["text", "markdown", "html"];

fn demo(name: &str) -> String {
    let path = root().join(format!("layouts/{name}.ron"));
    std::fs::read_to_string(path).expect("a demo layout can be read")
}

/// Without blanks, and without what a format needs around a name.
fn bare(text: &str) -> String {
    squeezed(text).replace(['`', '\\', '“', '”'], "")
}

/// A layout planned with these options, on every kind of sheet.
fn sheets(test: &str, layout: &str, options: &[&str]) -> Vec<(String, String)> {
    let call = |more: &[&str]| {
        let call = [&["plan", "-"], options, more].concat();
        let run = run_with_input(&call, layout.as_bytes());
        assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
        run.stdout
    };
    let mut sheets: Vec<(String, String)> = FORMATS
        .iter()
        .map(|format| ((*format).to_owned(), bare(&call(&["--format", format]))))
        .collect();
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("misread-{test}.pdf"));
    let name = file.to_str().expect("the folder has a plain name");
    call(&["--format", "pdf", "--overwrite", "-o", name]);
    let pages = reader::read(&std::fs::read(&file).expect("the card was written"));
    sheets.push(("pdf".to_owned(), bare(&reader::said(&pages))));
    sheets
}

#[track_caller]
fn assert_says(sheets: &[(String, String)], wanted: &str) {
    for (format, said) in sheets {
        assert!(said.contains(&bare(wanted)), "{format}: {wanted}\n{said}");
    }
}

#[track_caller]
fn assert_never_says(sheets: &[(String, String)], unwanted: &str) {
    for (format, said) in sheets {
        assert!(!said.contains(&bare(unwanted)), "{format}: {unwanted}");
    }
}

/// The torque of a small screw shears a smaller one.
#[test]
fn each_of_two_screws_has_its_own_torque() {
    let layout = demo("curlew");
    let both = sheets("alike", &layout, &[]);
    assert_says(&both, "spanner 7/16 in, 6 lbf ft");
    assert_never_says(&both, "front left inner: spanner");
    let its_tools =
        "\"inner\", at_top: true,\n                 spanner: \"7/16 in\", torque: \"6 lbf ft\"";
    let at = layout.find("front left inner").expect("its screw");
    let (before, after) = layout.split_at(at);
    let after = after.replacen(its_tools, "\"inner\", at_top: true", 1);
    let sheets = sheets("apart", &format!("{before}{after}"), &[]);
    let tools = "rear left inner: spanner 7/16 in, 6 lbf ft; front left inner: maker's torque";
    assert_says(&sheets, tools);
}
