//! What a metre of pipe holds: the sizes and tolerances of SAE J526 (second-hand), by area times length.

use crate::demo::network_of;
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

fn assert_by_hand(found: f64, by_hand: f64, digits: i32) {
    let half_a_digit = 0.5 * 10.0_f64.powi(-digits);
    assert!(
        (found - by_hand).abs() <= half_a_digit,
        "{found} is not {by_hand} to {digits} digits"
    );
}

/// Bore 0.1315 in, so 8.76 ml/m; 0.1185 to 0.1445 in with both tolerances, so
/// 7.1 to 10.6 ml/m.
#[test]
fn three_sixteenths_inch_pipe() {
    let [low, nominal, high] = contents_ml_per_m("3/16 in");
    assert_by_hand(nominal, 8.76, 2);
    assert_by_hand(low, 7.1, 1);
    assert_by_hand(high, 10.6, 1);
}

/// Bore 0.194 in, so 19.07 ml/m; 0.185 to 0.203 in, so 17.3 to 20.9 ml/m.
#[test]
fn quarter_inch_pipe() {
    let [low, nominal, high] = contents_ml_per_m("1/4 in");
    assert_by_hand(nominal, 19.07, 2);
    assert_by_hand(low, 17.3, 1);
    assert_by_hand(high, 20.9, 1);
}

/// The same through a whole layout, ten metres of pipe in the text: 0.1185, 0.1315 and 0.1445 in across.
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
    let network = &network_of(text);
    let volumes = bleedwright_planner::volumes(network);
    let contents = volumes.lines[0].contents;
    let ml = |volume: uom::si::f64::Volume| volume.get::<uom::si::volume::milliliter>();
    assert_by_hand(ml(contents.nominal), 87.62, 2);
    assert_by_hand(ml(contents.low), 71.15, 2);
    assert_by_hand(ml(contents.high), 105.80, 2);
}
