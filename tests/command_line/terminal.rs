//! What a terminal gets that a pipe does not.

use crate::binary::{bleedwright, root};
use rexpect::session::spawn_command;
use std::process::Command;

const COLUMNS: usize = 44;

/// A complaint is broken between words where a terminal would break within
/// them; a log gets it on one line.
#[test]
fn a_complaint_keeps_its_words_whole() {
    let mut shell = Command::new("sh");
    shell
        .current_dir(root())
        .args([
            "-c",
            "stty cols 44 rows 24; exec \"$0\" plan no_such_layout.ron",
        ])
        .arg(bleedwright().get_program());
    let mut session = spawn_command(shell, Some(60_000)).expect("a pseudo-terminal can be had");
    let told = session.exp_eof().expect("it ends");
    let lines: Vec<&str> = told.lines().collect();
    assert!(lines.len() > 2, "{told}");
    assert!(lines.iter().all(|line| line.len() <= COLUMNS), "{told}");
    let words = told.split_whitespace().collect::<Vec<_>>().join(" ");

    let piped = bleedwright()
        .args(["plan", "no_such_layout.ron"])
        .output()
        .expect("the program runs");
    let piped = String::from_utf8(piped.stderr).expect("it writes UTF-8");
    assert_eq!(piped.lines().count(), 1, "{piped}");
    assert_eq!(words, piped.trim_end());
}
