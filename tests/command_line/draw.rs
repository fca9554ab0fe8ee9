//! `draw`: where the picture goes, and what is refused.

use super::run;
use std::fs;
use std::path::PathBuf;

/// A file name that nobody uses.
fn fresh(name: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    if path.exists() {
        fs::remove_file(&path).expect("the file of the last run can go");
    }
    path
}

#[test]
fn the_picture_goes_to_standard_output_or_into_a_file() {
    let shown = run("draw layouts/lapwing.ron");
    assert_eq!(shown.code, Some(0), "{}", shown.stderr);
    assert!(shown.stdout.starts_with("<?xml") && shown.stderr.is_empty());

    let path = fresh("drawn.svg");
    let text = path.to_string_lossy().into_owned();
    let written = run(&format!("draw layouts/lapwing.ron -o '{text}'"));
    assert_eq!(written.code, Some(0), "{}", written.stderr);
    assert!(written.stdout.is_empty());
    assert_eq!(
        fs::read_to_string(&path).expect("it was written"),
        shown.stdout
    );

    let again = run(&format!(
        "draw layouts/lapwing.ron --begin nearest -o '{text}'"
    ));
    assert_eq!(again.code, Some(1));
    assert!(again.stderr.contains("--overwrite"), "{}", again.stderr);
    assert_eq!(fs::read_to_string(&path).expect("it is left"), shown.stdout);

    let over = run(&format!(
        "draw layouts/lapwing.ron --begin nearest -o '{text}' --overwrite"
    ));
    assert_eq!(over.code, Some(0), "{}", over.stderr);
    assert_ne!(
        fs::read_to_string(&path).expect("it is there"),
        shown.stdout
    );
}

#[test]
fn steps_follow_the_options() {
    let repaired = run("draw layouts/lapwing.ron --opened 'front left caliper'").stdout;
    assert!(repaired.contains("<title>front left: step 1</title>"));
    assert!(repaired.contains("<title>rear left: stays shut</title>"));
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    let path = fresh("not drawn.svg");
    let text = path.to_string_lossy().into_owned();
    let wrong = run(&format!(
        "draw tests/layouts/broken/bore_in_metres.ron -o '{text}'"
    ));
    assert_eq!(wrong.code, Some(3));
    assert!(
        wrong.stderr.contains("nothing was drawn"),
        "{}",
        wrong.stderr
    );
    assert!(!path.exists());

    let over_itself = run("draw layouts/lapwing.ron -o layouts/lapwing.ron --overwrite");
    assert_eq!(over_itself.code, Some(1));
    assert!(
        over_itself.stderr.contains("the layout itself"),
        "{}",
        over_itself.stderr
    );

    let backwards = run("draw layouts/godwit.ron --order 'rear left, unit primary'");
    assert_eq!(backwards.code, Some(4), "{}", backwards.stderr);
    assert!(backwards.stdout.starts_with("<?xml"));
}
