//! TB 9-2320-335-13&P, a field car with front and rear circuits: the order right rear, left rear, right front, left front;
//! only the half that was worked on need be bled; both sides of a caliper are bled, by their top screws only; 12 to 15 psi
//! in a pressure tank are enough. Beside the psi it prints 103 to 138 kPa, which is not the same pressure.

use crate::asked::opening;
use crate::command_line::run;
use crate::demo;
use bleedwright_planner::{Options, plan};

/// A fixed caliper in two halves with a top and a bottom screw on each, and a drum behind.
const CALIPER: &str = r#"(
    format: 1, name: "Stonechat, field car", fluid: dot4,
    reservoirs: [(id: "pot", compartments: [
        (id: "front", max: "200 ml", feeds: "master.primary"),
        (id: "rear", max: "200 ml", feeds: "master.secondary"),
    ])],
    cylinders: [(id: "master", kind: tandem(bore: "22 mm",
        primary: (stroke: "16 mm"), secondary: (stroke: "14 mm")), pedal_ratio: 4.0)],
    parts: [
        (id: "caliper", wheel: front_left, kind: caliper(
            chambers: [
                (id: "inner", pistons: [(bore: "38 mm", extension: "3 mm")]),
                (id: "outer", pistons: [(bore: "38 mm", extension: "3 mm")]),
            ],
            crossover: "0.5 ml",
        ), screws: [
            (id: "top inner", chamber: "inner", at_top: true), (id: "bottom inner", chamber: "inner", at_top: false),
            (id: "top outer", chamber: "outer", at_top: true), (id: "bottom outer", chamber: "outer", at_top: false),
        ]),
        (id: "drum", kind: wheel_cylinder(bore: "20 mm", extension: "3 mm"), wheel: rear_left,
         screws: [(id: "rear", at_top: true)]),
    ],
    lines: [
        (id: "front pipe", from: "master.primary", to: "caliper", kind: pipe(size: "3/16 in", length: "1 m")),
        (id: "rear pipe", from: "master.secondary", to: "drum", kind: pipe(size: "3/16 in", length: "4 m")),
    ],
)"#;

/// The printed order, asked of a vehicle split into front and rear, breaks no rule of the pipework.
#[test]
fn its_order_is_followed_and_breaks_no_rule() {
    let asked = ["rear right", "rear left", "front right", "front left"];
    let options = Options {
        order: Some(asked.map(str::to_owned).to_vec()),
        ..Options::default()
    };
    let network = &demo::load_demo("lapwing");
    assert_eq!(network.split().word(), "II");
    let found = plan(network, &options).findings;
    let codes: Vec<&str> = found.iter().map(|finding| finding.code.text()).collect();
    assert!(!codes.contains(&"BW403"), "{codes:?}");
    let plan = demo::plan_of(network, &options);
    assert_eq!(demo::screws(&plan), asked);
}

#[test]
fn only_the_half_that_was_opened_is_bled() {
    for (opened, half) in [
        ("front left caliper", ["front left", "front right"]),
        ("rear left cylinder", ["rear left", "rear right"]),
    ] {
        let options = opening(&[opened]);
        let plan = demo::plan_demo("lapwing", &options);
        let screws = demo::screws(&plan);
        assert!(!screws.is_empty(), "{opened}");
        assert!(
            screws.iter().all(|screw| half.contains(screw)),
            "{opened}: {screws:?}"
        );
    }
}

#[test]
fn both_sides_of_a_caliper_by_their_top_screws() {
    let network = demo::network_of(CALIPER);
    let options = opening(&["caliper"]);
    let plan = demo::plan_of(&network, &options);
    let mut screws = demo::screws(&plan);
    screws.sort_unstable();
    assert_eq!(screws, ["top inner", "top outer"]);
}

/// 12 and 15 psi are 0.83 and 1.03 bar.
#[test]
fn twelve_to_fifteen_psi() {
    let call = "plan layouts/lapwing.ron --method pressure";
    let sheet = run(call).unwrapped();
    assert!(sheet.contains("0.83-1.03 bar (12-15 psi)"), "{sheet}");
}
