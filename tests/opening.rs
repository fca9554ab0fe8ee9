//! What opening means, on demo vehicles and by hand.

use crate::command_line::{document, printed, unwrapped};
use crate::demo::{demo_text, load_demo, network_of, plan_demo, plan_of};
use bleedwright_planner::{
    AtLeast, Before, Change, Check, LeastFrom, Method, Options, Plan, Purpose, plan,
};
use bleedwright_simulation::{Parameters, simulate};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

fn opened(what: &str) -> Options {
    Options {
        opened: vec![what.to_owned()],
        depressurised: true,
        ..Options::default()
    }
}

fn ml(volume: Volume) -> f64 {
    volume.get::<milliliter>()
}

fn least<'p>(plan: &'p Plan, screw: &str) -> Option<&'p AtLeast> {
    let mut screws = plan.steps.iter().flat_map(|step| &step.screws);
    screws
        .find(|found| found.screw == screw)
        .and_then(|screw| screw.at_least.as_ref())
}

/// Beyond the unit: 4.60 m of 4.75 mm pipe with a 0.70 mm wall, 0.35 m of
/// 3.2 mm hose, a 38 mm piston out by 5 mm and 1.5 ml: 40.5 + 2.8 + 7.2 ml at
/// nominal sizes. The unit's own screw, opened first, swept the way to it.
#[test]
fn the_long_pipe_behind_an_opened_unit_is_pushed_through() {
    let plan = plan_demo("godwit", &opened("anti-lock unit"));
    let least = least(&plan, "rear left").expect("its pipe was undone at the unit");
    assert!(
        (50.5..65.0).contains(&ml(least.volume)),
        "{} ml",
        ml(least.volume)
    );
    assert_eq!(least.joint.opened, "anti-lock unit");
    assert_eq!(least.joint.line, "rear left pipe");
    assert_eq!(least.joint.at, "anti-lock unit.rear left");
    assert_eq!(least.from, LeastFrom::Joint);
    let step = (plan.steps.iter())
        .find(|step| step.screws[0].screw == "rear left")
        .expect("it has its step");
    assert!(step.stop_rule.at_least >= least.volume);
    assert!(step.push.low >= least.volume);
    assert!(step.stop_rule.give_up >= step.push.high);
}

/// Beyond the tee: 8.2 ml of line and 11 ml of caliper at nominal sizes, of which
/// 12 ml were pushed.
#[test]
fn the_second_branch_of_an_opened_tee_is_pushed_through() {
    let plan = plan_demo("lapwing", &opened("front tee"));
    let least = least(&plan, "front right").expect("its line was undone at the tee");
    assert!(
        (19.0..35.0).contains(&ml(least.volume)),
        "{} ml",
        ml(least.volume)
    );
    assert_eq!(least.joint.at, "front tee");
}

/// Renewal with something opened asks for no less, and the reverse method for all
/// of the way up.
#[test]
fn the_least_holds_for_every_purpose_and_method() {
    let air = plan_demo("godwit", &opened("anti-lock unit"));
    let renewed = plan_demo(
        "godwit",
        &Options {
            purpose: Some(Purpose::Renew),
            ..opened("anti-lock unit")
        },
    );
    let both = [&air, &renewed].map(|plan| least(plan, "rear left").map(|it| ml(it.volume)));
    assert_eq!(both[0], both[1]);
    let up = plan_demo(
        "godwit",
        &Options {
            method: Method::Reverse,
            ..opened("anti-lock unit")
        },
    );
    let up = least(&up, "rear left").expect("its run was opened");
    assert_eq!(up.from, LeastFrom::Screw);
    assert!(ml(up.volume) > both[0].expect("as above") + 10.0);
}

/// A new unit that came filled leaves its own passages full, a dry one does not;
/// both were undone at every nut.
#[test]
fn a_new_unit_is_filled_or_dry() {
    let with = |replaced: &str| Options {
        replaced: vec![replaced.to_owned()],
        ..Options::default()
    };
    let plans = ["anti-lock unit=filled", "anti-lock unit=dry"]
        .map(|replaced| plan_demo("godwit", &with(replaced)));
    let pushed = plans.each_ref().map(|plan| {
        plan.steps
            .iter()
            .map(|step| ml(step.push.nominal))
            .sum::<f64>()
    });
    assert!(pushed[0] <= pushed[1], "{pushed:?}");
    let volumes = plans
        .each_ref()
        .map(|plan| least(plan, "rear left").map(|it| ml(it.volume)));
    assert_eq!(volumes[0], volumes[1]);
    let kept = plans.each_ref().map(|plan| {
        plan.units()
            .map(|unit| unit.kept.word())
            .collect::<Vec<_>>()
    });
    assert_eq!(kept, [["air or old fluid"], ["air"]]);
    let network = load_demo("godwit");
    for wrong in [
        "anti-lock unit",
        "anti-lock unit=full",
        "front left hose=dry",
    ] {
        let planned = plan(&network, &with(wrong));
        assert!(planned.plan.is_none(), "{wrong}");
        let errors = planned.findings.iter().filter(|it| it.is_error());
        let codes: Vec<&str> = errors.map(|it| it.code.text()).collect();
        assert_eq!(codes, ["BW417"], "{wrong}");
    }
    let both = Options {
        replaced: ["anti-lock unit=filled", "anti-lock unit=dry"]
            .map(str::to_owned)
            .to_vec(),
        ..Options::default()
    };
    let planned = plan(&network, &both);
    assert!(planned.plan.is_none());
    assert!(planned.findings.iter().any(|it| it.code.text() == "BW417"));
}

/// What a layout says of the passages does not finish a new dry unit: its
/// routine is run, and nobody drives before.
#[test]
fn a_new_dry_unit_is_not_finished_whatever_its_passages_hold() {
    let text = demo_text("godwit");
    let mut without = String::new();
    for (nth, part) in text.split("trapped: \"").enumerate() {
        let rest = part.split_once('"').map_or("", |(_, rest)| rest);
        without.push_str(&match nth {
            0 => part.to_owned(),
            _ => format!("trapped: \"0 ml\"{rest}"),
        });
    }
    assert_ne!(text, without);
    let network = network_of(&without);
    let of = |replaced: &str| {
        let options = Options {
            replaced: vec![replaced.to_owned()],
            ..Options::default()
        };
        plan_of(&network, &options)
    };
    let dry = of("anti-lock unit=dry");
    assert_eq!(dry.units().count(), 1);
    assert!(dry.units().all(|unit| unit.kept.word() == "air"));
    let mut checks = dry.checks_after.iter();
    assert!(checks.any(|check| matches!(check, Check::BleedAgain(_))));
    assert_eq!(of("anti-lock unit=filled").units().count(), 0);
    // Nor does it where air may have come into a unit whose maker has a routine.
    let opened = plan_of(&network, &opened("anti-lock unit"));
    assert!(opened.units().any(|unit| unit.kept.may_be_air()));
}

/// A plug in a line that leads on from the joint keeps nothing full.
#[test]
fn a_plug_beyond_the_joint_keeps_nothing_full() {
    let network = load_demo("lapwing");
    let codes = |plugged: &str| -> Vec<&str> {
        let options = Options {
            plugged: vec![plugged.to_owned()],
            ..opened("front tee")
        };
        let findings = plan(&network, &options).findings;
        findings.iter().map(|it| it.code.text()).collect()
    };
    assert!(codes("front left pipe").contains(&"BW419"));
    assert!(!codes("front pipe").contains(&"BW419"));
}

/// Plugs and a propped pedal stand among the preparations and are undone before
/// the hard press.
#[test]
fn what_kept_a_line_full_is_taken_away() {
    let plan = plan_demo(
        "lapwing",
        &Options {
            plugged: vec!["front left hose".to_owned()],
            propped: true,
            ..opened("front left caliper")
        },
    );
    for change in [
        Change::Plug("front left hose".to_owned()),
        Change::Propped(vec!["master".to_owned()]),
    ] {
        let mut made = plan.preparations.iter().filter_map(Before::change);
        assert!(made.any(|made| made == change), "{change:?}");
        let checks = &plan.checks_after;
        let undone = (checks.iter()).position(|check| check.undoes() == Some(&change));
        let pressed = checks.iter().position(Check::is_hard_press);
        assert!(undone.is_some() && undone < pressed, "{change:?}");
    }
}

/// Air stands behind the outlets at the start, and following the plan leaves none.
#[test]
fn an_opened_unit_starts_with_air_behind_its_outlets() {
    let network = &load_demo("godwit");
    let options = opened("anti-lock unit");
    let plan = plan(network, &options).plan.expect("it can be planned");
    let parameters = Parameters::default();
    let outcome = simulate(network, &options, &plan, &parameters).expect("it can be followed");
    assert!(
        outcome
            .pockets
            .iter()
            .any(|pocket| pocket.line == "rear left pipe")
    );
    assert_eq!(outcome.pockets.len(), 6, "{:?}", outcome.pockets);
    assert!(
        ml(outcome.air_at_start) > 6.0 * 0.5,
        "{} ml",
        ml(outcome.air_at_start)
    );
    assert!(ml(outcome.air_left) < 0.1, "{:?}", outcome.air_left_in);
    // Less than the plan asks for leaves air: the check can fail.
    let mut short = plan.clone();
    for step in &mut short.steps {
        if let bleedwright_planner::Drive::Strokes { strokes, .. } = &mut step.drive {
            strokes.nominal = 3;
        }
        step.stop_rule.give_up = Volume::new::<milliliter>(11.0);
    }
    let outcome = simulate(network, &options, &short, &parameters).expect("it can be followed");
    assert!(ml(outcome.air_left) > 0.5, "{} ml", ml(outcome.air_left));
}

#[test]
fn documents_and_sheets_name_the_joint() {
    let plan = "plan layouts/godwit.ron --opened 'anti-lock unit'";
    let document = document(&format!("{plan} --format json"));
    let steps = document["steps"].as_array().expect("a list");
    let screws = steps.iter().map(|step| &step["screws"][0]);
    let screw = screws
        .into_iter()
        .find(|screw| screw["screw"] == "rear left")
        .expect("it has its step");
    assert!(screw["at_least_ml"].as_f64().expect("a number") > 50.0);
    assert_eq!(screw["at_least_joint"]["line"], "rear left pipe");
    assert_eq!(screw["at_least_joint"]["from"], "joint");
    for format in ["text --why", "markdown"] {
        let sheet = unwrapped(&printed(&format!("{plan} --format {format}")));
        let said = sheet.replace(['`', '\\'], "");
        assert!(
            said.contains("the joint of rear left pipe at anti-lock unit.rear left was open"),
            "{format}: {said}"
        );
    }
}

#[test]
fn a_card_says_the_least_too() {
    let card = printed("plan layouts/godwit.ron --opened 'anti-lock unit' --format html");
    assert_eq!(
        card.matches("Push at least ").count(),
        12,
        "six screws, in either bleed"
    );
}

#[test]
fn a_comparison_for_air_can_have_air_in_it() {
    let call = "compare layouts/lapwing.ron --for fill --format json";
    let with = "--with '--for fill --begin nearest'";
    let by_gravity = |more: &str| -> f64 {
        let document = document(&format!("{call} {with} {more}"));
        let air = &document["sides"][0]["air_by_gravity_ml"];
        air.as_f64().expect("a number")
    };
    assert!(by_gravity("") > 10.0, "one screw of four fills by gravity");
    assert!(by_gravity("--without-gravity").abs() < 1e-9);
}
