//! The program as it is called: exit codes, text, colour, JSON, hostile input.

mod companion;
mod document;
mod draw;
mod exit_code;
mod full;
mod hostile;
mod options;
mod sheet;
mod spared;
mod terminal;

use crate::binary::bleedwright;
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
        format!("{stdout}---- standard error\n{stderr}---- exit code {code}\n")
    }

    /// What was printed, as one line: where it wraps depends on how long a path
    /// in it is, and that differs from machine to machine.
    pub(crate) fn unwrapped(&self) -> String {
        let words: Vec<&str> = self.stdout.split_whitespace().collect();
        words.join(" ")
    }

    fn has_escape(&self) -> bool {
        self.stdout.contains('\u{1b}') || self.stderr.contains('\u{1b}')
    }
}

/// Calls the program with a pipe on every side.
pub(crate) fn run(arguments: &[&str]) -> Run {
    let output = bleedwright()
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .expect("the program was built and starts");
    Run::of(output)
}

/// Calls a verb with arguments that it must refuse: exit code 2, nothing printed, and these words in the error.
#[track_caller]
pub(crate) fn refused(verb: &str, arguments: &[&str], words: &[&str]) {
    let mut call = vec![verb];
    call.extend(arguments);
    let run = run(&call);
    assert_eq!(run.code, Some(2), "{call:?}: {}{}", run.stdout, run.stderr);
    assert!(run.stdout.is_empty(), "{call:?}");
    for word in words {
        assert!(
            run.stderr.contains(word),
            "{call:?}: {word}: {}",
            run.stderr
        );
    }
}

/// Calls the program with something on its standard input.
pub(crate) fn run_with_input(arguments: &[&str], input: &[u8]) -> Run {
    let mut child = bleedwright()
        .args(arguments)
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
