//! Damaged, newer and foreign files: a clear error, and not a byte changes.

use super::complete;
use crate::binary::empty_folder;
use crate::command_line::run;
use crate::table::rows;
use bleedwright_inspection::read_record;
use bleedwright_network::Code;
use std::collections::BTreeSet;
use std::fs;

/// What is wrong, the file with the line that is told, and the code.
type Case = (&'static str, (Vec<u8>, usize), &'static str);

/// A record with one place spoilt, and the line of that place.
fn edit(from: &str, to: &str) -> (Vec<u8>, usize) {
    let ron = complete().to_ron();
    let at = ron.find(from).unwrap_or_else(|| panic!("no {from}"));
    let line = ron[..at].matches('\n').count() + 1;
    (ron.replacen(from, to, 1).into_bytes(), line)
}

/// What is wrong, what is replaced in a record and by what, and the code.
const SPOILT: &str = r#"
unknown field | free: | fre: | BW002
unknown word | firm: yes | firm: maybe | BW003
field twice | firm: yes | firm: yes, firm: no | BW005
no quotes | "150 mm" | 150 | BW101
structure for a value | "150 mm" | (a: 1) | BW006
no unit | "150 mm" | "150" | BW101
unknown unit | "150 mm" | "150 ells" | BW102
no number | "150 mm" | "far" | BW103
not finite | "150 mm" | "inf mm" | BW104
too large | "150 mm" | "150 m" | BW106
tolerance | "150 mm" | "150 mm ± 200 mm" | BW107
drum on a disc | disc: "21.3 mm" | drum: "213 mm" | BW502
no name | name: "front left" | name: "" | BW004
twice | name: "front right" | name: "front left" | BW110
not on the vehicle | name: "front left" | name: "frnt left" | BW503
no comma | format: 1, | format: 1 | BW001
newer | format: 1 | format: 2 | BW009
newer, with unknown parts | format: 1, | format: 7, tyres: [], | BW009
"#;

/// What is no single place: files that are something else, or half of it.
fn files() -> Vec<Case> {
    let ron = complete().to_ron();
    let json = complete().to_json();
    let whole = |bytes: &[u8], line: usize| (bytes.to_vec(), line);
    let last_bracket = json.lines().count();
    let after_last = format!("{},}}", json.trim_end().trim_end_matches('}').trim_end());
    let (mut not_text, line) = edit("Lapwing", "Lap\u{0}wing");
    for byte in &mut not_text {
        *byte = if *byte == 0 { 0xff } else { *byte };
    }
    let layout = fs::read(super::layout("lapwing")).expect("it is there");
    // The bracket that is never closed is the innermost one.
    let cut_ron = &ron[..ron.find(" dry:").expect("a screw has it")];
    let cut_json = &json[..json.find("\"dry\"").expect("a screw has it")];
    let opened = |text: &str, bracket: char| {
        let at = text.rfind(bracket).expect("a bracket was opened");
        text[..at].matches('\n').count() + 1
    };
    let deep = format!("(readings_of: {}", "[".repeat(100_000));
    let (contradicting, free) = edit("\"150 mm\"", "\"40 mm\"");
    vec![
        ("contradiction", (contradicting, free + 1), "BW502"),
        (
            "cut off",
            whole(cut_ron.as_bytes(), opened(cut_ron, '(')),
            "BW001",
        ),
        (
            "cut off JSON",
            whole(cut_json.as_bytes(), opened(cut_json, '{')),
            "BW001",
        ),
        ("empty", whole(b"", 1), "BW501"),
        ("zeros", whole(&[0; 4096], 1), "BW501"),
        ("not text", (not_text, line), "BW008"),
        ("large", whole(&vec![b' '; 5 * 1024 * 1024], 1), "BW007"),
        (
            "newer JSON",
            whole(
                json.replacen("\"format\": 1", "\"format\": 2", 1)
                    .as_bytes(),
                2,
            ),
            "BW009",
        ),
        (
            "no format",
            whole(
                &edit("format: 1,", "").0,
                opened(&ron[..ron.find("format").unwrap_or(0)], '('),
            ),
            "BW004",
        ),
        ("a layout", whole(&layout, 1), "BW501"),
        (
            "another file",
            whole(b"{\"name\": \"x\", \"version\": \"1.0.0\"}\n", 1),
            "BW501",
        ),
        ("deep", whole("(".repeat(100_000).as_bytes(), 1), "BW501"),
        ("deep lists", whole(deep.as_bytes(), 1), "BW010"),
        (
            "comment in JSON",
            whole(json.replacen('{', "{ // x\n", 1).as_bytes(), 1),
            "BW001",
        ),
        (
            "comma at the end of JSON",
            whole(after_last.as_bytes(), last_bracket - 1),
            "BW001",
        ),
    ]
}

#[test]
fn every_damage_is_told_and_changes_nothing() {
    let folder = empty_folder("readings/damage");
    let mut raised = BTreeSet::new();
    let spoilt = rows(SPOILT).map(|[what, from, to, code]| (what, edit(from, to), code));
    for (what, (bytes, line), code) in files().into_iter().chain(spoilt) {
        raised.insert(code);
        let path = folder.join("record");
        fs::write(&path, &bytes).expect("the folder can be written to");
        let name = path.to_str().expect("the path is text");
        for arguments in ["", "--set 'pedal firm = yes'", "--format json", "--names"] {
            let run = run(&format!("readings '{name}' --width 100 {arguments}"));
            let all = format!("{}{}", run.stdout, run.stderr);
            assert_eq!(run.code, Some(3), "{what} {arguments:?}: {all}");
            assert!(all.contains(code), "{what} {arguments:?}: {all}");
            assert!(!all.contains("panicked"), "{what}: {all}");
            let is_placed =
                all.contains(&format!(":{line}:")) || all.contains(&format!("\"line\": {line},"));
            assert!(is_placed, "{what}: line {line}: {all}");
            assert!(
                all.len() < 20_000,
                "{what}: {} bytes are printed",
                all.len()
            );
            assert_eq!(
                fs::read(&path).expect("it is there"),
                bytes,
                "{what} {arguments:?}"
            );
        }
        fs::remove_file(&path).expect("it is ours");
        assert_eq!(
            fs::read_dir(&folder).expect("it can be read").count(),
            0,
            "{what}"
        );
    }
    let own = Code::ALL
        .iter()
        .map(|code| code.text())
        .filter(|code| code.starts_with("BW5"));
    for code in own {
        assert!(raised.contains(code), "no damaged record raises {code}");
    }
}

#[test]
fn all_problems_are_told_at_once() {
    let text = complete()
        .to_ron()
        .replacen("\"150 mm\"", "\"150\"", 1)
        .replacen("firm: yes", "firm: maybe", 1)
        .replacen("\"2026-11-25\"", "\"2026-02-30\"", 1);
    let codes: Vec<&str> = read_record(text.as_bytes())
        .findings
        .iter()
        .map(|finding| finding.code.text())
        .collect();
    assert_eq!(codes, ["BW103", "BW101", "BW003"]);
}

/// What a record says steers no terminal and no browser.
#[test]
fn hostile_words() {
    let folder = empty_folder("readings/hostile");
    let path = folder.join("van.ron");
    let words = "<script>alert(1)</script>\\u{1b}[31m\\u{202e}\\\" onload=x";
    let text = complete().to_ron().replacen("the evening class", words, 1);
    fs::write(
        &path,
        text.replacen("\"Lapwing\"", &format!("\"{words}\""), 1),
    )
    .expect("it can be written");
    let name = path.to_str().expect("the path is text");
    for format in ["text", "html", "json"] {
        let run = run(&format!("readings '{name}' --format {format}"));
        assert_eq!(run.code, Some(0), "{}", run.stderr);
        let steers =
            |c: char| (c.is_control() && c != '\n') || (c == '\u{202e}' && format != "json");
        assert!(!run.stdout.contains(steers), "{format}: {:?}", run.stdout);
        if format == "html" {
            assert!(!run.stdout.contains("<script"), "{}", run.stdout);
            assert!(run.stdout.contains("&lt;script&gt;"), "{}", run.stdout);
        }
    }
}
