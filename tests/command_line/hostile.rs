//! Files that nobody means to write: a clear error, and nothing that steers
//! the terminal.

use super::{Run, run, run_with_input, run_words};
use crate::demo::demo_text;
use std::path::PathBuf;

const VERBS: [&str; 3] = ["check", "plan", "volumes"];

/// Keeps a file for a test under a name of its own.
fn file(name: &str, bytes: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, bytes).expect("the folder for temporary files can be written to");
    path
}

/// All verbs on one file: each refuses with the code, says why, and prints no
/// escape.
fn assert_refused(name: &str, bytes: &[u8], code: &str) {
    let path = file(name, bytes);
    let path = path.to_str().expect("the path is text");
    for verb in VERBS {
        for format in ["text", "json"] {
            let run = run(&format!("{verb} '{path}' --format {format}"));
            assert_refusal(&format!("{name}: {verb} {format}"), &run, code);
        }
    }
}

fn assert_refusal(what: &str, run: &Run, code: &str) {
    assert_eq!(run.code, Some(3), "{what}: {}", run.stderr);
    assert!(!run.has_escape(), "{what}");
    let all = format!("{}{}", run.stdout, run.stderr);
    assert!(all.contains(code), "{what}: {all}");
    // A file of five mebibytes is not printed again.
    assert!(
        all.len() < 100_000,
        "{what}: {} bytes are printed",
        all.len()
    );
    assert!(!all.contains("panicked"), "{what}: {all}");
}

#[test]
fn a_million_nested_brackets() {
    for (name, bracket) in [("round.ron", "("), ("square.ron", "["), ("curly.ron", "{")] {
        let text = format!(
            "(format: 1, name: \"Stilt\", lines: {}",
            bracket.repeat(1_000_000)
        );
        assert_refused(name, text.as_bytes(), "BW0");
    }
    assert_refused("bare.ron", "(".repeat(1_000_000).as_bytes(), "BW0");
    assert_refused("comments.ron", "/*".repeat(1_000_000).as_bytes(), "BW0");
}

#[test]
fn a_file_of_five_mebibytes() {
    assert_refused("large.ron", &vec![b' '; 5 * 1024 * 1024], "BW007");
    let text = format!("{}{}", demo_text("lapwing"), "// filler\n".repeat(524_288));
    assert_refused("large_layout.ron", text.as_bytes(), "BW007");
    let run = run_with_input("check -", &vec![b'a'; 5 * 1024 * 1024]);
    assert_refusal("standard input", &run, "BW007");
}

#[test]
fn an_empty_file() {
    assert_refused("empty.ron", b"", "BW0");
    assert_refused("blank.ron", b"\n\n   \t\n", "BW0");
    assert_refused("nothing.ron", b"()", "BW0");
}

#[test]
fn a_binary() {
    let every_byte: Vec<u8> = (0..=255).cycle().take(4096).collect();
    assert_refused("every_byte.ron", &every_byte, "BW008");
    assert_refused("zeros.ron", &[0; 4096], "BW0");
    let program = std::fs::read(std::env::current_exe().expect("a test knows its own path"));
    let start: Vec<u8> = program
        .expect("the test itself can be read")
        .into_iter()
        .take(2_000_000)
        .collect();
    assert_refused("program.ron", &start, "BW008");
}

#[test]
fn a_directory_and_a_missing_file() {
    for verb in VERBS {
        for path in ["layouts", "no/such/file.ron", ""] {
            let run = run(&format!("{verb} '{path}'"));
            assert!(
                matches!(run.code, Some(1 | 2)),
                "{verb} {path:?}: {:?}",
                run.code
            );
            assert!(!run.stderr.is_empty(), "{verb} {path:?}");
            assert!(run.stdout.is_empty(), "{verb} {path:?}");
        }
    }
}

/// Line ends of two bytes and a byte order mark change nothing.
#[test]
fn windows_line_ends_and_a_byte_order_mark() {
    let plain = run("plan layouts/lapwing.ron");
    let text = demo_text("lapwing");
    for (name, text) in [
        ("crlf.ron", text.replace('\n', "\r\n")),
        ("bom.ron", format!("\u{feff}{text}")),
        (
            "both.ron",
            format!("\u{feff}{}", text.replace('\n', "\r\n")),
        ),
    ] {
        let path = file(name, text.as_bytes());
        let path = path.to_str().expect("the path is text");
        let run = run(&format!("plan '{path}'"));
        assert_eq!(run.code, Some(0), "{name}: {}", run.stderr);
        assert_eq!(run.stdout, plain.stdout, "{name}");
    }
}

#[test]
fn numbers_that_are_none() {
    for (name, value, code) in [
        ("nan.ron", "NaN mm", "BW10"),
        ("inf.ron", "inf mm", "BW10"),
        ("minus_inf.ron", "-inf mm", "BW10"),
        ("huge.ron", "1e400 mm", "BW10"),
        ("tiny.ron", "1e-400 mm", "BW10"),
        ("digits.ron", &"9".repeat(100_000), "BW10"),
        ("nan_tolerance.ron", "23.8 mm ± NaN mm", "BW10"),
        ("zero_division.ron", "1/0 in", "BW10"),
    ] {
        let text = demo_text("lapwing").replace("bore: \"23.8 mm\"", &format!("bore: \"{value}\""));
        assert_ne!(text, demo_text("lapwing"));
        assert_refused(name, text.as_bytes(), code);
    }
    for bare in ["NaN", "inf", "-inf", "1e400"] {
        let text = demo_text("lapwing").replace("bore: \"23.8 mm\"", &format!("bore: {bare}"));
        assert_refused("bare_number.ron", text.as_bytes(), "BW");
    }
}

/// Characters that would steer a terminal: raw, and written as an escape of the
/// text format.
#[test]
fn an_escape_in_a_name() {
    let hostile = [
        "\u{1b}[31mred",
        "\\u{1b}[2Jgone",
        "\u{1b}]0;title\u{7}",
        "\u{9b}31m",
        "back\u{8}space",
        "\u{202e}backwards",
    ];
    for (nth, name) in hostile.into_iter().enumerate() {
        for field in [
            "\"front tee\"",
            "\"front left\"",
            "\"master\"",
            "\"Lapwing, long-wheelbase minibus\"",
        ] {
            let text = demo_text("lapwing").replacen(field, &format!("\"{name}\""), 1);
            assert_ne!(text, demo_text("lapwing"), "{field}");
            let path = file(&format!("escape_{nth}.ron"), text.as_bytes());
            let path = path.to_str().expect("the path is text");
            for verb in VERBS {
                let run = run(&format!("{verb} '{path}'"));
                let what = format!("{verb}, {field} as {name:?}");
                assert!(!run.has_escape(), "{what}");
                let all = run.stdout + &run.stderr;
                let steers = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
                assert!(!all.contains(steers), "{what}: {all:?}");
                assert!(matches!(run.code, Some(0 | 1 | 3)), "{what}");
            }
        }
    }
}

/// The remark and the date are free text and printed.
#[test]
fn an_escape_in_a_remark() {
    let text = demo_text("lapwing").replace("notes: \"Island", "notes: \"\\u{1b}[31mIsland");
    let path = file("remark.ron", text.as_bytes());
    let path = path.to_str().expect("the path is text");
    for verb in VERBS {
        assert!(!run(&format!("{verb} '{path}'")).has_escape(), "{verb}");
    }
    let dated = run("plan layouts/lapwing.ron --date '\u{1b}[31m5 April'");
    assert!(!dated.has_escape());
    assert_eq!(dated.code, Some(2));
}

/// What the caller writes is printed back in messages, and shown there: by our own ones and by those of the reader of the
/// command line, whose styles a terminal gets.
#[test]
fn an_escape_on_the_command_line() {
    let hostile = "\u{1b}[31m\u{1b}]0;hi\u{7}\r\u{9b}1m\u{202e}\u{200b}x";
    let option = format!("--{hostile}");
    let calls: [&[&str]; 12] = [
        &["plan", hostile],
        &["plan", "layouts/lapwing.ron", &option],
        &["plan", "layouts/lapwing.ron", "--opened", hostile],
        &["plan", "layouts/lapwing.ron", "--method", hostile],
        &["plan", "layouts/lapwing.ron", "--date", hostile],
        &["compare", "layouts/lapwing.ron", "--with", hostile],
        &["plan", "no\u{1b}[31msuch.ron"],
        &["plan", "layouts/lapwing.ron", "--skip", "\u{1b}[31mrear"],
        &["plan", "layouts/lapwing.ron", "--residual", "\u{1b}[31m"],
        &["plan", "layouts/lapwing.ron", "--new-fluid", "\u{1b}[31m"],
        &["plan", "layouts/lapwing.ron", "--\u{1b}[31m"],
        &["\u{1b}[31m"],
    ];
    for call in calls {
        let run = run_words(call);
        let all = format!("{}{}", run.stdout, run.stderr);
        let steers = |c: char| bleedwright_network::is_invisible(c) && c != '\n';
        assert!(!all.contains(steers), "{call:?}: {all:?}");
        assert!(all.contains('\u{fffd}'), "{call:?}: {all:?}");
        assert!(matches!(run.code, Some(1 | 2)), "{call:?}: {:?}", run.code);
    }
}
