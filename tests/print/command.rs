//! `plan --format pdf` as a program.

use crate::binary::{bleedwright, empty_folder};
use crate::command_line::{printed, run};
use rexpect::session::spawn_command;
use std::fs;

#[test]
fn a_file_and_a_pipe_get_the_same_bytes() {
    let file = empty_folder("print-same").join("card.pdf");
    let written = printed(&format!(
        "plan layouts/lapwing.ron --format pdf -o '{}'",
        file.display()
    ));
    assert_eq!(written, "");
    let piped = bleedwright()
        .args(["plan", "layouts/lapwing.ron", "--format", "pdf"])
        .output()
        .expect("the program runs");
    assert!(piped.status.success());
    assert!(piped.stdout.starts_with(b"%PDF-1.7"));
    assert!(piped.stdout == fs::read(&file).expect("the file was written"));
}

#[test]
fn a_terminal_gets_advice_instead() {
    let mut command = bleedwright();
    command.args(["plan", "layouts/lapwing.ron", "--format", "pdf"]);
    let mut session = spawn_command(command, Some(60_000)).expect("a pseudo-terminal can be had");
    let said = session.exp_eof().expect("the program ends");
    assert!(said.contains("-o card.pdf"), "{said}");
    assert!(!said.contains("%PDF"), "{said}");
}

#[test]
fn an_order_against_the_pipework_is_printed_as_such() {
    let layout = "tests/layouts/broken/order_against_the_flow.ron";
    let output = bleedwright()
        .args(["plan", layout, "--format", "pdf"])
        .args(["--order", "right, left"])
        .output()
        .expect("the program runs");
    let said = super::reader::said(&super::reader::read(&output.stdout));
    assert_eq!(
        output.status.code(),
        Some(4),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(said.contains("UNSAFE ORDER"), "{said}");
}

#[test]
fn nothing_is_written_where_nothing_is_planned() {
    let file = empty_folder("print-refused").join("card.pdf");
    let output = run(&format!(
        "plan tests/layouts/broken/zero.ron --format pdf -o '{}'",
        file.display()
    ));
    assert!(output.code != Some(0) && !file.exists());
    assert!(output.stdout.is_empty());
}
