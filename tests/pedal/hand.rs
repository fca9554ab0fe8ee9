//! A vehicle reckoned by hand.

use super::document;
use serde_json::Value;

#[track_caller]
fn assert_nominal(range: &Value, by_hand: f64, digits: f64) {
    let found = range["nominal"].as_f64().expect("a number");
    assert!(
        (found - by_hand).abs() <= digits,
        "{found}, by hand {by_hand}"
    );
}

/// Lapwing's figures are those of its file: lever 4.2, booster 4.5, bore 23.8 mm, limiter 35 bar. What the file does not
/// give is what the output lists as assumed: the booster adds 3500 N at most, 50 N stay in the pushed piston, 15 N in the
/// floating one. The formulas are the lever rule, `F2 = r F1` (Limpert, from memory), and `p = F / A` (College Physics, read):
///
/// ```text
/// area     pi / 4 x 23.8^2                    = 444.881 mm2
/// foot     300 N x 4.2                        = 1260 N
/// booster  1260 N x 3.5 = 4410 N, at most     = 3500 N
/// front    (1260 + 3500 - 50) / 444.881       = 10.5871 N/mm2 = 105.871 bar
/// rear     (1260 + 3500 - 65) / 444.881       = 10.5534 N/mm2 = 105.534 bar
/// without  (1260 - 50) / 444.881              =  2.7198 N/mm2 =  27.198 bar
/// ```
#[test]
fn pressures_of_lapwing() {
    let bars = |more: &str| {
        document(&format!("layouts/lapwing.ron --force '300 N' {more}"))["pressure_bar"].clone()
    };
    let running = bars("--booster running");
    assert_nominal(&running[0]["chamber"], 105.871, 5e-4);
    assert_nominal(&running[1]["chamber"], 105.534, 5e-4);
    for part in running[0]["parts"].as_array().expect("a list") {
        assert_nominal(&part["pressure_bar"], 105.871, 5e-4);
    }
    // Behind the limiter no more than it lets through.
    for part in running[1]["parts"].as_array().expect("a list") {
        assert_nominal(&part["pressure_bar"], 35.0, 1e-9);
    }
    let exhausted = bars("--booster exhausted");
    assert_nominal(&exhausted[0]["chamber"], 27.198, 5e-4);
    assert_eq!(
        bars(""),
        running,
        "the booster runs unless it is said otherwise"
    );
}

/// Curlew's bar has no share in its file and takes half; its lever is 5 and its bores 0.7 in (17.78 mm) and 3/4 in
/// (19.05 mm); 50 N stay in each piston. `500 x 5 / 2 = 1250 N`; `(1250 - 50) / 248.287 = 48.331 bar` in front and
/// `1200 / 285.023 = 42.102 bar` behind.
#[test]
fn pressures_of_curlew() {
    let pressures = document("layouts/curlew.ron --force '500 N'")["pressure_bar"].clone();
    assert_nominal(&pressures[0]["chamber"], 48.331, 5e-4);
    assert_nominal(&pressures[1]["chamber"], 42.102, 5e-4);
    // Smaller bores, more pressure: 15.875 mm (5/8 in), 197.933 mm2, 60.627 bar in both.
    let sized = document("layouts/curlew.ron --force '500 N' --bore '5/8 in'");
    for nth in 0..2 {
        assert_nominal(
            &sized["sizes"][0]["pressure_bar"][nth]["chamber"],
            60.627,
            5e-4,
        );
    }
    // A longer lever, 6: (1500 - 50) / 248.287 = 58.400 bar. A bar turned to 60 %: (1500 - 50) / 248.287 as well.
    for option in ["--ratio 6", "--share '60 %'"] {
        let sized = document(&format!("layouts/curlew.ron --force '500 N' {option}"));
        assert_nominal(
            &sized["sizes"][0]["pressure_bar"][0]["chamber"],
            58.400,
            5e-4,
        );
    }
}

/// 50 lbf are 222.41 N; 49 CFR 570.55(c) prints 222 N.
#[test]
fn force_of_the_pedal_reserve() {
    for name in ["lapwing", "plover", "curlew"] {
        let found = document(&format!("layouts/{name}.ron"))["reserve"]["force_n"].as_f64();
        assert!(
            found.is_some_and(|force| (force - 222.411).abs() <= 5e-4),
            "{found:?}"
        );
    }
}
