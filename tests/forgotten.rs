//! What `check` asks about brakes and lines that may have been left out, and where it asks nothing.

use crate::command_line::run_with_input;
use bleedwright_network::load;

/// A vehicle by its circuits: each a block with a caliper at every wheel named. Two circuits of one cylinder are the first two.
fn vehicle(is_tandem: bool, circuits: &[&[&str]]) -> String {
    let (mut cylinders, mut compartments, mut parts, mut lines) = Default::default();
    let add = |to: &mut String, text: String| to.push_str(&(text + ",\n"));
    let mut chambers = Vec::new();
    if is_tandem {
        let chamber = "(stroke: \"15 mm\", cut_off: \"1 mm\")";
        add(
            &mut cylinders,
            format!(
                "(id: \"master\", kind: tandem(bore: \"22 mm\", primary: {chamber}, secondary: {chamber}))"
            ),
        );
        chambers.extend(["master.primary".to_owned(), "master.secondary".to_owned()]);
    }
    for nth in chambers.len()..circuits.len() {
        let kind = "single(bore: \"19 mm\", stroke: \"25 mm\", cut_off: \"1 mm\")";
        add(
            &mut cylinders,
            format!("(id: \"cylinder {nth}\", kind: {kind})"),
        );
        chambers.push(format!("cylinder {nth}"));
    }
    let pipe = "pipe(size: \"3/16 in\", length: \"1 m\")";
    for (nth, (chamber, wheels)) in chambers.iter().zip(circuits).enumerate() {
        let held = "max: \"250 ml\", min: \"90 ml\"";
        add(
            &mut compartments,
            format!("(id: \"pot {nth}\", {held}, feeds: \"{chamber}\")"),
        );
        add(&mut parts, format!("(id: \"block {nth}\", kind: block)"));
        let line = |id: &str, from: &str, to: &str| {
            format!("(id: \"{id}\", from: \"{from}\", to: \"{to}\", kind: {pipe})")
        };
        let block = format!("block {nth}");
        add(&mut lines, line(&format!("pipe {nth}"), chamber, &block));
        for (place, wheel) in wheels.iter().enumerate() {
            let name = format!("{wheel} {nth} {place}");
            let kind = "caliper(mounting: fixed, pistons: [(bore: \"40 mm\", extension: \"3 mm\", count: 2)])";
            let at = match *wheel {
                "none" => String::new(),
                wheel => format!(" wheel: {wheel},"),
            };
            let screws = format!("[(id: \"{name}\", at_top: true, torque: \"8 N m\")]");
            add(
                &mut parts,
                format!("(id: \"{name} brake\", kind: {kind},{at} screws: {screws})"),
            );
            add(
                &mut lines,
                line(&format!("{name} pipe"), &block, &format!("{name} brake")),
            );
        }
    }
    format!(
        "(format: 1, name: \"Stilt\", fluid: dot4, reservoirs: [(id: \"pot\", compartments: [{compartments}])], \
         cylinders: [{cylinders}], parts: [{parts}], lines: [{lines}])"
    )
}

/// The codes that ask whether something was left out.
fn asked(text: &str) -> Vec<&'static str> {
    let loaded = load(text.as_bytes());
    assert!(!loaded.has_errors(), "{:#?}", loaded.findings);
    let codes = loaded.findings.iter().map(|finding| finding.code.text());
    codes
        .filter(|code| ("BW219".."BW224").contains(code))
        .collect()
}

#[test]
fn a_brake_that_is_missing_is_asked_for() {
    for (is_tandem, circuits, wanted) in [
        // The rear right one, which leaves the left one alone on its circuit: one question, not two.
        (
            true,
            &[&["front_left", "front_right"][..], &["rear_left"]][..],
            &["BW219"][..],
        ),
        // A diagonal split of three: the wheel without a partner, and the circuit of the other front wheel.
        (
            true,
            &[&["front_left", "rear_right"], &["front_right"]],
            &["BW219", "BW220"],
        ),
        (
            false,
            &[&["front_left", "front_right", "rear_right"]],
            &["BW219"],
        ),
        (
            true,
            &[&["front_left", "rear_left", "rear_right"], &["front_right"]],
            &["BW220"],
        ),
        // One wheel of each side, and neither has its partner.
        (false, &[&["front_left", "rear_right"]], &["BW219", "BW219"]),
        (
            false,
            &[&["trailer_left", "front_left", "front_right"]],
            &["BW219"],
        ),
    ] {
        assert_eq!(asked(&vehicle(is_tandem, circuits)), wanted, "{circuits:?}");
    }
}

#[test]
fn what_has_no_partner_is_left_alone() {
    for (is_tandem, circuits) in [
        // A car, a motorcycle, one with a sidecar, three wheels with the single one behind or in front.
        (
            true,
            &[
                &["front_left", "front_right"][..],
                &["rear_left", "rear_right"],
            ][..],
        ),
        (false, &[&["front", "front"], &["rear"]]),
        (false, &[&["front"], &["rear", "rear_right"]]),
        (true, &[&["front_left", "front_right"], &["rear"]]),
        (true, &[&["front"], &["rear_left", "rear_right"]]),
        // A brake on the transmission has no wheel, steering brakes have a cylinder each, a trailer has one axle.
        (true, &[&["front_left", "front_right"], &["none"]]),
        (false, &[&["rear_left"], &["rear_right"]]),
        (false, &[&["trailer_left", "trailer_right"]]),
        // Both front wheels on either circuit.
        (
            true,
            &[
                &["front_left", "front_right", "rear_left"],
                &["front_left", "front_right", "rear_right"],
            ],
        ),
    ] {
        assert!(
            asked(&vehicle(is_tandem, circuits)).is_empty(),
            "{circuits:?}"
        );
    }
}

/// A bleed screw takes the place of a line at a tee; a block and a union may have two.
#[test]
fn a_tee_has_three_lines() {
    let with = |part: &str| {
        let text = vehicle(false, &[&["front"], &["rear"]]);
        let block = "(id: \"block 0\", kind: block)";
        assert!(text.contains(block));
        text.replace(block, part)
    };
    assert_eq!(asked(&with("(id: \"block 0\", kind: tee)")), ["BW221"]);
    assert!(asked(&with("(id: \"block 0\", kind: union)")).is_empty());
    let screws = "screws: [(id: \"tee\", at_top: true)]";
    assert!(asked(&with(&format!("(id: \"block 0\", kind: tee, {screws})"))).is_empty());
}

/// The wheels stand in the text and in the document, so that they can be counted against the vehicle.
#[test]
fn check_names_the_wheels_it_saw() {
    let three = vehicle(true, &[&["front_left", "front_right"], &["rear_left"]]);
    let shown = run_with_input("check -", three.as_bytes());
    assert!(
        shown.unwrapped().contains("3 wheels with a brake"),
        "{}",
        shown.stdout
    );
    let shown = run_with_input("check - --format json", three.as_bytes());
    let document: serde_json::Value = serde_json::from_str(&shown.stdout).expect("it is JSON");
    let wheels = ["front_left", "front_right", "rear_left"];
    assert_eq!(document["wheels"], serde_json::json!(wheels));
    let shown = run_with_input("check - --format json", b"(");
    let document: serde_json::Value = serde_json::from_str(&shown.stdout).expect("it is JSON");
    assert!(document["wheels"].is_null());
}

/// Sizes in inches and in millimetres are one size, the next size is another one; all pistons of a wheel count.
#[test]
fn pistons_of_an_axle_are_one_size() {
    let text = vehicle(false, &[&["front_left", "front_right"]]);
    let with = |left: &str| {
        let (bore, piston) = ("bore: \"40 mm\", extension: \"3 mm\", count: 2", left);
        text.replacen(bore, &format!("{piston}, extension: \"3 mm\""), 1)
    };
    for left in [
        "bore: \"1.575 in\", count: 2",
        "bore: \"56.6 mm\"",
        "bore: \"39.5 mm\", count: 2",
    ] {
        assert!(asked(&with(left)).is_empty(), "{left}");
    }
    for left in [
        "bore: \"38 mm\", count: 2",
        "bore: \"40 mm\"",
        "bore: \"42 mm\", count: 2",
    ] {
        assert_eq!(asked(&with(left)), ["BW222"], "{left}");
    }
}

/// A valve that holds rear brakes back, before front ones; with a rear one behind it too, or of another kind, it is right.
#[test]
fn a_limiter_belongs_to_rear_brakes() {
    let with = |kind: &str, wheels: &[&str]| {
        let text = vehicle(false, &[wheels]);
        text.replace(
            "(id: \"block 0\", kind: block)",
            &format!("(id: \"block 0\", kind: {kind})"),
        )
    };
    for kind in [
        "pressure_limiting(cut_in: \"30 bar\")",
        "proportioning(cut_in: \"30 bar\", ratio: 0.3)",
    ] {
        assert_eq!(
            asked(&with(kind, &["front_left", "front_right"])),
            ["BW223"],
            "{kind}"
        );
        assert!(
            asked(&with(kind, &["rear_left", "rear_right"])).is_empty(),
            "{kind}"
        );
        let all = ["front_left", "front_right", "rear_left", "rear_right"];
        assert!(asked(&with(kind, &all)).is_empty(), "{kind}");
    }
    assert!(asked(&with("metering()", &["front_left", "front_right"])).is_empty());
}
