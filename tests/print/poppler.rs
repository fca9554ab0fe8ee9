//! The pages as poppler reads them, where it is installed.

use super::{assert_says_in_order, card_of, printed, said};
use crate::demo;
use std::fs;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Set where the tools must be there.
const REQUIRED: &str = "BLEEDWRIGHT_PDF";

/// Whether poppler's tools can be used. Where not, that is said past the test's captured output, once for each test.
fn has_poppler(test: &str) -> bool {
    let tools = ["pdftotext", "pdffonts", "pdfinfo"];
    let missing: Vec<&str> = tools.into_iter().filter(|tool| !runs(tool)).collect();
    if missing.is_empty() {
        return true;
    }
    let missing = missing.join(", ");
    assert!(
        std::env::var(REQUIRED).as_deref() != Ok("required"),
        "{REQUIRED}=required, but {missing} cannot be run; tests/print/prepare.sh installs them"
    );
    let mut stderr = std::io::stderr().lock();
    let _ = writeln!(
        stderr,
        "LEFT OUT: {test} needs {missing}; tests/print/prepare.sh installs them"
    );
    false
}

fn runs(tool: &str) -> bool {
    let mut command = Command::new(tool);
    command
        .arg("-v")
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}

/// A file of this test's own.
fn file(test: &str, name: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("print-{test}-{name}.pdf"));
    fs::write(&path, printed(&card_of(name)))
        .expect("the folder for temporary files can be written");
    path
}

fn output(tool: &str, options: &[&str], file: &PathBuf, last: &[&str]) -> String {
    let output = Command::new(tool)
        .args(options)
        .arg(file)
        .args(last)
        .output();
    let output = output.expect("the tool was there a moment ago");
    assert!(
        output.status.success(),
        "{tool}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("poppler writes UTF-8")
}

#[test]
fn the_text_is_read_in_order() {
    if !has_poppler("the_text_is_read_in_order") {
        return;
    }
    for name in demo::ALL {
        let file = file("text", name);
        let said = output("pdftotext", &["-raw", "-enc", "UTF-8"], &file, &["-"]);
        assert_says_in_order(name, &said, &said::texts(&card_of(name)));
    }
}

#[test]
fn fonts_are_embedded_in_part_and_say_their_letters() {
    if !has_poppler("fonts_are_embedded_in_part_and_say_their_letters") {
        return;
    }
    for name in demo::ALL {
        let table = output("pdffonts", &[], &file("fonts", name), &[]);
        let fonts: Vec<&str> = table.lines().skip(2).collect();
        assert!(!fonts.is_empty(), "{name}");
        for font in fonts {
            let words: Vec<&str> = font.split_whitespace().collect();
            assert_eq!(
                words[words.len() - 5..words.len() - 2],
                ["yes", "yes", "yes"],
                "{name}: {font}"
            );
        }
    }
}

#[test]
fn the_file_says_what_it_is_and_nothing_of_when() {
    if !has_poppler("the_file_says_what_it_is_and_nothing_of_when") {
        return;
    }
    for name in demo::ALL {
        let info = output("pdfinfo", &[], &file("info", name), &[]);
        let value = |key: &str| {
            let line = info.lines().find_map(|line| line.strip_prefix(key));
            line.unwrap_or_else(|| panic!("{name}: no {key} in {info}"))
                .trim()
        };
        assert_eq!(
            value("Title:"),
            format!("Bleed plan: {}", card_of(name).vehicle)
        );
        assert_eq!(value("Tagged:"), "yes");
        assert!(value("Page size:").ends_with("(A4)"), "{info}");
        assert!(
            value("Pages:").parse::<usize>().expect("it is a number") <= super::demos::MOST_PAGES,
            "{name}"
        );
        assert!(!info.contains("Date:"), "{info}");
    }
}

/// A word with its box, as `pdftotext -bbox` writes it.
struct Word {
    sides: [f64; 4],
    text: String,
}

fn words(page: &str) -> Vec<Word> {
    let mut words = Vec::new();
    for line in page
        .lines()
        .filter(|line| line.trim_start().starts_with("<word "))
    {
        let side = |key: &str| -> f64 {
            let (_, rest) = line
                .split_once(&format!("{key}=\""))
                .expect("a word has four sides");
            rest.split('"')
                .next()
                .and_then(|side| side.parse().ok())
                .expect("a side is a number")
        };
        let text = line.split(['>', '<']).nth(2).unwrap_or_default();
        words.push(Word {
            sides: [side("xMin"), side("yMin"), side("xMax"), side("yMax")],
            text: text.to_owned(),
        });
    }
    words
}

#[test]
fn no_two_words_lie_on_each_other_and_none_leaves_the_page() {
    if !has_poppler("no_two_words_lie_on_each_other_and_none_leaves_the_page") {
        return;
    }
    for name in demo::ALL {
        let html = output("pdftotext", &["-bbox"], &file("boxes", name), &["-"]);
        let mut count = 0;
        for page in html.split("<page ").skip(1) {
            let words = words(page);
            count += words.len();
            for (nth, word) in words.iter().enumerate() {
                let [left, top, right, bottom] = word.sides;
                assert!(
                    left >= super::BLANK && right <= 595.28 - super::BLANK,
                    "{name}: {}",
                    word.text
                );
                assert!(
                    top >= super::BLANK && bottom <= 841.89 - super::BLANK,
                    "{name}: {}",
                    word.text
                );
                for other in &words[..nth] {
                    let [l, t, r, b] = other.sides;
                    // These boxes hold the ascent and descent of the font, more than any letter takes; lines may
                    // share that much, letters may not.
                    let share = 0.2 * (bottom - top).max(b - t);
                    let is_apart = left >= r - 0.05
                        || l >= right - 0.05
                        || top >= b - share
                        || t >= bottom - share;
                    assert!(is_apart, "{name}: `{}` on `{}`", word.text, other.text);
                }
            }
        }
        assert!(count > 300, "{name}: {count} words");
    }
}
