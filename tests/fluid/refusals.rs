//! What is refused: exit code 2, nothing printed, and an error that names the option, what was found and what to do.

use crate::command_line::{self, run};

#[track_caller]
fn refused(options: &str, words: &[&str]) {
    command_line::refused(&format!("fluid {options}"), words);
}

/// Silicone fluid and mineral oil take up no water (common practice, no source): a reading is refused, with what to do instead.
#[test]
fn moisture_of_fluid_without_water() {
    refused(
        "--grade dot5 --moisture '2 %'",
        &["--moisture", "drops", "lowest screw"],
    );
    refused("--grade mineral --moisture '2 %'", &["--moisture", "drops"]);
    refused(
        "--grade dot5 --bottle-moisture '0.2 %'",
        &["--bottle-moisture", "drops"],
    );
    refused(
        "--grade dot4 --bottle-grade dot5 --bottle-moisture '0.2 %'",
        &["--bottle-moisture"],
    );
}

#[test]
fn shares_without_their_sign() {
    for text in ["2.5", "0.025", "0.4", "2,5", "two"] {
        for option in ["--moisture", "--bottle-moisture"] {
            refused(
                &format!("--grade dot4 {option} '{text}'"),
                &[option, "sign"],
            );
        }
    }
    refused("--grade dot4 --moisture '2,5 %'", &["--moisture", "2.5 %"]);
}

#[test]
fn readings_that_cannot_be() {
    for (option, text, word) in [
        ("--moisture", "25 %", "0 to 20 %"),
        ("--moisture", "-1 %", "0 to 20 %"),
        ("--moisture", "NaN %", "finite"),
        ("--moisture", "1 % ± 2 %", "tolerance"),
        ("--boiling", "1000 degC", "90 to 350 degC"),
        ("--boiling", "20 degC", "90 to 350 degC"),
        ("--boiling", "180", "unit"),
        ("--boiling", "180 bar", "unit"),
        ("--label-wet", "311", "unit"),
        ("--label-wet", "60 degC", "105 to 350 degC"),
        ("--label-dry", "900 degF", "105 to 350 degC"),
        ("--label-wet", "311 degF ± 5 degF", "tolerance"),
        ("--age", "30", "unit"),
        ("--age", "30 moons", "months"),
        ("--age", "-2 years", "months"),
        ("--age", "300 years", "0 to 100 years"),
        ("--opened-for", "soon", "months"),
        ("--grade", "dot6", "dot5_1"),
        ("--mixed-with", "water", "dot5_1"),
    ] {
        let grade = if option == "--grade" {
            ""
        } else {
            "--grade dot4"
        };
        refused(&format!("{option} '{text}' {grade}"), &[option, word]);
    }
}

#[test]
fn options_that_do_not_fit() {
    refused("", &["--grade", "--layout"]);
    refused("--moisture '2 %'", &["--grade", "--layout"]);
    refused(
        "--grade dot4 --label-wet '446 degF' --label-dry '311 degF'",
        &["--label-wet", "exchanged"],
    );
    refused(
        "--grade dot4 --of-the-label --moisture '2 %'",
        &["--of-the-label", "boiling point"],
    );
    refused(
        "--grade dot4 --of-the-label --label-wet '320 degF' --mixed-with dot3",
        &["--of-the-label"],
    );
    refused(
        "--grade dot4 --of-the-label --label-wet '360 degF' --bottle-grade dot5_1",
        &["--of-the-label"],
    );
    // Lapwing needs DOT 4, and so does its bottle unless it says otherwise.
    refused(
        "--layout layouts/lapwing.ron --grade dot3 --of-the-label --label-wet '320 degF'",
        &["--of-the-label"],
    );
    refused("--grade dot4 --format csv", &["--format"]);
}

/// A layout that cannot be read, or that has errors, is told as every verb tells it.
#[test]
fn layouts() {
    let missing = run("fluid --layout layouts/nowhere.ron");
    assert_eq!(missing.code, Some(1), "{}", missing.stderr);
    let broken = run("fluid --layout tests/layouts/broken/bore_in_metres.ron");
    assert_eq!(broken.code, Some(3), "{}", broken.stderr);
    assert!(
        broken.stderr.contains("no fluid was judged"),
        "{}",
        broken.stderr
    );
}
