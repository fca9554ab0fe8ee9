//! Files: what is written, what is refused, what is left as it is.

use super::complete;
use crate::binary::empty_folder;
use crate::command_line::run;
use bleedwright_inspection::{read_record, set_readings};
use std::fs;
use std::path::Path;

fn text(path: &Path) -> &str {
    path.to_str().expect("the path is text")
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the folder can be read")
        .map(|entry| {
            entry
                .expect("it can be read")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

#[test]
fn a_record_is_started_once() {
    let folder = empty_folder("readings/started");
    for name in ["van.ron", "van.json"] {
        let path = folder.join(name);
        let call = format!("readings '{}' --for layouts/lapwing.ron", text(&path));
        let first = run(&call);
        assert_eq!(first.code, Some(0), "{}", first.stderr);
        assert!(first.stdout.contains("NOT FINISHED"), "{}", first.stdout);
        let before = fs::read(&path).expect("it was written");
        let second = run(&call);
        assert_eq!(second.code, Some(1));
        assert!(
            second.stderr.contains("exists already"),
            "{}",
            second.stderr
        );
        assert_eq!(fs::read(&path).expect("it is there"), before);
    }
    assert_eq!(names(&folder), ["van.json", "van.ron"]);
    let json = fs::read(folder.join("van.json")).expect("it is there");
    serde_json::from_slice::<serde_json::Value>(&json).expect("it is JSON");
    let broken = folder.join("none.ron");
    let layout = "tests/layouts/broken/bare_number.ron";
    let run = run(&format!("readings '{}' --for {layout}", text(&broken)));
    assert_eq!(run.code, Some(3), "{}", run.stderr);
    assert!(!broken.exists());
}

/// Order, comments and blanks of a file that was written by hand stay.
#[test]
fn only_the_value_changes() {
    let folder = empty_folder("readings/by_hand");
    let path = folder.join("hand.ron");
    let before = "\u{feff}// by hand\r\n(controls: [(name: \"pedal\", /* A */ free : not_checked , // B below\r\n    depressed:\"45 mm\")],\r\n \
                  format: 1,\r\n readings_of: (name: \"Lapwing\", controls: [\"pedal\"], brakes: [\"a\", \"b\"],),\r\n \
                  brakes: [(name: \"b\", kind: disc), (kind: drum, name: \"a\",)])\r\n// end";
    fs::write(&path, before).expect("the folder can be written to");
    let set = |settings: &[&str]| {
        let settings: Vec<String> = settings.iter().map(|it| format!("--set '{it}'")).collect();
        run(&format!(
            "readings '{}' {}",
            text(&path),
            settings.join(" ")
        ))
    };
    let done = set(&[
        "pedal free = 150 mm",
        "B Disc = 13/16 in",
        "a_lining=3mm",
        "date = 2026-11-25",
    ]);
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    let wanted = before
        .replace("not_checked", "\"150 mm\"")
        .replace("kind: disc", "kind: disc, disc: \"13/16 in\"")
        .replace("name: \"a\",", "name: \"a\", lining: \"3mm\",")
        .replace(
            "(kind: drum, name: \"a\", lining: \"3mm\",)])",
            "(kind: drum, name: \"a\", lining: \"3mm\",)],\r\n work: (date: \"2026-11-25\"))",
        );
    let found = fs::read_to_string(&path).expect("it is there");
    assert_eq!(found.replace("],\n work", "],\r\n work"), wanted);
    for (settings, words) in [
        (&["pedal fre = 1 mm"][..], "`pedal free`"),
        (&["a pad = 1.5 mm"], "did you mean `a lining`?"),
        (&["pedal free = 150"], "has no unit"),
        (&["pedal free = 150 kg"], "not a unit"),
        (&["pedal free = 15 m"], "20 mm to 700 mm"),
        (&["pedal free = 20 mm"], "farther than the free one"),
        (&["moisture = 0.6"], "has no sign"),
        (&["moisture = 26 %"], "0 % to 20 %"),
        (&["leak found = perhaps"], "yes, no, not_checked"),
        (&["date = 31.11.2026"], "ISO 8601"),
        (&["pedal free 20 mm"], "no `=`"),
        (
            &["pedal hold time = 10 s", "pedal hold time = 11 s"],
            "set twice",
        ),
        (&["pedal hold time = 10 s", "nothing = 11 s"], "--names"),
    ] {
        let before = fs::read(&path).expect("it is there");
        let refused = set(settings);
        assert_eq!(refused.code, Some(2), "{settings:?}: {}", refused.stderr);
        assert!(
            refused.stderr.contains(words),
            "{settings:?}: {}",
            refused.stderr
        );
        assert!(refused.stderr.contains("nothing was written"));
        assert_eq!(
            fs::read(&path).expect("it is there"),
            before,
            "{settings:?}"
        );
    }
    assert_eq!(names(&folder), ["hand.ron"]);
}

/// A figure that no part has, and a limit that is none, are refused with what is allowed.
#[test]
fn figures_that_no_part_has_are_refused() {
    let text = complete().to_ron();
    for (name, value, allowed) in [
        ("front left disc", "0.5 mm", "2 mm to 60 mm"),
        ("front left disc", "21.3 in", "2 mm to 60 mm"),
        ("front left disc minimum", "0 mm", "2 mm to 60 mm"),
        ("front left lining", "200 mm", "0 mm to 30 mm"),
        ("front left lining minimum", "0 mm", "0.5 mm to 15 mm"),
        ("rear left drum", "1 mm", "75 mm to 500 mm"),
        ("rear left drum", "8 mm", "75 mm to 500 mm"),
        ("rear left drum maximum", "0 mm", "75 mm to 500 mm"),
        ("rear left drum maximum", "204 in", "75 mm to 500 mm"),
        ("pedal free", "2 mm", "20 mm to 700 mm"),
        ("front left screw torque wanted", "0 N m", "1 N m to 60 N m"),
        (
            "front left screw torque wanted",
            "9 N m ± 99 %",
            "1 N m to 60 N m",
        ),
        ("front left screw torque", "150 N m", "0 N m to 100 N m"),
    ] {
        let refused = set_readings(&text, &[(name, value)]);
        let said = refused.expect_err(name).to_string();
        let wanted = format!("`{name}`: `{value}` cannot be a ");
        assert!(said.starts_with(&wanted), "{said}");
        assert!(said.contains(&format!("(allowed: {allowed})")), "{said}");
        assert!(said.contains("decimal point"), "{said}");
    }
    for (name, value) in [
        ("rear left drum", "8 in"),
        ("front left lining", "0 mm"),
        ("front left lining", "0 mm ± 1 mm"),
        ("front left screw torque", "0 N m"),
    ] {
        assert!(set_readings(&text, &[(name, value)]).is_ok(), "{name}");
    }
    // A file that was written by hand is refused at the place.
    let spoilt = text.replacen("\"20 mm\"", "\"1 mm\"", 1);
    let read = read_record(spoilt.as_bytes());
    assert!(read.record.is_none());
    assert_eq!(read.findings.len(), 1);
    assert!(read.findings[0].help.contains("not_checked"));
}

/// A slip of the pen shows when it is made, and only what it changes is shown.
#[test]
fn an_entered_value_is_judged_at_once() {
    let folder = empty_folder("readings/at_once");
    let record = folder.join("van.ron");
    fs::write(&record, complete().to_ron()).expect("the folder can be written to");
    let set = |value| {
        let done = run(&format!("readings '{}' --set '{value}'", text(&record)));
        assert_eq!(done.code, Some(0), "{}", done.stderr);
        done.unwrapped()
    };
    let slip = set("front left disc = 12.3 mm");
    assert!(
        slip.contains("FAILS front left, disc thickness: 12.3 mm; wanted: above 20 mm."),
        "{slip}"
    );
    // So far from its sister one of the two is wrong.
    assert!(
        slip.contains("LOOK AGAIN front right, disc thickness"),
        "{slip}"
    );
    assert!(slip.contains("DO NOT HAND OVER: 1 of"), "{slip}");
    let mended = set("front left disc = 21.3 mm");
    assert!(
        mended.contains("within limit front left, disc thickness: 21.3 mm"),
        "{mended}"
    );
}

#[test]
fn a_sheet_goes_over_no_file() {
    let folder = empty_folder("readings/sheet");
    let record = folder.join("van.ron");
    fs::write(&record, complete().to_ron()).expect("the folder can be written to");
    let out = folder.join("van.html");
    let [record_name, out_name] = [text(&record), text(&out)];
    let call = format!("readings '{record_name}' --format html -o '{out_name}'");
    assert_eq!(run(&call).code, Some(0));
    let first = fs::read(&out).expect("it was written");
    assert!(first.starts_with(b"<!DOCTYPE html>"));
    fs::write(&out, "mine").expect("it can be written");
    assert_eq!(run(&call).code, Some(1));
    assert_eq!(fs::read(&out).expect("it is there"), b"mine");
    assert_eq!(run(&format!("{call} --overwrite")).code, Some(0));
    assert_eq!(fs::read(&out).expect("it is there"), first);
    let itself = format!("readings '{record_name}' -o '{record_name}' --overwrite");
    assert_eq!(run(&itself).code, Some(1));
    assert_eq!(
        fs::read_to_string(&record).expect("it is there"),
        complete().to_ron()
    );
    for options in [
        "--overwrite",
        &format!("--set 'a = b' -o '{out_name}'"),
        "--for layouts/lapwing.ron --names",
    ] {
        let done = run(&format!("readings '{record_name}' {options}"));
        assert_eq!(done.code, Some(2), "{options}");
    }
    assert_eq!(names(&folder), ["van.html", "van.ron"]);
}

#[cfg(unix)]
#[test]
fn links_and_permissions() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = empty_folder("readings/links");
    let real = folder.join("real.ron");
    fs::write(&real, complete().to_ron()).expect("the folder can be written to");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).expect("it is ours");
    let link = folder.join("link.ron");
    symlink("real.ron", &link).expect("links can be made here");
    let set = |path: &Path| {
        run(&format!(
            "readings '{}' --set 'pedal free = 160 mm'",
            text(path)
        ))
    };
    let done = set(&link);
    assert_eq!(done.code, Some(0), "{}", done.stderr);
    assert!(
        fs::symlink_metadata(&link)
            .expect("it is there")
            .is_symlink()
    );
    let found = fs::read_to_string(&real).expect("it is there");
    assert!(found.contains("160 mm"));
    let mode = fs::metadata(&real)
        .expect("it is there")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o640);
    // Write-protected: also for a user whom the system lets write anywhere.
    fs::set_permissions(&real, fs::Permissions::from_mode(0o440)).expect("it is ours");
    let other = format!("readings '{}' --set 'pedal free = 170 mm'", text(&real));
    let refused = run(&other);
    assert_eq!(refused.code, Some(1));
    assert!(
        refused.stderr.contains("write-protected"),
        "{}",
        refused.stderr
    );
    assert_eq!(fs::read_to_string(&real).expect("it is there"), found);
    let nowhere = folder.join("nowhere.ron");
    symlink("gone.ron", &nowhere).expect("links can be made here");
    let refused = run(&format!(
        "readings '{}' --for layouts/lapwing.ron",
        text(&nowhere)
    ));
    assert_eq!(refused.code, Some(1));
    let refused = set(&nowhere);
    assert_eq!(refused.code, Some(1));
    assert!(!folder.join("gone.ron").exists());
    // A link in the place of the file that is written first would lead the writing elsewhere.
    let victim = folder.join("victim");
    fs::write(&victim, "precious").expect("the folder can be written to");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).expect("it is ours");
    symlink("victim", folder.join(".real.ron.part")).expect("links can be made here");
    let refused = set(&real);
    assert_eq!(refused.code, Some(1));
    assert!(refused.stderr.contains("in the way"), "{}", refused.stderr);
    assert_eq!(fs::read(&victim).expect("it is there"), b"precious");
    assert_eq!(fs::read_to_string(&real).expect("it is there"), found);
    let missing = folder.join("no/such/van.ron");
    for call in ["--for layouts/lapwing.ron", "--set 'pedal free = 1 mm'"] {
        let refused = run(&format!("readings '{}' {call}", text(&missing)));
        assert_eq!(refused.code, Some(1), "{call:?}");
        assert!(refused.stdout.is_empty() && !refused.stderr.is_empty());
    }
}

/// A folder in which nobody may make files, not even the system's own user.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_takes_no_files() {
    let refused = run("readings /proc/van.ron --for layouts/lapwing.ron");
    assert_eq!(refused.code, Some(1));
    assert!(
        refused.stderr.contains("nothing was written"),
        "{}",
        refused.stderr
    );
}
