//! Long bubbles in the lines of a plan.

use crate::demo::{ALL, load_demo, network_of, plan_of};
use bleedwright_planner::{LineBubble, Method, Options, Plan, Purpose, Verdict, plan};
use uom::si::velocity::millimeter_per_second;

fn trailer(outside: &str, heights: bool) -> String {
    let at = |height: &str| {
        if heights {
            format!(", height: \"{height}\"")
        } else {
            String::new()
        }
    };
    format!(
        "(format: 1, name: \"Dotterel, boat trailer\", fluid: dot4,
        reservoirs: [(id: \"pot\"{}, compartments: [(id: \"pot\", max: \"250 ml\", feeds: \"cylinder\")])],
        cylinders: [(id: \"cylinder\", kind: single(bore: \"22 mm\", stroke: \"30 mm\"){})],
        parts: [(id: \"brake\", kind: wheel_cylinder(bore: \"20 mm\", extension: \"2 mm\", dead_volume: \"1 ml\"),
            wheel: trailer_left{}, screws: [(id: \"screw\", at_top: true)])],
        lines: [(id: \"pipe\", from: \"cylinder\", to: \"brake\",
            kind: pipe(size: \"{outside}\", wall: \"1.0 mm\", length: \"6 m\"))])",
        at("0.80 m"),
        at("0.75 m"),
        at("0.40 m")
    )
}

fn plan_with(text: &str, method: Method) -> Plan {
    let options = Options {
        purpose: Some(Purpose::Air),
        method,
        ..Options::default()
    };
    plan_of(&network_of(text), &options)
}

fn bubble(plan: &Plan) -> &LineBubble {
    &plan.bubbles[0]
}

/// Viana and others 2003: in pipe of 6 mm bore a long bubble rises at some
/// centimetres a second. Bretherton 1961: what is too thin lets none rise.
#[test]
fn wide_pipe_lets_a_bubble_climb() {
    let wide = plan_with(&trailer("8 mm", true), Method::Pedal);
    assert_eq!(bubble(&wide).verdict, Verdict::Climbs);
    let rise = bubble(&wide).rise.get::<millimeter_per_second>();
    assert!((20.0..40.0).contains(&rise), "{rise}");
    for name in ALL {
        let options = Options {
            purpose: Some(Purpose::Air),
            depressurised: true,
            ..Options::default()
        };
        let plan = plan(&load_demo(name), &options)
            .plan
            .expect("it can be planned");
        for bubble in &plan.bubbles {
            let is_fast = bubble.rise.get::<millimeter_per_second>() > 0.1;
            match bubble.verdict {
                Verdict::Stuck => assert!(!is_fast, "{name}: {bubble:?}"),
                Verdict::Borderline => {}
                Verdict::Climbs => assert!(is_fast, "{name}: {bubble:?}"),
            }
        }
    }
}

/// A trickle by gravity does not take along what climbs in an upright pipe. In
/// a pipe that falls by 0.35 m on 6 m it does, and a tank does it anyway.
#[test]
fn a_trickle_leaves_what_climbs_faster() {
    let upright = plan_with(&trailer("8 mm", false), Method::Gravity);
    assert!(!bubble(&upright).is_carried && !bubble(&upright).are_heights_known);
    let stays: Vec<&str> = upright
        .remains
        .iter()
        .map(|left| left.part.as_str())
        .collect();
    assert_eq!(stays, ["pipe"]);
    let sloping = plan_with(&trailer("8 mm", true), Method::Gravity);
    assert!(bubble(&sloping).is_carried && bubble(&sloping).are_heights_known);
    assert!(sloping.remains.is_empty());
    let tank = plan_with(&trailer("8 mm", false), Method::Pressure);
    assert!(bubble(&tank).is_carried);
}

/// In pipe that is too thin to let it climb a bubble goes with the fluid,
/// whatever the method: pushed volume decides, not speed.
#[test]
fn thin_pipe_gives_up_its_air_by_every_method() {
    for method in [
        Method::Pedal,
        Method::Pressure,
        Method::Vacuum,
        Method::Gravity,
    ] {
        let plan = plan_with(&trailer("5 mm", false), method);
        assert_ne!(bubble(&plan).verdict, Verdict::Climbs);
        assert!(bubble(&plan).is_carried, "{method:?}");
    }
}
