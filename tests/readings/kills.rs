//! A record survives whoever kills the program while it writes.

use super::blank;
use crate::binary::{bleedwright, empty_folder};
use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};

/// Kills by a signal that no program can catch.
const KILLS: usize = 200;

/// Kills that must land between the first byte and the new name, or this test has shown nothing. Most do: the file
/// beside the record is waited for.
const MUST_LAND: usize = 100;

fn enter(record: &Path, millimetres: usize) -> Child {
    bleedwright()
        .arg("readings")
        .arg(record)
        .arg("--set")
        .arg(format!("pedal free = {millimetres} mm"))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program was built and starts")
}

/// Waits until the file beside the record has so many bytes, or the program has ended.
fn wait_for(part: &Path, bytes: u64, child: &mut Child) {
    loop {
        if fs::metadata(part).is_ok_and(|found| found.len() >= bytes) {
            return;
        }
        if child
            .try_wait()
            .expect("the program can be asked")
            .is_some()
        {
            return;
        }
    }
}

#[test]
fn two_hundred_kills_leave_old_or_new_content() {
    let folder = empty_folder("readings/kills");
    let path = folder.join("lapwing.ron");
    let part = folder.join(".lapwing.ron.part");
    // Long comments make the writing long and the reading short.
    let mut content = blank("lapwing").to_ron();
    content += &format!("// {}\n", "x".repeat(996)).repeat(2500);
    fs::write(&path, &content).expect("the folder can be written to");
    let mut value = "not_checked".to_owned();
    let (mut landed, mut torn, mut kept, mut renewed) = (0, 0, 0, 0);
    for nth in 0..KILLS {
        let millimetres = 100 + nth;
        let new_value = format!("\"{millimetres} mm\"");
        let new = content.replacen(&format!("free: {value}"), &format!("free: {new_value}"), 1);
        assert_ne!(new, content);
        let size = new.len() as u64;
        let mut child = enter(&path, millimetres);
        // At the first sight of the file, after a part of it, when it is full and on its way to the disk, at the end.
        let bytes = [0, 1, size / 4, size / 2, size * 3 / 4, size, u64::MAX][nth % 7];
        wait_for(&part, bytes, &mut child);
        let _has_ended = child.kill();
        child.wait().expect("the program ends");
        if let Ok(left) = fs::metadata(&part) {
            landed += 1;
            torn += usize::from(left.len() < size);
        }
        let found = fs::read_to_string(&path).expect("the record is there and is text");
        if found == new {
            renewed += 1;
            (content, value) = (new, new_value);
        } else {
            assert!(found == content, "kill {nth}: neither old nor new content");
            kept += 1;
        }
        // Never more than the record and one file beside it.
        let files = fs::read_dir(&folder)
            .expect("the folder can be read")
            .count();
        assert!(files <= 2, "kill {nth}: {files} files");
    }
    let counts = format!(
        "{landed} landed, {torn} in half a file; {kept} kept the old, {renewed} had the new"
    );
    assert!(landed >= MUST_LAND, "of {KILLS} kills {counts}");
    assert!(torn > 0 && kept > 0 && renewed > 0, "{counts}");
    let mut last = enter(&path, 99);
    assert!(last.wait().expect("the program ends").success());
    let found = fs::read_to_string(&path).expect("the record is there");
    assert!(found.contains("free: \"99 mm\""));
    assert!(!part.exists(), "the last run clears what the others left");
}

/// An interrupted start can leave the record with a second name. The next run must not write into it.
#[test]
fn a_second_name_of_the_record_is_not_written_into() {
    let folder = empty_folder("readings/second_name");
    let path = folder.join("lapwing.ron");
    let before = blank("lapwing").to_ron();
    fs::write(&path, &before).expect("the folder can be written to");
    let other = folder.join("copy.ron");
    fs::hard_link(&path, folder.join(".lapwing.ron.part")).expect("names can be added here");
    fs::hard_link(&path, &other).expect("names can be added here");
    let mut run = enter(&path, 150);
    assert!(run.wait().expect("the program ends").success());
    assert_eq!(fs::read_to_string(&other).expect("it is there"), before);
    assert!(
        fs::read_to_string(&path)
            .expect("it is there")
            .contains("free: \"150 mm\"")
    );
    assert_eq!(fs::read_dir(&folder).expect("it can be read").count(), 2);
}
