//! Flow through a circuit with a loop.

use crate::asked::by;
use crate::demo::{network_of, plan_of};
use bleedwright_planner::{Drive, Method};
use uom::si::volume_rate::milliliter_per_second;

/// One brake behind one pipe, or behind two that are alike.
fn trailer(second: bool) -> String {
    let second = if second {
        "(id: \"b\", from: \"tee\", to: \"end\", kind: pipe(bore: \"2 mm\", length: \"8 m\")),"
    } else {
        ""
    };
    format!(
        "(format: 1, name: \"Dotterel, boat trailer\", fluid: dot4,
        reservoirs: [(id: \"pot\", compartments: [(id: \"pot\", max: \"250 ml\", feeds: \"cylinder\")])],
        cylinders: [(id: \"cylinder\", kind: single(bore: \"22 mm\", stroke: \"30 mm\"))],
        parts: [(id: \"tee\", kind: tee), (id: \"end\", kind: tee),
            (id: \"brake\", kind: wheel_cylinder(bore: \"20 mm\", extension: \"2 mm\", dead_volume: \"1 ml\"),
            wheel: trailer_left, screws: [(id: \"screw\", at_top: true)])],
        lines: [(id: \"first\", from: \"cylinder\", to: \"tee\", kind: pipe(bore: \"6 mm\", length: \"0.1 m\")),
            (id: \"a\", from: \"tee\", to: \"end\", kind: pipe(bore: \"2 mm\", length: \"8 m\")), {second}
            (id: \"last\", from: \"end\", to: \"brake\", kind: pipe(bore: \"6 mm\", length: \"0.1 m\"))])"
    )
}

fn flow(second: bool) -> f64 {
    let options = by(Method::Pressure);
    let plan = plan_of(&network_of(&trailer(second)), &options);
    match plan.steps[0].drive {
        Drive::Steady { flow, .. } => flow.nominal.get::<milliliter_per_second>(),
        Drive::Strokes { .. } => panic!("a tank drives it"),
    }
}

/// Two equal pipes side by side pass twice as much as one: nearly all of the
/// resistance is theirs.
#[test]
fn two_ways_pass_twice_as_much() {
    let ratio = flow(true) / flow(false);
    assert!((1.9..2.0).contains(&ratio), "{ratio}");
}
