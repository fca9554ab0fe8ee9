//! The program as it is called: exit codes, text, colour, JSON, hostile input.

mod companion;
pub(crate) mod document;
mod draw;
mod exit_code;
mod full;
mod hostile;
mod options;
mod refused;
mod sheet;
mod spared;
mod terminal;

use crate::binary::bleedwright;
use crate::table::blocks;
use serde_json::Value;
use std::ffi::OsStr;
use std::io::Write;
use std::process::{Output, Stdio};

/// What a call gave.
pub(crate) struct Run {
    pub(crate) code: Option<i32>,
    pub(crate) stdout: String,
    pub(crate) stderr: String,
}

impl Run {
    fn of(output: Output) -> Self {
        let text = |bytes: Vec<u8>| {
            String::from_utf8(bytes).expect("the program writes nothing but UTF-8")
        };
        Self {
            code: output.status.code(),
            stdout: text(output.stdout),
            stderr: text(output.stderr),
        }
    }

    /// Both outputs and the exit code, for snapshots.
    pub(crate) fn shown(&self) -> String {
        let Self {
            code,
            stdout,
            stderr,
        } = self;
        let code = code.unwrap_or(-1);
        let complaint = if stderr.is_empty() {
            String::new()
        } else {
            format!("---- standard error\n{stderr}")
        };
        format!("{stdout}{complaint}---- exit code {code}\n")
    }

    /// What was printed, as one line.
    pub(crate) fn unwrapped(&self) -> String {
        unwrapped(&self.stdout)
    }

    fn has_escape(&self) -> bool {
        self.stdout.contains('\u{1b}') || self.stderr.contains('\u{1b}')
    }
}

/// A text as one line: where it wraps depends on how long a path in it is, and that differs from machine to machine.
pub(crate) fn unwrapped(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ")
}

/// The words of a command line, as a shell would split it.
pub(crate) fn words(line: &str) -> Vec<String> {
    shlex::split(line).unwrap_or_else(|| panic!("a quote is never closed in `{line}`"))
}

/// Calls the program with a command line.
pub(crate) fn run(call: &str) -> Run {
    run_words(&words(call))
}

/// Calls the program with a pipe on every side.
pub(crate) fn run_words<W: AsRef<OsStr>>(words: &[W]) -> Run {
    let output = bleedwright()
        .args(words)
        .stdin(Stdio::null())
        .output()
        .expect("the program was built and starts");
    Run::of(output)
}

/// What is printed by a call that succeeds and complains of nothing.
#[track_caller]
pub(crate) fn printed(call: &str) -> String {
    let run = run(call);
    assert_eq!(run.code, Some(0), "{call}: {}", run.stderr);
    assert!(run.stderr.is_empty(), "{call}: {}", run.stderr);
    run.stdout
}

/// The JSON that such a call prints.
#[track_caller]
pub(crate) fn document(call: &str) -> Value {
    serde_json::from_str(&printed(call)).unwrap_or_else(|error| panic!("{call}: {error}"))
}

/// Calls of a verb and what they print, in one line: what stands behind `+`, not what stands behind `-`, and in JSON, behind
/// `=`, a value at its place.
#[track_caller]
pub(crate) fn assert_said(verb: &str, text: &'static str) {
    for (calls, sayings) in blocks(text) {
        for call in calls {
            let call = format!("{verb} {call}");
            let said = unwrapped(&printed(&call));
            for (sign, words) in &sayings {
                if *sign != "= " {
                    assert_eq!(
                        said.contains(words),
                        *sign == "+ ",
                        "{call}: {words}: {said}"
                    );
                    continue;
                }
                let (place, value) = words.split_once(' ').expect("a place and its value");
                let wanted: Value = serde_json::from_str(value).expect("a value is JSON");
                let found = document(&format!("{call} --format json"));
                assert_eq!(found.pointer(place), Some(&wanted), "{call}: {place}");
            }
        }
    }
}

/// A call that must be refused: exit code 2, nothing printed, and these words in the error.
#[track_caller]
pub(crate) fn refused(call: &str, words: &[&str]) {
    let run = run(call);
    assert_eq!(run.code, Some(2), "{call}: {}{}", run.stdout, run.stderr);
    assert!(run.stdout.is_empty() && !run.stderr.is_empty(), "{call}");
    for word in words {
        assert!(run.stderr.contains(word), "{call}: {word}: {}", run.stderr);
    }
}

/// Calls the program with something on its standard input.
pub(crate) fn run_with_input(call: &str, input: &[u8]) -> Run {
    let mut child = bleedwright()
        .args(words(call))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program was built and starts");
    let mut stdin = child.stdin.take().expect("standard input is a pipe");
    let input = input.to_vec();
    // The program may stop reading before everything is written.
    let writer = std::thread::spawn(move || {
        let _closed_early = stdin.write_all(&input);
    });
    let output = child.wait_with_output().expect("the program ends");
    writer.join().expect("the writer ends");
    Run::of(output)
}
