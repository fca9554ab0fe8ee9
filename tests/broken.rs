//! Broken layouts: each says in its first comments what must be found.
//!
//! `// expect: BW101 line 14` or `// expect: BW401 option --order`, once for
//! every finding, and `// options: ...` where the findings depend on the
//! options of a plan. Every error and every warning has to be listed and no
//! other may be raised; advice may be left out, but what is listed must come.
//!
//! A broken layout is a file of its own, or a few lines changed in a sound one.

use crate::binary::{empty_folder, root};
use crate::command_line::words;
use bleedwright_network::{Code, DEFAULT_SIZE_LIMIT, Finding, Locator, Severity, load, load_up_to};
use std::collections::BTreeSet;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

/// Where a finding is expected or was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Spot {
    Line(u64),
    Option(String),
}

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Expected {
    code: String,
    spot: Spot,
}

impl fmt::Display for Expected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.spot {
            Spot::Line(line) => write!(f, "{} line {line}", self.code),
            Spot::Option(option) => write!(f, "{} option {option}", self.code),
        }
    }
}

struct Case {
    name: String,
    bytes: Vec<u8>,
    expected: Vec<Expected>,
    /// None when loading alone finds everything.
    options: Option<Vec<String>>,
}

impl Case {
    /// A case with the comments that say what it expects.
    fn new<'a>(name: &str, comments: impl Iterator<Item = &'a str>, bytes: Vec<u8>) -> Self {
        let (mut expected, mut options) = (Vec::new(), None);
        for comment in comments {
            if let Some(rest) = comment.trim().strip_prefix("expect:") {
                let read = expectation(rest);
                expected.push(read.unwrap_or_else(|| panic!("{name}: cannot read `{comment}`")));
            } else if let Some(rest) = comment.trim().strip_prefix("options:") {
                options = Some(words(rest));
            }
        }
        Self {
            name: name.to_owned(),
            bytes,
            expected,
            options,
        }
    }

    /// A layout that says in its first comments what is wrong with it.
    fn whole(path: &Path) -> Self {
        let text = read(path);
        let comments = text
            .trim_start_matches('\u{feff}')
            .lines()
            .map_while(|line| line.trim().strip_prefix("//"));
        Self::new(&stem(path), comments, text.clone().into_bytes())
    }

    /// The cases of a file that names lines changed in the sound layout of its name.
    fn changed(path: &Path) -> Vec<Self> {
        let sound = read(&root().join(format!("tests/layouts/{}.ron", stem(path))));
        let text = read(path);
        let cases = text.split("\n== ").skip(1);
        let changed = cases.map(|case| {
            let (name, case) = case.split_once('\n').unwrap_or((case, ""));
            let comments = case.lines().filter_map(|line| line.strip_prefix("//"));
            Self::new(
                name,
                comments,
                changed_lines(name, &sound, case).into_bytes(),
            )
        });
        changed.collect()
    }

    fn expects_an_error(&self) -> bool {
        self.expected
            .iter()
            .any(|expected| severity(&expected.code) == Some(Severity::Error))
    }

    /// Errors of the file stop a plan (3); errors of the options alone are
    /// wrong usage (2).
    fn error_exit_code(&self) -> i32 {
        let is_of_file = self.expected.iter().any(|expected| {
            matches!(expected.spot, Spot::Line(_))
                && severity(&expected.code) == Some(Severity::Error)
        });
        if is_of_file { 3 } else { 2 }
    }

    /// What is wrong with the findings, if anything is.
    fn complaint(&self, found: Vec<Expected>) -> Option<String> {
        let (mut missing, mut surplus) = (Vec::new(), found);
        for expected in &self.expected {
            match surplus.iter().position(|found| found == expected) {
                Some(at) => {
                    surplus.swap_remove(at);
                }
                None => missing.push(expected.to_string()),
            }
        }
        surplus.retain(|found| severity(&found.code) != Some(Severity::Advice));
        surplus.sort();
        if missing.is_empty() && surplus.is_empty() {
            return None;
        }
        let surplus: Vec<String> = surplus.iter().map(Expected::to_string).collect();
        Some(format!(
            "{}: missing [{}], not expected [{}]",
            self.name,
            missing.join(", "),
            surplus.join(", ")
        ))
    }
}

/// Reads ` BW101 line 14` or ` BW401 option --order`.
fn expectation(text: &str) -> Option<Expected> {
    let mut parts = text.split_whitespace();
    let (code, kind, value) = (parts.next()?, parts.next()?, parts.next()?);
    severity(code)?;
    let spot = match kind {
        "line" => Spot::Line(value.parse().ok()?),
        "option" if value.starts_with("--") => Spot::Option(value.to_owned()),
        _ => return None,
    };
    parts.next().is_none().then(|| Expected {
        code: code.to_owned(),
        spot,
    })
}

fn severity(code: &str) -> Option<Severity> {
    let known = Code::ALL.iter().find(|known| known.text() == code)?;
    Some(known.severity())
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn stem(path: &Path) -> String {
    let stem = path.file_stem().unwrap_or_default();
    stem.to_string_lossy().into_owned()
}

/// The sound layout with the lines behind `-` replaced by those behind `+`.
fn changed_lines(name: &str, sound: &str, case: &str) -> String {
    let sound: Vec<&str> = sound.lines().collect();
    let (mut changed, mut done) = (Vec::new(), 0);
    let mut lines = case.lines().peekable();
    while let Some(line) = lines.peek() {
        let is_comment = line.is_empty() || line.starts_with("//");
        assert!(is_comment || line.starts_with('-'), "{name}: `{line}`");
        if is_comment {
            lines.next();
            continue;
        }
        let mut behind = |sign: char| -> Vec<&str> {
            let next = || lines.next_if(|line| line.starts_with(sign));
            std::iter::from_fn(next).map(|line| &line[1..]).collect()
        };
        let (old, new) = (behind('-'), behind('+'));
        let mut places = sound
            .windows(old.len())
            .enumerate()
            .filter(|(_, at)| *at == old);
        let (Some((at, _)), None) = (places.next(), places.next()) else {
            panic!("{name}: not there once: {old:#?}");
        };
        assert!(at >= done, "{name}: changed before: {old:#?}");
        changed.extend(&sound[done..at]);
        changed.extend(new);
        done = at + old.len();
    }
    changed.extend(&sound[done..]);
    changed.join("\n") + "\n"
}

fn cases() -> Vec<Case> {
    let mut paths: Vec<PathBuf> = fs::read_dir(root().join("tests/layouts/broken"))
        .expect("the folder of broken layouts is part of the repository")
        .map(|entry| entry.expect("an entry of the folder can be read").path())
        .collect();
    paths.sort();
    paths
        .iter()
        .flat_map(|path| match path.extension() {
            Some(extension) if extension == "txt" => Case::changed(path),
            _ => vec![Case::whole(path)],
        })
        .collect()
}

/// Every broken layout, by its name.
pub(crate) fn layouts() -> Vec<(String, Vec<u8>)> {
    let cases = cases().into_iter();
    cases.map(|case| (case.name, case.bytes)).collect()
}

/// The finding as a file would expect it.
fn seen(text: &str, finding: &Finding) -> Expected {
    let start = Locator::new(text)
        .find(&finding.place)
        .expect("findings of a file have a place in it")
        .start;
    let line = text[..start].matches('\n').count() + 1;
    Expected {
        code: finding.code.text().to_owned(),
        spot: Spot::Line(line as u64),
    }
}

fn assert_no_complaints(complaints: &[String]) {
    assert!(
        complaints.is_empty(),
        "{} of the broken layouts:\n{}",
        complaints.len(),
        complaints.join("\n")
    );
}

#[test]
fn loading_finds_what_each_file_expects() {
    let mut complaints = Vec::new();
    for case in cases() {
        assert!(!case.expected.is_empty(), "{} expects nothing", case.name);
        if case.options.is_some() {
            continue;
        }
        let text = std::str::from_utf8(&case.bytes).expect("checked when the case was read");
        // A panic on one file must not hide what is wrong with the others.
        let Ok(loaded) = std::panic::catch_unwind(|| load(&case.bytes)) else {
            complaints.push(format!("{}: the loader panicked", case.name));
            continue;
        };
        let found = loaded
            .findings
            .iter()
            .map(|finding| seen(text, finding))
            .collect();
        complaints.extend(case.complaint(found));
    }
    assert_no_complaints(&complaints);
}

#[test]
fn broken_with_options() {
    // All of them are written there, since the gate begins its fuzzing with them.
    let folder = empty_folder("broken");
    let mut complaints = Vec::new();
    for case in cases() {
        let path = folder.join(format!("{}.ron", case.name));
        fs::write(&path, &case.bytes).expect("the folder can be written to");
        let Some(options) = &case.options else {
            continue;
        };
        let output = crate::binary::bleedwright()
            .arg("check")
            .arg(&path)
            .args(options)
            .args(["--format", "json"])
            .output()
            .expect("the binary runs");
        let exit_code = if case.expects_an_error() {
            case.error_exit_code()
        } else {
            0
        };
        if output.status.code() != Some(exit_code) {
            complaints.push(format!(
                "{}: exit code {:?} instead of {exit_code}: {}",
                case.name,
                output.status.code(),
                String::from_utf8_lossy(&output.stderr).trim()
            ));
            continue;
        }
        let json: serde_json::Value = serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|error| panic!("{}: {error}", case.name));
        let found = json["findings"]
            .as_array()
            .unwrap_or_else(|| panic!("{}: no list `findings`", case.name))
            .iter()
            .map(|finding| of_json(finding, &case))
            .collect();
        complaints.extend(case.complaint(found));
    }
    assert_no_complaints(&complaints);
}

fn of_json(finding: &serde_json::Value, case: &Case) -> Expected {
    let file = &case.name;
    let code = finding["code"]
        .as_str()
        .unwrap_or_else(|| panic!("{file}: a finding without a code"));
    assert_eq!(
        finding["severity"].as_str(),
        severity(code).map(Severity::name),
        "{file}: severity of {code}"
    );
    let spot = match (finding["line"].as_u64(), finding["option"].as_str()) {
        (Some(line), None) => Spot::Line(line),
        (None, Some(option)) => Spot::Option(option.to_owned()),
        _ => panic!("{file}: {code} is neither at a line nor at an option: {finding}"),
    };
    Expected {
        code: code.to_owned(),
        spot,
    }
}

/// A code and the input that raises it.
type Generated = (Code, fn() -> Vec<u8>);

/// Inputs too large or too odd to keep as files, and the one code of each.
const GENERATED: [Generated; 3] = [
    (Code::TooLarge, || vec![b' '; DEFAULT_SIZE_LIMIT + 1]),
    (Code::NotText, || {
        // ISO 8859-1 writes the sign of a tolerance as one byte.
        b"(format: 1, name: \"Stilt, 1.2 m \xb1 0.1 m\")".to_vec()
    }),
    (Code::TooDeep, || {
        let opened = "[".repeat(1_000_000);
        format!("(format: 1, name: \"Stilt\", lines: {opened}").into_bytes()
    }),
];

#[test]
fn generated_inputs_raise_their_code_alone() {
    for (code, make) in GENERATED {
        let loaded = load(&make());
        let found: Vec<Code> = loaded.findings.iter().map(|finding| finding.code).collect();
        assert_eq!(found, [code], "{}", code.text());
        assert!(loaded.sound_network().is_none(), "{}", code.text());
    }
}

#[test]
fn the_size_limit_is_the_callers() {
    let bytes = b"(format: 1, name: \"Stilt\")";
    let codes = |limit| -> Vec<Code> {
        let loaded = load_up_to(bytes, limit);
        loaded.findings.iter().map(|found| found.code).collect()
    };
    assert_eq!(codes(bytes.len() - 1), [Code::TooLarge]);
    assert!(!codes(bytes.len()).contains(&Code::TooLarge));
}

/// Raised in `orders::bounded`: by options that the command line does not
/// take, and by layouts of thousands of parts.
const OF_A_PLAN: [Code; 2] = [Code::Temperature, Code::RunsTooLong];

#[test]
fn every_code_is_raised_by_some_input() {
    let mut expected: BTreeSet<String> = cases()
        .into_iter()
        .flat_map(|case| case.expected)
        .map(|expected| expected.code)
        .collect();
    expected.extend(GENERATED.map(|(code, _)| code.text().to_owned()));
    expected.extend(OF_A_PLAN.map(|code| code.text().to_owned()));
    let never: Vec<&str> = Code::ALL
        .iter()
        .map(|code| code.text())
        // Those of records are raised by records, in `readings`.
        .filter(|code| !code.starts_with("BW5") && !expected.contains(*code))
        .collect();
    assert!(never.is_empty(), "no broken layout raises {never:?}");
}

#[test]
fn every_code_has_its_section_in_the_docs() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../docs/findings.md");
    let text = std::fs::read_to_string(path).expect("docs/findings.md is part of the repository");
    let wanted: Vec<(String, String)> = Code::ALL
        .iter()
        .map(|code| {
            let mut severity = code.severity().name().to_owned();
            severity[..1].make_ascii_uppercase();
            (
                format!("## {} {}", code.text(), code.title()),
                format!("*{severity}.*"),
            )
        })
        .collect();
    let mut sections = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if line.starts_with("## BW") {
            let first = lines.find(|line| !line.is_empty()).unwrap_or_default();
            let severity = first.split_inclusive(".*").next().unwrap_or_default();
            sections.push((line.to_owned(), severity.to_owned()));
        }
    }
    assert_eq!(sections, wanted);
}

/// What stands under the finding with this code, for a file with one thing changed.
fn help(code: &str, text: &str) -> String {
    let loaded = bleedwright_network::load(text.as_bytes());
    let found = loaded.findings.iter().find(|it| it.code.text() == code);
    found
        .unwrap_or_else(|| panic!("{code} is not among {:?}", loaded.findings))
        .help
        .clone()
}

fn changed(name: &str, from: &str, to: &str) -> String {
    let path = crate::binary::root().join(name);
    let text = std::fs::read_to_string(path).expect("the layout is there");
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

#[test]
fn a_file_in_inches_is_offered_inches_first() {
    let file = "tests/layouts/broken/millimetres_in_inches.ron";
    let metres = changed(file, "\"62 mm\"", "\"118 m\"");
    let told = help("BW106", &metres);
    assert!(told.starts_with("did you mean `118 in` or "), "{told}");
    let bare = changed(file, "\"62 mm\"", "118");
    let told = help("BW101", &bare);
    assert!(
        told.starts_with("write it in quotes with its unit: `\"118 in\"`"),
        "{told}"
    );
}

#[test]
fn a_share_of_a_bar_is_written_in_per_cent() {
    let text = changed(
        "layouts/curlew.ron",
        "(cylinders: [",
        "(share: 55, cylinders: [",
    );
    assert_eq!(
        help("BW106", &text),
        "a share is written in per cent or below 1: did you mean `\"55 %\"`?"
    );
}

#[test]
fn a_bar_that_is_missing_is_named() {
    let bar = "(cylinders: [\"front cylinder\", \"rear cylinder\"]),";
    let text = changed("layouts/curlew.ron", bar, "");
    let help = help("BW211", &text);
    assert!(
        help.contains("add `balance_bars: [(cylinders: [\""),
        "{help}"
    );
}

/// One pipe on the wrong outlet is told at that pipe, not at the split.
#[test]
fn a_pipe_on_the_wrong_outlet_is_told_there() {
    let text = changed(
        "layouts/plover.ron",
        "from: \"master.secondary\", to: \"front right joint\"",
        "from: \"master.primary\", to: \"front right joint\"",
    );
    let loaded = bleedwright_network::load(text.as_bytes());
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

#[test]
fn a_part_that_is_missing_is_to_be_added() {
    let text = changed(
        "layouts/lapwing.ron",
        "to: \"",
        "to: \"hump at the bulkhead zzz",
    );
    let told = help("BW201", &text);
    assert!(told.contains("; or add the part `hump"), "{told}");
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
    let loaded = bleedwright_network::load(text.as_bytes());
    let codes: Vec<&str> = loaded.findings.iter().map(|it| it.code.text()).collect();
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
    let loaded = bleedwright_network::load(text.as_bytes());
    let codes: Vec<&str> = loaded.findings.iter().map(|it| it.code.text()).collect();
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
