//! Broken layouts: each says in its first comments what must be found.
//!
//! `// expect: BW101 line 14` or `// expect: BW401 option --order`, once for every finding or with commas between them,
//! and `// options: ...` where the findings depend on the options of a plan. Every error and every warning has to be
//! listed and no other may be raised; advice may be left out, but what is listed must come.
//!
//! A broken layout is a file of its own, or a few lines changed in a sound one.

mod case;
mod told;

pub(crate) use case::layouts;

use crate::binary::empty_folder;
use bleedwright_network::{Code, DEFAULT_SIZE_LIMIT, Finding, Locator, Severity, load, load_up_to};
use case::{Case, Expected, Spot, cases, severity};
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

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
