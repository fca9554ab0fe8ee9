//! What a broken layout is made of, and what it says must be found.

use crate::binary::root;
use crate::command_line::words;
use bleedwright_network::{Code, Severity};
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

/// Where a finding is expected or was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Spot {
    Line(u64),
    Option(String),
}

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Expected {
    pub(super) code: String,
    pub(super) spot: Spot,
}

impl fmt::Display for Expected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.spot {
            Spot::Line(line) => write!(f, "{} line {line}", self.code),
            Spot::Option(option) => write!(f, "{} option {option}", self.code),
        }
    }
}

pub(super) struct Case {
    pub(super) name: String,
    pub(super) bytes: Vec<u8>,
    pub(super) expected: Vec<Expected>,
    /// None when loading alone finds everything.
    pub(super) options: Option<Vec<String>>,
}

impl Case {
    /// A case with the comments that say what it expects.
    fn new<'a>(name: &str, comments: impl Iterator<Item = &'a str>, bytes: Vec<u8>) -> Self {
        let (mut expected, mut options) = (Vec::new(), None);
        for comment in comments {
            if let Some(rest) = comment.trim().strip_prefix("expect:") {
                expected.extend(rest.split(',').map(|one| {
                    expectation(one).unwrap_or_else(|| panic!("{name}: cannot read `{comment}`"))
                }));
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

    pub(super) fn expects_an_error(&self) -> bool {
        self.expected
            .iter()
            .any(|expected| severity(&expected.code) == Some(Severity::Error))
    }

    /// Errors of the file stop a plan (3); errors of the options alone are
    /// wrong usage (2).
    pub(super) fn error_exit_code(&self) -> i32 {
        let is_of_file = self.expected.iter().any(|expected| {
            matches!(expected.spot, Spot::Line(_))
                && severity(&expected.code) == Some(Severity::Error)
        });
        if is_of_file { 3 } else { 2 }
    }

    /// What is wrong with the findings, if anything is.
    pub(super) fn complaint(&self, found: Vec<Expected>) -> Option<String> {
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

pub(super) fn severity(code: &str) -> Option<Severity> {
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

/// The sound layout with one change after the other made to it.
fn changed_lines(name: &str, sound: &str, case: &str) -> String {
    let mut text: Vec<String> = sound.lines().map(str::to_owned).collect();
    let mut lines = case.lines().peekable();
    while let Some(line) = lines.peek() {
        if line.is_empty() || line.starts_with("//") {
            lines.next();
            continue;
        }
        if let Some((old, new)) = line.strip_prefix('~').and_then(|it| it.split_once(" => ")) {
            let is_there = |line: &[String]| line[0].contains(old);
            let at = only_place(name, old, text.windows(1).map(is_there));
            assert_eq!(text[at].matches(old).count(), 1, "{name}: `{old}`");
            text[at] = text[at].replace(old, new);
            lines.next();
            continue;
        }
        let (mut old, mut new) = (Vec::new(), Vec::new());
        while let Some(line) = lines.next_if(|line| line.starts_with([' ', '-'])) {
            old.push(line[1..].to_owned());
            new.extend(line.strip_prefix(' ').map(str::to_owned));
        }
        while let Some(line) = lines.next_if(|line| line.starts_with('+')) {
            new.push(line[1..].to_owned());
        }
        assert!(!old.is_empty(), "{name}: {:?}", lines.peek());
        let are_there = text.windows(old.len()).map(|at| at == old);
        let at = only_place(name, &old.join("\n"), are_there);
        text.splice(at..at + old.len(), new);
    }
    text.join("\n") + "\n"
}

fn only_place(name: &str, old: &str, is_there: impl Iterator<Item = bool>) -> usize {
    let mut places = is_there.enumerate().filter(|(_, is_there)| *is_there);
    let (Some((at, _)), None) = (places.next(), places.next()) else {
        panic!("{name}: not there once: {old}");
    };
    at
}

pub(super) fn cases() -> Vec<Case> {
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
