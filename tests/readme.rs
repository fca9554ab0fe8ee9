//! What the README and the walk show is what the program prints.

use crate::binary::{bleedwright, empty_folder, root};
use crate::command_line::{run_with_input, words};
use std::fs;
use std::path::{Path, PathBuf};

/// Marks lines that were left out.
const CUT: &str = "[...]";

const RUN: &str = "cargo run --release -- ";

#[test]
fn every_output_shown_is_printed() {
    let mut compared = 0;
    for document in ["README.md", "docs/walk.md"] {
        let text = fs::read_to_string(root().join(document)).expect("the document is there");
        let folder = copy_of_the_layouts();
        let mut commands: Option<String> = None;
        for block in blocks(&text) {
            if block.text.starts_with(RUN) {
                commands = Some(block.text);
            } else if block.language == "text" {
                let arguments = commands
                    .as_deref()
                    .expect("a command stands before its output");
                let printed: String = arguments
                    .lines()
                    .filter_map(|line| line.strip_prefix(RUN))
                    .map(|line| printed(line.trim(), &folder))
                    .collect();
                for piece in block.text.split(&format!("{CUT}\n")) {
                    assert!(
                        printed.contains(piece),
                        "{document}: `{arguments}` does not print:\n{piece}\nbut:\n{printed}"
                    );
                }
                compared += 1;
            }
        }
    }
    assert!(compared >= 12, "only {compared} outputs were compared");
}

/// Whoever copies the layout of the README has one that works.
#[test]
fn the_layout_shown_is_planned() {
    let readme = fs::read_to_string(root().join("README.md")).expect("the README is there");
    let mut layouts = blocks(&readme).into_iter();
    let layout = layouts.find(|block| block.language == "ron");
    let layout = layout.expect("the README shows a layout").text;
    let run = run_with_input("plan -", layout.as_bytes());
    assert_eq!(run.code, Some(0), "{}", run.stderr);
    assert!(run.stdout.contains("[ ] 1 SCREW"), "{}", run.stdout);
}

/// A README that nobody reads to its end serves nobody.
#[test]
fn the_readme_is_short() {
    let readme = fs::read_to_string(root().join("README.md")).expect("the README is there");
    assert!(readme.lines().count() <= 250);
}

fn printed(arguments: &str, folder: &Path) -> String {
    let output = bleedwright()
        .args(words(arguments))
        .current_dir(folder)
        .output()
        .expect("the program runs");
    String::from_utf8(output.stdout).expect("the program prints UTF-8")
}

/// A folder with the layouts in which commands may leave files.
fn copy_of_the_layouts() -> PathBuf {
    let folder = empty_folder("readme");
    fs::create_dir(folder.join("layouts")).expect("a folder can be made");
    for layout in fs::read_dir(root().join("layouts")).expect("the layouts are there") {
        let layout = layout.expect("the folder can be read").path();
        let name = layout.file_name().expect("a file has a name");
        fs::copy(&layout, folder.join("layouts").join(name)).expect("a layout can be copied");
    }
    folder
}

#[test]
fn the_two_commands_stand_alone() {
    let readme = fs::read_to_string(root().join("README.md")).expect("the README is there");
    for command in [
        "cargo run --release -- plan layouts/lapwing.ron\n",
        "cargo test --workspace\n",
    ] {
        assert!(
            blocks(&readme).iter().any(|block| block.text == command),
            "{command}"
        );
    }
}

/// A fenced block.
struct Block {
    /// What it is marked as: `text` is output of the program.
    language: String,
    text: String,
}

fn blocks(readme: &str) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut is_inside = false;
    for line in readme.lines() {
        match line.strip_prefix("```") {
            Some(_) if is_inside => is_inside = false,
            Some(language) => {
                is_inside = true;
                blocks.push(Block {
                    language: language.to_owned(),
                    text: String::new(),
                });
            }
            None if is_inside => {
                let block = blocks.last_mut().expect("a fence opened a block");
                block.text.push_str(line);
                block.text.push('\n');
            }
            None => {}
        }
    }
    blocks
}
