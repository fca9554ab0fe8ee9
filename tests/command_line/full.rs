//! Standard output and disks that take nothing more: an error, never a success.
#![cfg(unix)]

use super::words;
use crate::binary::{bleedwright, empty_folder, root};
use std::fs::{self, File};
use std::process::{Command, Stdio};

/// Every writer of standard output: help and version, which the reader of the command line prints, completions, the manual, a
/// sheet.
#[test]
fn a_full_output_is_an_error() {
    for call in [
        "--help",
        "-h",
        "--version",
        "plan --help",
        "plan --version",
        "help plan",
        "completions bash",
        "manual",
        "plan layouts/lapwing.ron",
    ] {
        let full = File::create("/dev/full").expect("the device is there");
        let run = bleedwright()
            .args(words(call))
            .stdout(full)
            .output()
            .expect("the program runs");
        let said = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(1), "{call:?}: {said}");
        assert!(
            said.contains("cannot write to standard output"),
            "{call:?}: {said}"
        );
    }
}

/// Help that nobody reads to its end is no error.
#[test]
fn help_into_a_broken_pipe_is_quiet() {
    for call in ["--help", "--version", "manual"] {
        let mut child = bleedwright()
            .arg(call)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        drop(child.stdout.take());
        let run = child.wait_with_output().expect("it ends");
        assert_eq!(run.status.code(), Some(0), "{call:?}");
        assert!(run.stderr.is_empty(), "{call:?}");
    }
}

/// `--overwrite` is advised where a file is in the way, and not where the disk takes nothing more.
#[test]
fn a_full_disk_is_no_file_in_the_way() {
    let folder = empty_folder("full disk");
    let write = |limit: &str, verb: &str, name: &str| {
        let program = bleedwright();
        let script = format!("trap '' XFSZ; {limit}; exec \"$0\" {verb} -o \"$1\"");
        let run = Command::new("sh")
            .current_dir(root())
            .args(["-c", &script])
            .arg(program.get_program())
            .arg(folder.join(name))
            .output()
            .expect("a shell runs");
        let said = String::from_utf8_lossy(&run.stderr).into_owned();
        (run.status.code(), said)
    };
    for verb in [
        "draw layouts/lapwing.ron",
        "draft --split X",
        "draft --from lapwing",
    ] {
        // No file may grow beyond one block, which stands for a disk without room.
        let (code, said) = write("ulimit -f 1", verb, "new");
        assert_eq!(code, Some(1), "{said}");
        assert!(said.contains("cannot write"), "{said}");
        assert!(!said.contains("--overwrite"), "{said}");
        assert_eq!(fs::read_dir(&folder).expect("it is there").count(), 0);

        fs::write(folder.join("old"), "old").expect("it can be written");
        let (code, said) = write("true", verb, "old");
        assert_eq!(code, Some(1), "{said}");
        assert!(said.contains("--overwrite"), "{said}");
        fs::remove_file(folder.join("old")).expect("it is there");
    }
}
