//! No option is ignored: each one of each verb, as the program itself lists them, changes what comes out of some layout, or is
//! refused with exit code 2.

mod cases;

use super::words;
use crate::binary::{bleedwright, root};
use cases::{of_a_plan, of_a_verb};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Stdio;

const VERBS_OF_A_PLAN: [&str; 5] = ["check", "compare", "draw", "plan", "simulate"];

/// Every verb with its options, by the completions of the program.
fn options() -> BTreeSet<(String, String)> {
    let completions = super::printed("completions fish");
    let verb_of = "complete -c bleedwright -n \"__fish_bleedwright_using_subcommand ";
    let found = completions.lines().filter_map(|line| {
        let rest = line.strip_prefix(verb_of)?;
        let (verb, rest) = rest.split_once('"')?;
        let words: Vec<&str> = rest.split_whitespace().collect();
        let long = words.iter().position(|word| *word == "-l")?;
        let is_verb = verb.chars().all(|c| c.is_ascii_lowercase());
        is_verb.then(|| (verb.to_owned(), words[long + 1].to_owned()))
    });
    found
        .filter(|(_, option)| !matches!(option.as_str(), "help" | "version"))
        .collect()
}

/// A folder with what the cases name.
fn fill(folder: &Path) {
    let _may_not_exist = std::fs::remove_dir_all(folder);
    std::fs::create_dir_all(folder.join("shapes")).expect("the folder can be made");
    let lapwing = root().join("layouts/lapwing.ron");
    for copy in ["van.ron", "shapes/van.ron"] {
        std::fs::copy(&lapwing, folder.join(copy)).expect("it can be copied");
    }
    std::fs::write(folder.join("old"), "old").expect("it can be written");
    let record = folder.join("record.ron");
    let record = record.to_str().expect("the path is text");
    super::printed(&format!("readings '{record}' --for layouts/lapwing.ron"));
}

/// What a call came to: exit code, both outputs and every file of its folder.
#[derive(Debug, PartialEq)]
struct Outcome {
    code: Option<i32>,
    stdout: Vec<u8>,
    stderr: String,
    files: Vec<(PathBuf, Vec<u8>)>,
}

fn outcome(folder: &Path, call: &str) -> Outcome {
    fill(folder);
    let shown = folder.to_str().expect("the path is text");
    let output = bleedwright()
        .args(words(call).iter().map(|word| word.replace("DIR", shown)))
        .stdin(Stdio::null())
        .output()
        .expect("the program runs");
    let entries = std::fs::read_dir(folder).expect("the folder is there");
    let mut files: Vec<(PathBuf, Vec<u8>)> = entries
        .map(|entry| entry.expect("it can be read").path())
        .filter(|path| path.is_file())
        .map(|path| (path.clone(), std::fs::read(path).expect("it can be read")))
        .collect();
    files.sort();
    Outcome {
        code: output.status.code(),
        stdout: output.stdout,
        stderr: String::from_utf8_lossy(&output.stderr).into_owned(),
        files,
    }
}

#[test]
fn every_option_acts_or_is_refused() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("every option");
    let options = options();
    let verbs: BTreeSet<&str> = options.iter().map(|(verb, _)| verb.as_str()).collect();
    assert!(verbs.len() >= 11 && options.len() >= 150, "{options:?}");
    let mut complaints = Vec::new();
    for (verb, option) in &options {
        let mut calls = of_a_verb(verb, option);
        if calls.is_empty() && VERBS_OF_A_PLAN.contains(&verb.as_str()) {
            calls = of_a_plan(verb, option);
        }
        if calls.is_empty() {
            complaints.push(format!("{verb} --{option} has no case in the table"));
            continue;
        }
        let (mut does_act, mut is_refused) = (false, true);
        for [base, more] in &calls {
            let without = outcome(&folder, &format!("{verb} {base}"));
            let with = outcome(&folder, &format!("{verb} {base} {more}"));
            let refused = with.code == Some(2) && with.stdout.is_empty();
            does_act |= !refused && with != without;
            is_refused &= refused && with.stderr.contains(&format!("--{option}"));
        }
        if !does_act && !is_refused {
            complaints.push(format!(
                "{verb} --{option} changes nothing and is not refused: {calls:?}"
            ));
        }
    }
    assert!(complaints.is_empty(), "{}", complaints.join("\n"));
}
