//! Pedal travel, and the air that a measured travel implies.

mod air;
mod diagnosis;
mod document;
mod hand;
mod inversion;
mod properties;
mod readings;
mod refusals;
mod remaining;
mod stint;
mod text;
mod vehicles;
mod wide;
mod words;

pub(crate) use stint::{Stint, bar_of};

use crate::command_line::run;
use serde_json::Value;

/// The document of a call.
fn document(arguments: &[&str]) -> Value {
    let mut call = vec!["pedal", "--format", "json"];
    call.extend(arguments);
    let run = run(&call);
    assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
    assert!(run.stderr.is_empty(), "{call:?}: {}", run.stderr);
    serde_json::from_str(&run.stdout).unwrap_or_else(|error| panic!("{call:?}: {error}"))
}

/// What is printed, in one line.
fn words(arguments: &[&str]) -> String {
    let mut call = vec!["pedal"];
    call.extend(arguments);
    let run = run(&call);
    assert_eq!(run.code, Some(0), "{call:?}: {}", run.stderr);
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Both outputs and the exit code of a call.
fn output_of(arguments: &[&str]) -> String {
    let mut call = vec!["pedal"];
    call.extend(arguments);
    run(&call).shown()
}
