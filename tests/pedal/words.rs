//! What the page says to somebody who acts on it.

use super::{document, words};
use serde_json::Value;

/// Lapwing's readings with the booster exhausted.
fn readings(more: &str) -> String {
    format!("layouts/lapwing.ron --booster exhausted {more}")
}

/// Common practice, no source: what pumping takes away is clearance, what stays springy is air.
#[test]
fn pumping_says_clearance_first() {
    let said = words(&readings(
        "--measured '300 N: 66 mm' --pumped '300 N: 57 mm'",
    ));
    assert!(
        said.contains("Pumping raised the pedal by 9 mm. Clearances")
            && said.contains("are looked at first"),
        "{said}"
    );
    assert!(
        said.contains("What stays springy after pumping is air"),
        "{said}"
    );
    let same = words(&readings(
        "--measured '300 N: 66 mm' --pumped '300 N: 66 mm'",
    ));
    assert!(same.contains("points away from clearances"), "{same}");
    // No clearance and no air lets a pumped pedal stand lower.
    let lower = words(&readings(
        "--measured '300 N: 60 mm' --pumped '300 N: 66 mm'",
    ));
    assert!(lower.contains("6 mm lower"), "{lower}");
    assert!(
        lower.contains("leak") && !lower.contains("raised"),
        "{lower}"
    );
    // Forces that differ are not compared.
    let other = words(&readings(
        "--measured '300 N: 66 mm' --pumped '200 N: 50 mm'",
    ));
    assert!(!other.contains("Pumping raised"), "{other}");
}

/// A pumped reading alone is as good as a first push: it says nothing of clearance.
#[test]
fn a_pumped_reading_alone() {
    let said = words(&readings("--pumped '300 N: 66 mm'"));
    assert!(said.contains("AIR FROM THE READINGS"), "{said}");
    assert!(!said.contains("Pumping"), "{said}");
}

/// Readings that no air explains give no amount that could be taken for one.
#[test]
fn readings_that_do_not_fit() {
    let call = readings("--measured '50 N: 150 mm ± 0.2 mm' --measured '500 N: 20 mm ± 0.2 mm'");
    let said = words(&call);
    assert!(
        said.contains("do not fit this layout with any amount of air"),
        "{said}"
    );
    // Air and trials that mean nothing are not printed.
    for nothing in ["In all:", "all of it in", "TRIALS", "mean nothing"] {
        assert!(!said.contains(nothing), "{nothing}: {said}");
    }
    let document = document(&call);
    assert_eq!(document["readings_fit"], false);
    assert!(document["air_ml"].is_null());
    for list in ["air_in", "trials"] {
        assert_eq!(document[list].as_array().map(Vec::len), Some(0), "{list}");
    }
}

/// No air is never said to be proved.
#[test]
fn no_air_is_not_proved() {
    let travel = document("layouts/lapwing.ron --force '300 N' --booster exhausted");
    let nominal = travel["travel_mm"]["nominal"].as_f64().expect("a number");
    let reading = format!("300 N: {nominal:.1} mm");
    let said = words(&readings(&format!("--measured '{reading}'")));
    assert!(said.contains("That is not proof of none"), "{said}");
    assert!(!said.contains("safe to drive"), "{said}");
}

/// Whoever is told to plug, to clamp or to press hears what that can do.
#[test]
fn dangers_stand_where_they_are_asked_for() {
    let plugs = ["plugs made for the thread", "never braided hoses"];
    let sinking = words("layouts/lapwing.ron --symptom sinking");
    let measured = words(&readings("--measured '300 N: 75 mm'"));
    for said in [&sinking, &measured] {
        for word in plugs {
            assert!(said.contains(word), "{word}: {said}");
        }
    }
    for call in [
        "layouts/lapwing.ron",
        "layouts/lapwing.ron --symptom low",
        "layouts/curlew.ron --bore '3/4 in'",
    ] {
        let said = words(call);
        for word in [
            "do not say that the brakes are safe",
            "maker's manual governs",
            "do not drive",
        ] {
            assert!(said.contains(word), "{call:?}: {word}: {said}");
        }
    }
}

/// Trials name the force they are reckoned for: that of the hardest reading.
#[test]
fn trials_name_their_force() {
    let call = readings("--measured '60 N: 60 mm' --measured '300 N: 75 mm'");
    let pedal = document(&call);
    assert_eq!(pedal["trials_force_n"], 300.0);
    assert!(words(&call).contains("press with 300 N"));
    assert!(document("layouts/lapwing.ron")["trials_force_n"].is_null());
}

/// Sizes are compared under the same press: with the same air, and the same booster.
#[test]
fn sizes_are_compared_under_the_same_press() {
    let call = "layouts/curlew.ron --bore '0.7 in + 3/4 in' --air '3 ml'";
    let pedal = document(call);
    // These are the sizes of the layout.
    let size = &pedal["sizes"][0];
    for field in ["travel_mm", "contributions"] {
        let [one, other]: [Vec<f64>; 2] = [&pedal[field], &size[field]].map(numbers);
        assert_eq!(one.len(), other.len(), "{field}");
        for (one, other) in one.iter().zip(&other) {
            assert!(
                (one - other).abs() <= 1e-9 * one.abs().max(1.0),
                "{field}: {one} and {other}"
            );
        }
    }
}

/// Every number in a value, in order.
fn numbers(value: &Value) -> Vec<f64> {
    match value {
        Value::Number(number) => number.as_f64().into_iter().collect(),
        Value::Array(all) => all.iter().flat_map(numbers).collect(),
        Value::Object(fields) => fields.values().flat_map(numbers).collect(),
        _ => Vec::new(),
    }
}

/// 49 CFR 570.55(c) has the engine run where there is a booster: an exhausted one does not soften the rule.
#[test]
fn the_reserve_is_judged_with_the_booster_running() {
    let reserve =
        |state| document(&format!("layouts/lapwing.ron --booster '{state}'"))["reserve"].clone();
    assert_eq!(reserve("running"), reserve("exhausted"));
    let said = words("layouts/lapwing.ron --booster exhausted");
    assert!(
        said.contains("222 N (50 lbf) and with the booster running"),
        "{said}"
    );
}

/// A motorcycle's lever has one circuit: with it lost, nothing else hangs on that lever, and no parking brake is promised.
#[test]
fn one_circuit_has_no_other() {
    let call = "layouts/turnstone.ron --control 'lever cylinder'";
    let said = words(call);
    assert!(said.contains("brakes nothing any more"), "{said}");
    assert!(!said.contains("parking brake"), "{said}");
    let sized = words(&format!("{call} --bore '14 mm'"));
    assert!(!sized.contains("other circuit"), "{sized}");
}
