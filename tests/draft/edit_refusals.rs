//! What is refused when a value is set, and how it is said.

use crate::demo::demo_text;
use bleedwright_drafting::{EditError, Structural, named_values, set_values};

/// The whole file to start from.
fn sanderling() -> String {
    let page = include_str!("../../docs/layout-format.md");
    let behind = page.split("```ron\n").nth(1);
    let text = behind.and_then(|behind| behind.split("```").next());
    text.expect("the page has a file to start from").to_owned()
}

fn refused(text: &str, settings: &[(&str, &str)]) -> EditError {
    match set_values(text, settings) {
        Ok(edited) => panic!("{:?} was set", edited.changes),
        Err(error) => error,
    }
}

/// The codes of the findings for which the whole set is refused.
fn broken(text: &str, settings: &[(&str, &str)]) -> Vec<String> {
    match refused(text, settings) {
        EditError::Breaks { findings, .. } => findings
            .iter()
            .map(|finding| finding.code.text().to_owned())
            .collect(),
        other => panic!("{other}"),
    }
}

#[test]
fn an_unknown_name_is_told_with_the_nearest() {
    let text = sanderling();
    for (found, near) in [
        ("main pipe lenght", "`main pipe length`"),
        ("left calliper extension", "`left caliper extension`"),
        ("flvid", "`fluid`"),
        ("master strok", "`master stroke`"),
    ] {
        let error = refused(&text, &[(found, "1 m")]);
        let EditError::UnknownName { help, .. } = &error else {
            panic!("{error}");
        };
        assert!(help.contains(near), "{found}: {help}");
    }
}

#[test]
fn what_is_no_single_value_is_refused_with_the_reason() {
    for (demo, name, why) in [
        ("curlew", "format", Structural::Format),
        ("curlew", "balance bar cylinders", Structural::List),
        ("curlew", "parts", Structural::List),
        ("curlew", "front left caliper kind", Structural::Brackets),
        (
            "curlew",
            "front left caliper inner pistons",
            Structural::List,
        ),
        ("avocet", "red rail pipe via", Structural::Via),
        ("avocet", "red rail pipe via height", Structural::Via),
    ] {
        let error = refused(&demo_text(demo), &[(name, "1 m")]);
        assert!(
            matches!(error, EditError::NotSingle { why: found, .. } if found == why),
            "{name}: {error}"
        );
    }
}

#[test]
fn names_of_two_things_are_told_apart_by_their_class() {
    // A screw, a part and a line go by one name here, as they may.
    let text = sanderling()
        .replace("\"left caliper\"", "\"left\"")
        .replace("\"left hose\"", "\"left\"");
    let error = refused(&text, &[("left bore", "3 mm")]);
    let EditError::Ambiguous { names, .. } = &error else {
        panic!("{error}");
    };
    assert_eq!(
        names[..],
        ["part left bore", "screw left bore", "line left bore"]
    );
    assert!(
        error
            .to_string()
            .contains("say `part left bore` or `screw left bore`")
    );
    let set = [
        ("line left bore", "3.3 mm"),
        ("Part left bore", "40 mm"),
        ("left torque", "7 N m"),
    ];
    let edited = set_values(&text, &set).unwrap_or_else(|error| panic!("{error}"));
    for piece in [
        "hose(bore: \"3.3 mm\", length: \"0.95 m\"",
        "(bore: \"40 mm\", ext",
        "torque: \"7 N m\")",
    ] {
        assert!(edited.text.contains(piece), "{piece}");
    }
    let listed = named_values(&text).expect("the text has no slips");
    let has = |name: &str| listed.iter().any(|value| value.name == name);
    assert!(has("line left length") || has("left length"));
    assert!(has("screw left bore") && !has("left bore"));
    // Every listed name means one value.
    for value in listed.iter().filter(|value| value.is_written) {
        let written = value.value.as_deref().expect("the text is sound");
        let same = set_values(&text, &[(&value.name, written)]);
        assert!(same.is_ok_and(|same| same.text == text), "{}", value.name);
    }
}

#[test]
fn a_value_that_the_layout_does_not_take_changes_nothing() {
    let text = sanderling();
    for (name, value, code) in [
        ("main pipe length", "3.1 kg", "BW102"),
        ("main pipe length", "3.1", "BW101"),
        ("main pipe length", "3.1 km", "BW102"),
        ("main pipe length", "31 m", "BW106"),
        ("master cut off", "26 mm", "BW106"),
        ("pot min", "130 ml", "BW112"),
        ("main pipe to", "rear tee", "BW201"),
        ("front tee id", "tee", "BW201"),
        ("fluid", "dot 4", "BW003"),
        ("fluid", "DOT4", "BW003"),
        ("front tee kind", "caliper", "BW006"),
        ("front tee wheel", "front_left", "BW002"),
        ("left below top", "3 mm", "BW113"),
        ("right caliper accumulator pressure", "1 bar", "BW106"),
    ] {
        let codes = broken(&text, &[(name, value)]);
        assert!(
            codes.contains(&code.to_owned()),
            "{name} = {value}: {codes:?}"
        );
        // One value that is wrong refuses the others too.
        assert!(!broken(&text, &[("steering", "left"), (name, value)]).is_empty());
    }
}

#[test]
fn a_value_of_another_kind_is_refused() {
    let text = sanderling();
    for (name, value) in [
        ("left at top", "maybe"),
        ("left caliper count", "1.5"),
        ("left caliper count", "two"),
        ("steering", "left, fluid: dot3"),
        ("steering", "(left)"),
        ("steering", "None"),
        ("steering", ""),
    ] {
        let error = refused(&text, &[(name, value)]);
        assert!(matches!(error, EditError::WrongKind { .. }), "{error}");
    }
    let twice = [("left torque", "7 N m"), ("screw left torque", "8 N m")];
    let error = refused(&text, &twice);
    assert!(matches!(error, EditError::SetTwice { .. }), "{error}");
}

#[test]
fn a_layout_with_errors_is_mended_and_not_otherwise_changed() {
    let wrong = sanderling()
        .replace("\"0.55 m\"", "\"0.55 mm\"")
        .replace("steering: right", "steering: rigth");
    let mended = set_values(&wrong, &[("right hose length", "0.55 m")]);
    let mended = mended.unwrap_or_else(|error| panic!("{error}"));
    assert!(mended.loaded.has_errors());
    let both = [("right hose length", "0.55 m"), ("steering", "right")];
    let mended = set_values(&wrong, &both).unwrap_or_else(|error| panic!("{error}"));
    assert!(!mended.loaded.has_errors());
    assert_eq!(mended.text, sanderling());
    let error = refused(&wrong, &[("left torque", "7 N m")]);
    assert!(matches!(error, EditError::StillUnsound { .. }), "{error}");
    // Another wrong value in the place of a wrong one mends nothing.
    assert_eq!(
        broken(&wrong, &[("right hose length", "0.56 mm")]),
        ["BW106"]
    );
    let slips = sanderling().replace("height: \"0.82 m\",", "height: 0.82 m,");
    let error = refused(&slips, &[("master height", "0.82 m")]);
    assert!(matches!(error, EditError::Unreadable { .. }), "{error}");
}

/// An offer that drops a word may be another thing: a bore of one piston makes a stepped cylinder.
#[test]
fn an_offer_keeps_every_word() {
    let text = demo_text("lapwing");
    for (found, help) in [
        ("master cylinder bore", "did you mean `master bore`?"),
        (
            "master cylinder stroke",
            "did you mean `master primary stroke` or `master secondary stroke`?",
        ),
    ] {
        let EditError::UnknownName { help: told, .. } = refused(&text, &[(found, "20 mm")]) else {
            panic!("{found} is known");
        };
        assert_eq!(told, help);
    }
}

#[test]
fn a_bore_that_makes_a_stepped_cylinder_is_asked_for() {
    let text = demo_text("lapwing");
    let error = refused(&text, &[("master secondary bore", "20 mm")]);
    assert_eq!(
        error,
        EditError::Stepped {
            name: "master secondary bore".to_owned(),
            whole: "master bore".to_owned(),
        }
    );
    let both = [
        ("master secondary bore", "20 mm"),
        ("master primary bore", "24 mm"),
    ];
    assert!(set_values(&text, &both).is_ok(), "both bores are meant");
}
