//! Whole outputs, as they are printed on 80 columns where the call asks for no other width.

use crate::command_line::run;
use crate::table::rows;

/// The name of a snapshot, and the call.
const CALLS: &str = "
plan_of_lapwing | plan layouts/lapwing.ron
plan_of_lapwing_after_a_repair | plan layouts/lapwing.ron --opened 'front left caliper'
plan_of_curlew | plan layouts/curlew.ron
plan_refused_by_an_unknown_screw | plan layouts/lapwing.ron --skip 'rear lift'
check_of_lapwing | check layouts/lapwing.ron
check_of_curlew | check layouts/curlew.ron
check_of_two_circuits_joined | check tests/layouts/broken/circuits_joined_by_a_tee.ron
check_of_a_bore_in_metres | check tests/layouts/broken/bore_in_metres.ron
check_of_a_misspelt_part | check tests/layouts/broken/unknown_part_near_name.ron
check_of_an_escape_in_a_name | check tests/layouts/broken/escape_in_a_name.ron
check_of_a_missing_comma | check tests/layouts/broken/comma_between_fields_missing.ron
volumes_of_lapwing | volumes layouts/lapwing.ron
pedal_of_lapwing | pedal layouts/lapwing.ron --force '300 N' --booster running
pedal_with_readings | pedal layouts/lapwing.ron --booster exhausted --measured '50 N: 50 mm' --measured '300 N: 66 mm ± 1 mm' --pumped '300 N: 58 mm ± 1 mm'
pedal_with_sizes | pedal layouts/curlew.ron --force '500 N' --bore '0.7 in' --bore '0.7 in + 13/16 in' --ratio 5 --ratio 6
pedal_with_a_symptom | pedal layouts/ruff.ron --control master --symptom sinking
pedal_with_air_and_a_shared_reservoir | pedal layouts/ruff.ron --control master --air '1.5 ml'
fluid_with_a_bottle | fluid --grade dot4 --moisture '2.5 %' --age '30 months' --label-wet '311 degF' --bottle-moisture '0.4 %' --opened-for '8 months'
fluid_that_does_not_mix | fluid --layout layouts/lapwing.ron --grade dot4 --mixed-with dot5 --moisture '1 %' --width 48
fluid_with_limits_alone | fluid --grade dot5
fluid_refused | fluid --grade dot5 --moisture '2 %'
";

#[test]
fn outputs_are_as_they_were() {
    for [name, call] in rows(CALLS) {
        let width = if call.contains("--width") {
            ""
        } else {
            "--width 80"
        };
        insta::assert_snapshot!(name, run(&format!("{call} {width}")).shown());
    }
}
