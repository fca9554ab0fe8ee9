//! Whole outputs, on 80 columns. What the README shows is held by `readme`.

use crate::command_line::run;
use crate::table::rows;

/// The name of a snapshot, and the call.
const CALLS: &str = "
plan_of_lapwing | plan layouts/lapwing.ron
plan_of_curlew | plan layouts/curlew.ron
plan_refused_by_an_unknown_screw | plan layouts/lapwing.ron --skip 'rear lift'
check_of_curlew | check layouts/curlew.ron
check_of_two_circuits_joined | check tests/layouts/broken/circuits_joined_by_a_tee.ron
check_of_a_bore_in_metres | check tests/layouts/broken/bore_in_metres.ron
check_of_a_misspelt_part | check tests/layouts/broken/unknown_part_near_name.ron
check_of_an_escape_in_a_name | check tests/layouts/broken/escape_in_a_name.ron
check_of_a_missing_comma | check tests/layouts/broken/comma_between_fields_missing.ron
pedal_with_a_symptom | pedal layouts/ruff.ron --control master --symptom sinking
pedal_with_air_and_a_shared_reservoir | pedal layouts/ruff.ron --control master --air '1.5 ml'
fluid_with_a_bottle | fluid --grade dot4 --moisture '2.5 %' --age '30 months' --label-wet '311 degF' --bottle-moisture '0.4 %' --opened-for '8 months'
fluid_refused | fluid --grade dot5 --moisture '2 %'
";

#[test]
fn outputs_are_as_they_were() {
    for [name, call] in rows(CALLS) {
        insta::assert_snapshot!(name, run(&format!("{call} --width 80")).shown());
    }
}
