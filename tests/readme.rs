//! What the README shows is what the program prints.

use crate::binary::{bleedwright, empty_folder, root};
use crate::command_line::words;
use std::fs;
use std::path::{Path, PathBuf};

/// Marks lines that were left out.
const CUT: &str = "[...]";

const RUN: &str = "cargo run --release -- ";

#[test]
fn every_output_shown_is_printed() {
    let readme = fs::read_to_string(root().join("README.md")).expect("the README is there");
    let folder = copy_of_the_layouts();
    let mut commands: Option<String> = None;
    let mut compared = 0;
    for block in blocks(&readme) {
        if block.text.starts_with(RUN) {
            commands = Some(block.text);
        } else if block.is_output {
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
                    "`{arguments}` does not print:\n{piece}\nbut:\n{printed}"
                );
            }
            compared += 1;
        }
    }
    assert!(compared >= 4, "only {compared} outputs were compared");
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
    /// Whether it is marked as output of the program.
    is_output: bool,
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
                    is_output: language == "text",
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
