//! Heights: what a plan says of high points and of brakes above their fluid.

use crate::demo::{load_demo, network_of, plan_demo, plan_file, text_of_file};
use bleedwright_network::Code;
use bleedwright_planner::{
    Assumed, Before, Calls, Change, Made, Method, Options, Plan, Purpose, StepHeight, plan,
};
use bleedwright_report::plan_markdown;
use uom::si::length::millimeter;
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

fn options(method: Method, purpose: Option<Purpose>, opened: &[&str]) -> Options {
    Options {
        method,
        purpose,
        opened: opened.iter().map(|&name| name.to_owned()).collect(),
        ..Options::default()
    }
}

fn unions(plan: &Plan) -> Vec<&str> {
    let loosened = plan.preparations.iter().filter_map(|before| match before {
        Before::Made(Made::UnionsLoosened(names)) => Some(names),
        _ => None,
    });
    loosened.flatten().map(String::as_str).collect()
}

/// The hump of the Lapwing's rear way is made by its parts and a point of the line before: no line alone has it.
#[test]
fn a_hump_in_full_thin_lines_is_a_reason_and_no_finding() {
    let plan = plan_demo("lapwing", &Options::default());
    assert!(plan.findings.iter().all(|it| it.code != Code::HighPoint));
    let over: Vec<(&str, f64)> = (plan.steps.iter().flat_map(|step| &step.heights))
        .filter_map(|height| match height {
            StepHeight::Over(high) => Some((
                high.name.as_str(),
                high.rise.nominal.get::<millimeter>().round(),
            )),
            StepHeight::Above(_) => None,
        })
        .collect();
    assert_eq!(
        over,
        [("axle hose bracket", 80.0), ("front left bracket", 70.0)]
    );
    assert!(plan_markdown(&plan).contains("its way rises 80 mm at"));
    assert!(unions(&plan).is_empty());
}

#[test]
fn a_union_at_a_hump_may_be_loosened_first_and_is_torqued_again() {
    let options = options(Method::Pedal, None, &["axle tee"]);
    let plan = plan_demo("lapwing", &options);
    assert!(plan.findings.iter().any(|it| it.code == Code::HighPoint));
    assert_eq!(unions(&plan), ["axle hose bracket"]);
    let undone = plan.checks_after.iter().filter_map(|check| check.undoes());
    assert!(
        undone
            .into_iter()
            .any(|change| matches!(change, Change::UnionLoosened(_)))
    );
}

/// A pump may wake behind the anti-lock unit, and no pedal is pressed by a tank.
#[test]
fn no_union_is_loosened_where_that_can_hurt() {
    let brackets = &["front left bracket", "rear right bracket"];
    let plan = plan_demo("godwit", &options(Method::Pedal, None, brackets));
    assert!(plan.findings.iter().any(|it| it.code == Code::HighPoint));
    assert!(unions(&plan).is_empty());
    let by_tank = options(Method::Pressure, None, &["axle tee"]);
    assert!(unions(&plan_demo("lapwing", &by_tank)).is_empty());
}

#[test]
fn a_full_line_runs_by_gravity_over_a_hump() {
    let network = load_demo("lapwing");
    let renew = options(Method::Gravity, Some(Purpose::Renew), &[]);
    assert!(plan(&network, &renew).plan.is_some());
    let fill = options(Method::Gravity, Some(Purpose::Fill), &[]);
    let refused = plan(&network, &fill);
    assert!(refused.plan.is_none());
    assert!(
        refused
            .findings
            .iter()
            .any(|it| it.code == Code::DoesNotRun)
    );
}

/// Only what runs downhill all the way fills by gravity before the pedal; the sheet says what that needs.
#[test]
fn gravity_first_asks_for_the_pedal_up_and_the_cap_vented() {
    let network = load_demo("lapwing");
    let fill = options(Method::Pedal, Some(Purpose::Fill), &[]);
    let plan = plan(&network, &fill).plan.expect("it can be planned");
    let first = plan.gravity_first.iter();
    let first: Vec<&str> = first
        .map(|screw| network.screw(*screw).id.as_str())
        .collect();
    assert_eq!(first, ["front right"]);
    assert!(plan_markdown(&plan).contains("pedal right up, cap vented"));
}

/// 0.15 m of DOT 4 of about 1050 kg/m3 weigh 0.0154 bar.
#[test]
fn a_screw_above_its_reservoir_is_opened_only_under_pressure() {
    let file = "tests/layouts/broken/brake_above_its_reservoir.ron";
    let plan = plan_file(file, &Options::default());
    let may_draw_air = |plan: &Plan| {
        matches!(
            plan.calls,
            Calls::Strokes {
                may_draw_air: true,
                ..
            }
        )
    };
    assert!(may_draw_air(&plan));
    assert!(plan_markdown(&plan).contains("pedal: pressed lightly, held"));
    let StepHeight::Above(above) = &plan.steps[0].heights[0] else {
        panic!("{:?}", plan.steps[0].heights);
    };
    assert!(above.may_draw_air);
    assert!((above.head.nominal.get::<bar>() - 0.0154).abs() < 0.0006);
    assert!(plan_markdown(&plan).contains("left open it may draw air"));
    // Fed from above nothing is drawn in, and the calls are the usual ones.
    let file = "tests/layouts/broken/brake_above_its_cylinder.ron";
    let plan = plan_file(file, &Options::default());
    assert!(!may_draw_air(&plan));
    assert!(plan_markdown(&plan).contains("air rises to here and not to the cylinder"));
}

/// A syringe brings 0.5 bar; the head of 0.78 m takes 0.08 bar of it, so that 0.40 bar is passed and 0.45 bar is not.
#[test]
fn pushed_back_a_residual_valve_opens_above_its_setting_and_the_head() {
    let text = text_of_file("tests/layouts/broken/residual_valve_beyond_the_syringe.ron");
    let reverse = options(Method::Reverse, None, &[]);
    for (holds, runs) in [("0.40 bar", true), ("0.45 bar", false)] {
        let network = &network_of(&text.replace("0.45 bar", holds));
        assert_eq!(plan(network, &reverse).plan.is_some(), runs, "{holds}");
    }
}

/// Heights that are missing are named where they would decide.
#[test]
fn missing_heights_that_decide_are_named() {
    let text = text_of_file("tests/layouts/broken/brake_above_its_reservoir.ron");
    let text = text
        .replace("height: \"0.30 m\",", "")
        .replace("height: \"0.25 m\",", "");
    let text = text.replace("height: \"0.42 m\",", "");
    let network = &network_of(&text);
    let plan = plan(network, &Options::default())
        .plan
        .expect("it can be planned");
    let named = plan
        .assumptions
        .iter()
        .find(|it| it.what == Assumed::NoneAbove);
    assert_eq!(
        named.map(|it| it.of.join(", ")),
        Some("left caliper, reservoir".to_owned())
    );
}

/// A joint above its fluid lets the line run back to that level: 0.5 m of 3/16 in pipe, 8.76 mm2, are 4.38 ml. A residual
/// valve in the same place holds them.
#[test]
fn a_line_above_its_fluid_runs_back_unless_a_residual_valve_holds_it() {
    let text = text_of_file("tests/layouts/broken/brake_above_its_reservoir.ron");
    let pushed = |corner: &str| {
        let text = text
            .replace(
                "(id: \"tee\", kind: tee, height: \"0.25 m\"),",
                &format!(
                    "(id: \"tee\", kind: tee, height: \"0.41 m\"),
                     (id: \"corner\", kind: {corner}, height: \"0.40 m\"),"
                ),
            )
            .replace(
                "to: \"tee\", kind: pipe(size: \"3/16 in\", length: \"0.8 m\")),",
                "to: \"corner\", kind: pipe(size: \"3/16 in\", length: \"0.8 m\")),
                 (id: \"next pipe\", from: \"corner\", to: \"tee\",
                  kind: pipe(size: \"3/16 in\", length: \"0.5 m\")),",
            );
        let network = &network_of(&text);
        let opened = options(Method::Pedal, None, &["right caliper"]);
        let plan = plan(network, &opened).plan.expect("it can be planned");
        let screw = (plan.steps.iter().flat_map(|step| &step.screws))
            .find(|screw| screw.screw == "right")
            .expect("it was opened");
        screw.plug.get::<milliliter>()
    };
    let run_back = pushed("block") - pushed("residual(holds: \"0.14 bar\")");
    assert!((run_back - 4.38).abs() < 0.01, "{run_back}");
}

/// Nobody says how high the fluid of a low cylinder stands: no flow by gravity is made up.
#[test]
fn gravity_needs_the_height_of_the_fluid() {
    let text = text_of_file("tests/layouts/broken/brake_above_its_cylinder.ron");
    let start = text.find("(id: \"reservoir\"").expect("it has one");
    let cut = text[start..].find("height: ").expect("it has a height") + start;
    let end = text[cut..].find(',').expect("more follows") + cut + 1;
    let without = format!("{}{}", &text[..cut], &text[end..]);
    let network = &network_of(&without);
    let planned = plan(network, &options(Method::Gravity, None, &[]));
    assert!(planned.plan.is_none());
    assert!(
        planned
            .findings
            .iter()
            .any(|it| it.code == Code::DoesNotRun)
    );
}
