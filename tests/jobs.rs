//! Jobs of their own: long standing, a clutch alone, a trailer with an overrun coupler.

use crate::asked::opening;
use crate::command_line::{printed, run_with_input};
use crate::demo::{ALL, load_demo, load_file, plan_demo, plan_of, text_of_file};
use bleedwright_inspection::record::Entry;
use bleedwright_network::Control;
use bleedwright_planner::{Calls, Change, Check, Options, Plan, usual_stroke};
use bleedwright_report::{plan_markdown, record_of};
use std::collections::BTreeMap;
use uom::si::f64::Length;
use uom::si::ratio::ratio;

const KNOT: &str = "tests/layouts/knot.ron";

fn laid_up() -> Options {
    Options {
        is_laid_up: true,
        stroke: usual_stroke(true),
        ..Options::default()
    }
}

/// How far the block lets each screw's pedal go.
fn travels(plan: &Plan) -> BTreeMap<&str, Length> {
    let steps = plan.steps.iter();
    let each = steps.flat_map(|step| {
        let travel = step.pedal_travel();
        let screws = step.screws.iter();
        screws.filter_map(move |screw| Some((screw.screw.as_str(), travel?)))
    });
    each.collect()
}

/// A stroke that is half as long moves less of the bore, and the same fluid leaves by more of them.
#[test]
fn strokes_after_long_standing_are_short() {
    assert!((usual_stroke(true) / usual_stroke(false)).get::<ratio>() <= 0.5);
    for name in ALL {
        let [usual, short] = [Options::default(), laid_up()].map(|it| plan_demo(name, &it));
        let travels_of_usual = travels(&usual);
        for (screw, travel) in travels(&short) {
            if let Some(usual) = travels_of_usual.get(screw) {
                assert!(travel < *usual, "{name}: {screw}");
            }
        }
        let strokes = [usual, short].map(|plan| {
            let steps = plan.steps.into_iter();
            let each = steps.filter_map(|step| Some(step.strokes()?.nominal));
            each.sum::<u64>()
        });
        assert!(strokes[0] < strokes[1], "{name}: {strokes:?}");
    }
}

/// What nobody asked to be short is not.
#[test]
fn a_stroke_asked_for_wins() {
    let head = |options: &str| {
        let sheet = printed(&format!("plan layouts/lapwing.ron --why {options}"));
        sheet.replace("\n ", "")
    };
    assert!(head("--laid-up").contains("30 % of the stroke"));
    assert!(head("--laid-up --stroke '50 %'").contains("50 % of the stroke"));
}

/// The second renewal is open until somebody says that it is booked.
#[test]
fn long_standing_leaves_a_task() {
    let network = &load_demo("lapwing");
    let tasks = |options: &Options| {
        let record = record_of(network, &plan_of(network, options), options);
        record
            .tasks
            .into_iter()
            .map(|task| task.name)
            .collect::<Vec<_>>()
    };
    let booked = "book the second renewal of the fluid".to_owned();
    assert!(tasks(&laid_up()).contains(&booked));
    assert!(!tasks(&Options::default()).contains(&booked));
}

/// Nothing on it asks for a brake that was not touched; its block is away before it is pressed.
#[test]
fn a_clutch_alone_has_its_own_end() {
    let options = opening(&["clutch slave"]);
    let plan = plan_demo("ruff", &options);
    let checks = &plan.checks_after;
    for check in checks {
        let is_of_brakes = matches!(
            check,
            Check::BrakesTogether { .. }
                | Check::PumpedFirm { .. }
                | Check::HeldLightly(_)
                | Check::HardPress { .. }
                | Check::Booster(_)
                | Check::BrakeLamp { .. }
                | Check::WheelsFree(_)
                | Check::ParkingBrake(_)
                | Check::RoadTest { .. }
        );
        assert!(!is_of_brakes, "{check:?}");
    }
    let at = |is_it: fn(&Check) -> bool| checks.iter().position(is_it).expect("it is there");
    let away = at(|check| matches!(check.undoes(), Some(Change::PedalBlock(_))));
    let level = at(|check| matches!(check, Check::Level { .. }));
    let held = at(|check| matches!(check, Check::ClutchHeld { .. }));
    let capped = at(|check| matches!(check.undoes(), Some(Change::CapsOff)));
    let works = at(|check| matches!(check, Check::Clutch(_)));
    let order = [away, level, held, capped, works];
    assert!(order.is_sorted(), "{order:?}");
    assert_eq!(checks.last(), Some(&Check::ClutchDriven));
}

/// Its coupler is no pedal anywhere: in the calls, the stop, the record and the verb `pedal`.
#[test]
fn a_coupler_is_pushed_in() {
    let network = load_file(KNOT);
    let plan = plan_of(&network, &Options::default());
    let Calls::Strokes { controls, .. } = &plan.calls else {
        panic!("{:?}", plan.calls);
    };
    assert_eq!(controls, &[Control::Coupler]);
    let said = plan_markdown(&plan);
    for called in [
        "slowly in to the stop, \"in\"",
        "slowly out in 3 s, \"out\"",
    ] {
        assert!(said.contains(called), "{said}");
    }
    let record = record_of(&network, &plan, &Options::default());
    let [control] = record.controls.as_slice() else {
        panic!("one control: {:?}", record.controls);
    };
    assert_eq!(control.name, "coupler");
    assert_eq!(control.kind, Entry::Found(Control::Coupler));
    let said = printed(&format!("pedal {KNOT}"));
    for wanted in ["COUPLER: Knot", "PUSHED IN", "shaft and drawbar flex"] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    for unwanted in ["UNDER THE FOOT", "570.55", "bulkhead"] {
        assert!(!said.contains(unwanted), "{unwanted}: {said}");
    }
}

/// Its lock-out works again only after the press that it would keep from the wheels.
#[test]
fn a_coupler_is_locked_again_after_the_press() {
    let plan = plan_of(&load_file(KNOT), &Options::default());
    let checks = &plan.checks_after;
    let press = checks.iter().position(Check::is_hard_press);
    let undone = |change: &Change| checks.iter().position(|it| it.undoes() == Some(change));
    let locked = undone(&Change::ReverseLockSet("coupler cylinder".to_owned()));
    let unblocked = undone(&Change::PedalBlock(vec!["coupler cylinder".to_owned()]));
    assert!(unblocked.is_some() && unblocked < press && press < locked);
}

/// From one end to the other nothing is refused; the word that a workshop has for it is understood.
#[test]
fn a_trailer_goes_through_every_verb() {
    let text = text_of_file(KNOT);
    for verb in ["check", "plan", "volumes", "pedal", "simulate", "draw"] {
        let run = run_with_input(&format!("{verb} -"), text.as_bytes());
        assert_eq!(run.code, Some(0), "{verb}: {}", run.stderr);
    }
    let wrong = text.replace("control: coupler,", "control: overrun,");
    let run = run_with_input("check -", wrong.as_bytes());
    assert_eq!(run.code, Some(3));
    let said = format!("{}{}", run.stdout, run.stderr);
    assert!(said.contains("coupler"), "{said}");
}
