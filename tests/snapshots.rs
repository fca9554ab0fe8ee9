//! Whole outputs, as they are printed on 80 columns.

use crate::binary::bleedwright;

/// Both outputs and the exit code of a call.
fn output_of(arguments: &[&str]) -> String {
    let output = bleedwright()
        .args(arguments)
        .args(["--width", "80"])
        .output()
        .expect("the program starts");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let code = output.status.code().unwrap_or(-1);
    let mut all = text(&output.stdout);
    if !output.stderr.is_empty() {
        all += "---- standard error\n";
        all += &text(&output.stderr);
    }
    all + &format!("---- exit code {code}\n")
}

#[test]
fn plan_of_lapwing() {
    insta::assert_snapshot!(output_of(&["plan", "layouts/lapwing.ron"]));
}

#[test]
fn plan_of_lapwing_after_a_repair() {
    let call = [
        "plan",
        "layouts/lapwing.ron",
        "--opened",
        "front left caliper",
    ];
    insta::assert_snapshot!(output_of(&call));
}

#[test]
fn plan_of_curlew() {
    insta::assert_snapshot!(output_of(&["plan", "layouts/curlew.ron"]));
}

#[test]
fn check_of_lapwing() {
    insta::assert_snapshot!(output_of(&["check", "layouts/lapwing.ron"]));
}

#[test]
fn check_of_curlew() {
    insta::assert_snapshot!(output_of(&["check", "layouts/curlew.ron"]));
}

#[test]
fn volumes_of_lapwing() {
    insta::assert_snapshot!(output_of(&["volumes", "layouts/lapwing.ron"]));
}

fn check_of_broken(name: &str) -> String {
    output_of(&["check", &format!("tests/layouts/broken/{name}.ron")])
}

#[test]
fn check_of_two_circuits_joined() {
    insta::assert_snapshot!(check_of_broken("circuits_joined_by_a_tee"));
}

#[test]
fn check_of_a_bore_in_metres() {
    insta::assert_snapshot!(check_of_broken("bore_in_metres"));
}

#[test]
fn check_of_a_misspelt_part() {
    insta::assert_snapshot!(check_of_broken("unknown_part_near_name"));
}

#[test]
fn check_of_an_escape_in_a_name() {
    insta::assert_snapshot!(check_of_broken("escape_in_a_name"));
}

#[test]
fn check_of_a_missing_comma() {
    insta::assert_snapshot!(check_of_broken("comma_between_fields_missing"));
}

#[test]
fn plan_refused_by_an_unknown_screw() {
    let call = ["plan", "layouts/lapwing.ron", "--skip", "rear lift"];
    insta::assert_snapshot!(output_of(&call));
}
