//! TM 10-3930-618-20: keep the reservoir at least half full while bleeding by
//! hand, since that empties it fast. The manual gives no other figure.

use bleedwright_network::load;
use uom::si::volume::milliliter;

/// The lowest level that a plan lets a compartment with these marks fall to.
fn lowest_allowed_ml(marks: &str) -> f64 {
    let text = format!(
        r#"(
            format: 1, name: "Half full", fluid: dot4,
            reservoirs: [(id: "pot", compartments: [(id: "all", {marks}, feeds: "master")])],
            cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "20 mm"))],
            parts: [(id: "caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                     screws: [(id: "screw", at_top: true)])],
            lines: [(id: "pipe", from: "master", to: "caliper",
                     kind: pipe(size: "3/16 in", length: "1 m"))],
        )"#
    );
    let loaded = load(text.as_bytes());
    let network = loaded.sound_network().expect("the layout is sound");
    let compartment = &network.layout().reservoirs[0].compartments[0];
    (compartment.max.nominal - compartment.usable()).get::<milliliter>()
}

#[test]
fn the_level_stays_above_half() {
    for (marks, expected_ml) in [
        ("max: \"200 ml\"", 100.0),
        ("max: \"200 ml\", min: \"60 ml\"", 100.0),
        // A minimum mark above the half counts more than the half.
        ("max: \"200 ml\", min: \"140 ml\"", 140.0),
    ] {
        let found_ml = lowest_allowed_ml(marks);
        assert!((found_ml - expected_ml).abs() < 1e-9, "{marks}: {found_ml}");
    }
}
