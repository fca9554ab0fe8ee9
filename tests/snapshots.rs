//! Whole outputs, as they are printed on 80 columns.

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
";

#[test]
fn outputs_are_as_they_were() {
    for [name, call] in rows(CALLS) {
        insta::assert_snapshot!(name, run(&format!("{call} --width 80")).shown());
    }
}
