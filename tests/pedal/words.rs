//! What the page says to somebody who acts on it.

use super::{document, words};
use crate::command_line::assert_said;
use serde_json::Value;

/// Calls, and what they say to somebody who acts on it.
const SAID: &str = "
// Common practice, no source: what pumping takes away is clearance, what stays springy is air.
layouts/lapwing.ron --booster exhausted --measured '300 N: 66 mm' --pumped '300 N: 57 mm'
+ Pumping raised the pedal by 9 mm. Clearances
+ are looked at first
+ What stays springy after pumping is air

layouts/lapwing.ron --booster exhausted --measured '300 N: 66 mm' --pumped '300 N: 66 mm'
+ points away from clearances

// No clearance and no air lets a pumped pedal stand lower.
layouts/lapwing.ron --booster exhausted --measured '300 N: 60 mm' --pumped '300 N: 66 mm'
+ 6 mm lower
+ leak
- raised

// Forces that differ are not compared.
layouts/lapwing.ron --booster exhausted --measured '300 N: 66 mm' --pumped '200 N: 50 mm'
- Pumping raised

// A pumped reading alone is as good as a first push: it says nothing of clearance.
layouts/lapwing.ron --booster exhausted --pumped '300 N: 66 mm'
+ AIR FROM THE READINGS
- Pumping

// Readings that no air explains give no amount that could be taken for one; air and trials that mean nothing are not
// printed.
layouts/lapwing.ron --booster exhausted --measured '50 N: 150 mm ± 0.2 mm' --measured '500 N: 20 mm ± 0.2 mm'
+ do not fit this layout with any amount of air
- In all:
- all of it in
- TRIALS
- mean nothing
= /readings_fit false
= /air_ml null
= /air_in []
= /trials []

// Whoever is told to plug, to clamp or to press hears what that can do.
layouts/lapwing.ron --symptom sinking
layouts/lapwing.ron --booster exhausted --measured '300 N: 75 mm'
+ plugs made for the thread
+ never braided hoses

layouts/lapwing.ron
layouts/lapwing.ron --symptom low
layouts/curlew.ron --bore '3/4 in'
+ do not say that the brakes are safe
+ maker's manual governs
+ do not drive

// Trials name the force they are reckoned for: that of the hardest reading.
layouts/lapwing.ron --booster exhausted --measured '60 N: 60 mm' --measured '300 N: 75 mm'
+ press with 300 N
= /trials_force_n 300.0

layouts/lapwing.ron
= /trials_force_n null

// 49 CFR 570.55(c) has the engine run where there is a booster: an exhausted one does not soften the rule.
layouts/lapwing.ron --booster exhausted
+ 222 N (50 lbf) and with the booster running

// A motorcycle's lever has one circuit: with it lost, nothing else hangs on that lever, and no parking brake is promised.
layouts/turnstone.ron --control 'lever cylinder'
+ brakes nothing any more
- parking brake

layouts/turnstone.ron --control 'lever cylinder' --bore '14 mm'
- other circuit
";

#[test]
fn the_page_says_what_it_must() {
    assert_said("pedal", SAID);
}

/// No air is never said to be proved.
#[test]
fn no_air_is_not_proved() {
    let travel = document("layouts/lapwing.ron --force '300 N' --booster exhausted");
    let nominal = travel["travel_mm"]["nominal"].as_f64().expect("a number");
    let said = words(&format!(
        "layouts/lapwing.ron --booster exhausted --measured '300 N: {nominal:.1} mm'"
    ));
    assert!(said.contains("That is not proof of none"), "{said}");
    assert!(!said.contains("safe to drive"), "{said}");
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

/// An exhausted booster does not soften the rule.
#[test]
fn the_reserve_is_judged_with_the_booster_running() {
    let reserve =
        |state| document(&format!("layouts/lapwing.ron --booster '{state}'"))["reserve"].clone();
    assert_eq!(reserve("running"), reserve("exhausted"));
}
