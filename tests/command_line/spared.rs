//! What was read is never written over, by whatever name it is called.

use super::bleedwright;
use crate::binary::{empty_folder, root};
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// A folder of its own with two layouts.
fn folder(name: &str) -> (PathBuf, [PathBuf; 2]) {
    let folder = empty_folder(&format!("spared/{name}"));
    let layouts = ["lapwing", "plover"].map(|name| {
        let to = folder.join(format!("{name}.ron"));
        fs::copy(root().join(format!("layouts/{name}.ron")), &to).expect("it can be copied");
        to
    });
    (folder, layouts)
}

fn refused(command: &mut Command, spared: &Path) {
    let before = fs::read(spared).expect("it is there");
    let done = command.output().expect("the program runs");
    let said = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(!done.status.success(), "{said}");
    assert!(said.contains("left as it is"), "{said}");
    assert_eq!(fs::read(spared).expect("it is there"), before, "{said}");
}

#[test]
fn neither_of_two_layouts_is_written_over() {
    let (_, [one, other]) = folder("compare");
    for spared in [&one, &other] {
        refused(
            bleedwright()
                .arg("compare")
                .args([&one, &other])
                .arg("-o")
                .arg(spared)
                .arg("--overwrite"),
            spared,
        );
    }
}

#[test]
fn redirected_input_is_the_file_it_came_from() {
    let (folder, [one, other]) = folder("redirected");
    let call = |input: &Path, spared: &Path| {
        let input = File::open(input).expect("it can be opened");
        refused(
            bleedwright()
                .args(["plan", "-", "-o"])
                .arg(spared)
                .arg("--overwrite")
                .stdin(Stdio::from(input)),
            spared,
        );
    };
    call(&one, &one);
    // From elsewhere no layout and no record is replaced at all.
    call(&one, &other);
    let linked = folder.join("second-name.ron");
    fs::hard_link(&one, &linked).expect("it can be linked");
    refused(
        bleedwright()
            .arg("plan")
            .arg(&one)
            .arg("-o")
            .arg(&linked)
            .arg("--overwrite"),
        &linked,
    );
}

#[test]
fn a_draft_is_not_written_over_its_shape() {
    let (folder, [one, _]) = folder("draft");
    refused(
        bleedwright()
            .args(["draft", "--from", "lapwing", "--shapes"])
            .arg(&folder)
            .arg("-o")
            .arg(&one)
            .arg("--overwrite"),
        &one,
    );
}
