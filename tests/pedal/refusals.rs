//! What is refused: exit code 2, nothing printed, and an error that names the option, what was found and what to do.

use crate::command_line::{self, run};
use serde_json::Value;

#[track_caller]
fn refused(options: &str, words: &[&str]) {
    command_line::refused(&format!("pedal {options}"), words);
}

#[test]
fn names_that_nothing_has() {
    refused(
        "layouts/lapwing.ron --control mastr",
        &["`mastr`", "master", "did you mean"],
    );
    refused("layouts/lapwing.ron --control ''", &["master"]);
    refused(
        "layouts/turnstone.ron",
        &["--control", "several pedals or levers"],
    );
    refused(
        "layouts/lapwing.ron --air '1 ml' --air-in tertiary",
        &["`tertiary`", "primary, secondary"],
    );
    refused("layouts/lapwing.ron --air-in primary", &["--air"]);
    refused(
        "layouts/lapwing.ron --symptom spongy",
        &["--symptom", "springy", "sinking"],
    );
    refused(
        "layouts/lapwing.ron --booster on",
        &["--booster", "exhausted"],
    );
    refused("layouts/lapwing.ron --format csv", &["--format", "json"]);
}

#[test]
fn forces_that_no_foot_has() {
    for (text, word) in [
        ("0 N", "10 N to 2000 N"),
        ("-300 N", "10 N to 2000 N"),
        ("9.9 N", "10 N to 2000 N"),
        ("2001 N", "10 N to 2000 N"),
        ("NaN N", "finite"),
        ("inf N", "finite"),
        ("300", "no unit"),
        ("300 mm", "`mm` is not a unit"),
        ("hard", "is not"),
        ("", "is not"),
        ("300 N ± 20 N", "tolerance"),
    ] {
        // With an equals sign, so that a minus is not read as an option.
        refused(
            &format!("layouts/lapwing.ron '--force={text}'"),
            &["--force", word],
        );
    }
}

#[test]
fn readings_that_are_none() {
    for (text, word) in [
        ("", "colon"),
        ("62 mm", "colon"),
        ("300 N 62 mm", "colon"),
        ("300 N; 62 mm", "colon"),
        (":", "is not"),
        ("300 N:", "is not"),
        (": 62 mm", "is not"),
        ("300: 62 mm", "no unit"),
        ("300 N: 62", "no unit"),
        ("62 mm: 300 N", "is not a unit"),
        ("300 N: 62 N", "is not a unit"),
        ("300 N: 62 mm: 3 mm", "is not"),
        ("300 N: 62,5 mm", "write `62.5 mm`"),
        ("300 N: 0 mm", "above 0 mm"),
        ("300 N: -3 mm", "above 0 mm"),
        ("300 N: 401 mm", "400 mm"),
        ("300 N: NaN mm", "finite"),
        ("300 N: 62 mm ± 63 mm", "tolerance"),
        ("300 N: 62 mm ± -1 mm", "tolerance"),
        ("NaN N: 62 mm", "finite"),
        ("5 N: 62 mm", "10 N to 2000 N"),
        ("300 N ± 295 N: 62 mm", "10 N to 2000 N"),
        ("firm: 62 mm", "`light push` or `hard push`"),
    ] {
        for option in ["--measured", "--pumped"] {
            let given = format!("{option}={text}");
            refused(
                &format!("layouts/lapwing.ron --booster running '{given}'"),
                &[option, word],
            );
        }
    }
}

/// The same force gives several times the pressure with the booster, so that it is never guessed.
#[test]
fn readings_without_the_booster_said() {
    for option in ["--measured", "--pumped"] {
        refused(
            &format!("layouts/lapwing.ron {option} '300 N: 62 mm'"),
            &["--booster", "running or exhausted"],
        );
    }
    refused(
        "layouts/curlew.ron --booster running",
        &["no booster", "--booster"],
    );
}

#[test]
fn too_little_force_for_a_reading() {
    refused(
        "layouts/lapwing.ron --booster exhausted --measured '12 N: 12 mm'",
        &["12 N", "says nothing about air"],
    );
    // The other readings do not help it.
    refused(
        "layouts/lapwing.ron --booster exhausted --measured '300 N: 62 mm' --pumped \
            '12 N: 12 mm'",
        &["12 N"],
    );
}

#[test]
fn sizes_that_cannot_be() {
    for (text, word) in [
        ("wide", "is not"),
        ("0.7", "no unit"),
        ("0 mm", "5 mm to 80 mm"),
        ("-20 mm", "5 mm to 80 mm"),
        ("200 mm", "5 mm to 80 mm"),
        ("NaN mm", "finite"),
        ("0.7 in +", "is not"),
        ("0.7 in + 3/4 in + 1 in", "one bore, or two"),
        ("20 bar", "is not a unit"),
    ] {
        refused(
            &format!("layouts/curlew.ron '--bore={text}'"),
            &["--bore", word],
        );
    }
    for text in ["0", "-5", "16", "five", "NaN", "5 mm"] {
        refused(
            &format!("layouts/curlew.ron '--ratio={text}'"),
            &["--ratio"],
        );
    }
    for text in ["5", "19 %", "81 %", "half", "NaN %"] {
        refused(
            &format!("layouts/curlew.ron '--share={text}'"),
            &["--share"],
        );
    }
    refused(
        "layouts/lapwing.ron --bore '0.7 in + 3/4 in'",
        &["--bore", "one cylinder"],
    );
    refused(
        "layouts/lapwing.ron --share '50 %'",
        &["--share", "balance bar"],
    );
}

#[test]
fn air_that_cannot_be() {
    for text in ["0 ml", "-1 ml", "201 ml", "NaN ml", "1", "1 mm"] {
        refused(&format!("layouts/lapwing.ron '--air={text}'"), &["--air"]);
    }
    for option in ["--measured", "--pumped"] {
        refused(
            &format!("layouts/lapwing.ron --air '1 ml' {option} '300 N: 62 mm'"),
            &["--air", option],
        );
    }
}

/// A layout that cannot be read, or that has errors, is told as every verb tells it.
#[test]
fn layouts() {
    let missing = run("pedal layouts/nowhere.ron");
    assert_eq!(missing.code, Some(1), "{}", missing.stderr);
    assert!(missing.stdout.is_empty());
    let broken = "tests/layouts/broken/bore_in_metres.ron";
    let text = run(&format!("pedal '{broken}'"));
    assert_eq!(text.code, Some(3), "{}", text.stderr);
    assert!(text.stdout.is_empty(), "{}", text.stdout);
    assert!(
        text.stderr.contains("nothing was computed"),
        "{}",
        text.stderr
    );
    let json = run(&format!("pedal '{broken}' --format json"));
    assert_eq!(json.code, Some(3), "{}", json.stderr);
    let document: Value = serde_json::from_str(&json.stdout).expect("errors are JSON too");
    assert_eq!(document["is_sound"], Value::Bool(false));
}

#[test]
fn help() {
    for call in ["pedal --help", "pedal -h", "help pedal", "pedal --version"] {
        let run = run(call);
        assert_eq!(run.code, Some(0), "{call:?}");
        assert!(!run.stdout.is_empty() && run.stderr.is_empty(), "{call:?}");
    }
    refused("", &["<LAYOUT>"]);
    refused("layouts/lapwing.ron layouts/lapwing.ron", &["unexpected"]);
    refused("layouts/lapwing.ron --travel '62 mm'", &["--travel"]);
}
