//! SAE J526, welded low-carbon steel tubing: sizes and tolerances.
//!
//! Read second-hand, not in the standard: 3/16 in by 0.028 in, outside
//! diameter ± 0.003 in, wall ± 0.005 in; 1/4 in by 0.028 in, both ± 0.003 in.
//! The standard prints sizes in thousandths of an inch; the contents below
//! follow from them by area times length, worked out by hand and rounded to the
//! digits shown.

use bleedwright_network::{bore_of_size, parse_quantity};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// Low, nominal and high contents in millilitres a metre.
fn contents_ml_per_m(size: &str) -> [f64; 3] {
    let outside = parse_quantity::<Length>(size).expect("the size is a length");
    let (_, bore) = bore_of_size(outside.nominal, None).expect("the size is known");
    [bore.bounds.low, bore.bounds.nominal, bore.bounds.high].map(|bore| {
        let bore_mm = bore.get::<millimeter>();
        // Square millimetres times one metre are millilitres.
        std::f64::consts::FRAC_PI_4 * bore_mm * bore_mm
    })
}

fn assert_printed(found: f64, printed: f64, digits: i32) {
    let half_a_digit = 0.5 * 10.0_f64.powi(-digits);
    assert!(
        (found - printed).abs() <= half_a_digit,
        "{found} is not {printed} to {digits} digits"
    );
}

/// Bore 0.1315 in, so 8.76 ml/m; 0.1185 to 0.1445 in with both tolerances, so
/// 7.1 to 10.6 ml/m.
#[test]
fn three_sixteenths_inch_pipe() {
    let [low, nominal, high] = contents_ml_per_m("3/16 in");
    assert_printed(nominal, 8.76, 2);
    assert_printed(low, 7.1, 1);
    assert_printed(high, 10.6, 1);
}

/// Bore 0.194 in, so 19.07 ml/m; 0.185 to 0.203 in, so 17.3 to 20.9 ml/m.
#[test]
fn quarter_inch_pipe() {
    let [low, nominal, high] = contents_ml_per_m("1/4 in");
    assert_printed(nominal, 19.07, 2);
    assert_printed(low, 17.3, 1);
    assert_printed(high, 20.9, 1);
}

/// The same through a whole layout: ten metres of pipe in the text.
#[test]
fn a_layout_holds_what_the_size_says() {
    let text = r#"(
        format: 1, name: "Ten metres", fluid: dot4,
        reservoirs: [(id: "pot", compartments: [(id: "all", max: "200 ml", feeds: "master")])],
        cylinders: [(id: "master", kind: single(bore: "20 mm", stroke: "20 mm"))],
        parts: [(id: "caliper", kind: caliper(pistons: [(bore: "54 mm")]), wheel: front_left,
                 screws: [(id: "screw", at_top: true)])],
        lines: [(id: "pipe", from: "master", to: "caliper",
                 kind: pipe(size: "3/16 in", length: "10 m"))],
    )"#;
    let loaded = bleedwright_network::load(text.as_bytes());
    let network = loaded.sound_network().expect("the layout is sound");
    let volumes = bleedwright_planner::volumes(network);
    let contents = volumes.lines[0].contents;
    let ml = |volume: uom::si::f64::Volume| volume.get::<uom::si::volume::milliliter>();
    assert_printed(ml(contents.nominal), 87.6, 1);
    assert_printed(ml(contents.low), 71.0, -1);
    assert_printed(ml(contents.high), 106.0, 0);
}
