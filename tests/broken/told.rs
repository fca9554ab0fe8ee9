//! What a finding of a file with one thing changed tells, and before what.

use crate::demo::text_of_file;
use crate::table::rows;
use bleedwright_network::load;

/// What stands under the finding with this code.
fn help(code: &str, text: &str) -> String {
    let loaded = load(text.as_bytes());
    let found = loaded.findings.iter().find(|it| it.code.text() == code);
    found
        .unwrap_or_else(|| panic!("{code} is not among {:?}", loaded.findings))
        .help
        .clone()
}

fn codes(text: &str) -> Vec<&'static str> {
    let loaded = load(text.as_bytes());
    loaded.findings.iter().map(|it| it.code.text()).collect()
}

fn changed(name: &str, from: &str, to: &str) -> String {
    let text = text_of_file(name);
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

/// A file, what is changed in it, the code, and its help: inches come first in a file in inches, a share of a bar is in per
/// cent, a bar that is missing is named, and a part that is missing is to be added.
const CHANGES: &str = r#"
tests/layouts/broken/millimetres_in_inches.ron | "62 mm" | "118 m" | BW106 | did you mean `118 in` or
tests/layouts/broken/millimetres_in_inches.ron | "62 mm" | 118 | BW101 | write it in quotes with its unit: `"118 in"`
layouts/curlew.ron | (cylinders: [ | (share: 55, cylinders: [ | BW106 | a share is written in per cent or below 1: did you mean `"55 %"`?
layouts/curlew.ron | (cylinders: ["front cylinder", "rear cylinder"]), | | BW211 | add `balance_bars: [(cylinders: ["
layouts/lapwing.ron | to: " | to: "hump at the bulkhead zzz | BW201 | ; or add the part `hump
"#;

#[test]
fn the_help_says_what_to_do() {
    for [file, from, to, code, wanted] in rows(CHANGES) {
        let told = help(code, &changed(file, from, to));
        assert!(told.contains(wanted), "{wanted}: {told}");
    }
}

/// One pipe on the wrong outlet is told at that pipe, not at the split.
#[test]
fn a_pipe_on_the_wrong_outlet_is_told_there() {
    let text = changed(
        "layouts/plover.ron",
        "from: \"master.secondary\", to: \"front right joint\"",
        "from: \"master.primary\", to: \"front right joint\"",
    );
    let loaded = load(text.as_bytes());
    let found = loaded.findings.iter().find(|it| it.code.text() == "BW211");
    let found = found.expect("the split is contradicted");
    assert_eq!(found.place.to_string(), "lines[6].from", "{found:?}");
    assert!(
        found
            .help
            .contains("with `front right pipe` on the other circuit"),
        "{found:?}"
    );
}

/// A word that nothing takes is told before what may only follow from it.
#[test]
fn an_unknown_field_is_told_first() {
    let tee = "(id: \"axle tee\", kind: tee";
    let text = changed(
        "layouts/lapwing.ron",
        tee,
        &format!("{tee}, sections: [\"left\", \"right\"], frobnicate: 1"),
    );
    let codes = codes(&text);
    assert_eq!(codes.first(), Some(&"BW002"), "{codes:?}");
    assert!(codes.contains(&"BW113"), "{codes:?}");
}

/// Where one bracket alone was forgotten, the rest of the file is read too.
#[test]
fn what_comes_behind_a_forgotten_bracket_is_told_beside_it() {
    let text = changed(
        "layouts/lapwing.ron",
        "torque: \"9 N m\")]",
        "torque: \"9 N m\"]",
    );
    let text = text.replacen("bore: \"3.2 mm\"", "bore: \"3.2 mmm\"", 1);
    let text = text.replacen("feeds: \"master.primary\"", "feeds: \"mastr.primary\"", 1);
    let codes = codes(&text);
    for code in ["BW001", "BW102", "BW201"] {
        assert!(codes.contains(&code), "{code} is not among {codes:?}");
    }
}

/// A value that cannot be read does not hide a compartment that feeds a chamber of no cylinder.
#[test]
fn a_feed_that_names_nothing_is_told_beside_a_mistake() {
    for mistake in ["steering: up,", "frobnicate: 1,"] {
        let text = changed("layouts/lapwing.ron", "feeds: \"master", "feeds: \"mastr").replacen(
            "    fluid:",
            &format!("    {mistake}\n    fluid:"),
            1,
        );
        assert_eq!(help("BW201", &text), "did you mean `master`?", "{mistake}");
    }
}
