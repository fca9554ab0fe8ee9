//! The printed page: whole outputs.

use super::output_of;

#[test]
fn text_of_lapwing() {
    insta::assert_snapshot!(output_of(
        "layouts/lapwing.ron --force '300 N' --booster running --width 80"
    ));
}

#[test]
fn text_of_readings() {
    insta::assert_snapshot!(output_of(
        "layouts/lapwing.ron --booster exhausted --measured '50 N: 50 mm' --measured \
        '300 N: 66 mm ± 1 mm' --pumped '300 N: 58 mm ± 1 mm' --width 80"
    ));
}

#[test]
fn text_of_sizes() {
    insta::assert_snapshot!(output_of(
        "layouts/curlew.ron --force '500 N' --bore '0.7 in' --bore '0.7 in + 13/16 in' \
        --ratio 5 --ratio 6 --width 80"
    ));
}

#[test]
fn text_of_a_symptom() {
    insta::assert_snapshot!(output_of(
        "layouts/ruff.ron --control master --symptom sinking --width 80"
    ));
}

/// A reservoir that a clutch draws on too.
#[test]
fn text_of_air_that_is_said_and_a_shared_reservoir() {
    insta::assert_snapshot!(output_of(
        "layouts/ruff.ron --control master --air '1.5 ml' --width 80"
    ));
}
