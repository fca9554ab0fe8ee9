//! What earlier screws, diffusion and dead corners do to a plan of renewal.

use crate::asked::by;
use crate::demo::{load_demo, network_of, plan_of};
use bleedwright_hydraulics::{Tank, Tube, Washout};
use bleedwright_network::{Bounds, Network};
use bleedwright_planner::{JointRule, Method, Options, Plan, StepScrew};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

fn screws(plan: &Plan) -> impl Iterator<Item = &StepScrew> {
    plan.steps.iter().flat_map(|step| &step.screws)
}

fn screw<'p>(plan: &'p Plan, name: &str) -> &'p StepScrew {
    screws(plan)
        .find(|screw| screw.screw == name)
        .expect("the demo has this screw")
}

fn ml(volume: Volume) -> f64 {
    volume.get::<milliliter>()
}

/// One screw and nothing with a tolerance.
fn one_run(left_when_drawn_off: &str, brake: &str, length: &str) -> Network {
    let text = format!(
        "(format: 1, name: \"One\", fluid: dot4,
        reservoirs: [(id: \"pot\", compartments: [(id: \"all\", max: \"500 ml\",
            left_when_drawn_off: \"{left_when_drawn_off}\", feeds: \"master\")])],
        cylinders: [(id: \"master\", kind: single(bore: \"20 mm\", stroke: \"20 mm\", cut_off: \"0 mm\"))],
        parts: [(id: \"brake\", kind: caliper(pistons: [(bore: \"20 mm\", extension: \"0 mm\")],
            dead_volume: \"{brake}\"), wheel: rear_left, screws: [(id: \"far\", at_top: true)])],
        lines: [(id: \"pipe\", from: \"master\", to: \"brake\",
            kind: pipe(bore: \"3.3 mm\", length: \"{length}\"))])",
    );
    network_of(&text)
}

/// By streamlines alone the second rear screw of the Lapwing got 20.9 ml; the
/// slow fluid of the shared wall, mixed at the tee, asks for 25.6 ml before
/// anything diffuses. By a tank hardly anything does.
#[test]
fn a_second_screw_gets_what_mixing_at_the_tee_asks_for() {
    let options = by(Method::Pressure);
    let plan = plan_of(&load_demo("lapwing"), &options);
    let second = screw(&plan, "rear right");
    assert_eq!(second.joints, Some(JointRule::Mixed));
    let push = ml(second.push.nominal);
    assert!((24.0..29.0).contains(&push), "{push}");
    let first = screw(&plan, "rear left");
    assert_eq!(first.joints, Some(JointRule::Kept));
}

/// With the pedal the fluid stays long enough to diffuse: the push grows, by
/// less than a quarter, and what stays is less than without.
#[test]
fn the_pedal_diffuses_more_than_a_tank() {
    let lapwing = load_demo("lapwing");
    let of = |method| {
        let options = by(method);
        plan_of(&lapwing, &options)
    };
    let (pedal, tank) = (of(Method::Pedal), of(Method::Pressure));
    let [by_pedal, by_tank] = [&pedal, &tank].map(|plan| screw(plan, "rear left"));
    let ratio_of = ml(by_pedal.push.nominal) / ml(by_tank.push.nominal);
    assert!((1.05..1.25).contains(&ratio_of), "{ratio_of}");
    let left = |screw: &StepScrew| screw.old_left.expect("renewal tells what stays").nominal;
    assert!(left(by_pedal) < left(by_tank));
}

/// One screw, nothing with a tolerance: what stays on the whole run at most is
/// the film on the wall without diffusion and a brake with dead corners.
#[test]
fn what_stays_counts_chamber_and_brake() {
    let network = one_run("0 ml", "15 ml", "5 m");
    let plan = plan_of(&network, &Options::default());
    let far = screw(&plan, "far");
    let pushed = far.push.nominal;
    let pipe = Volume::new::<milliliter>(std::f64::consts::FRAC_PI_4 * 3.3 * 3.3 * 5.0);
    let chamber = Volume::new::<milliliter>(std::f64::consts::FRAC_PI_4 * 4.0 * 2.0);
    let brake = Volume::new::<milliliter>(15.0);
    let tank = |volume| Tank::full_of_old(volume).expect("finite");
    let run = Washout::new(
        Tube::fresh(pipe).expect("finite"),
        vec![tank(chamber), tank(brake)],
        Ratio::default(),
    )
    .expect("finite");
    let fractions = run.old_fractions_after(pushed);
    let film = ml(pipe) * ml(pipe) / (4.0 * ml(pushed));
    let in_brake = 15.0 * (0.3 + 0.7 * fractions[1].get::<ratio>());
    let old = film + in_brake + ml(chamber) * fractions[0].get::<ratio>();
    let all = ml(pipe) + ml(chamber) + 15.0;
    let left = far.old_left.expect("renewal tells what stays");
    let high = left.high.get::<ratio>();
    assert!((high - old / all).abs() < 1e-3, "{high} {}", old / all);
    assert!(
        left.low < left.nominal && left.nominal < left.high,
        "{left:?}"
    );
}

/// Every demo: bounds in order, and the push never lower than its low bound.
#[test]
fn what_stays_has_bounds_in_order() {
    for name in ["lapwing", "redshank", "ruff", "godwit", "avocet", "dunlin"] {
        let plan = plan_of(&load_demo(name), &Options::default());
        for screw in screws(&plan) {
            let Some(Bounds { low, nominal, high }) = screw.old_left else {
                continue;
            };
            let is_ordered = low <= nominal && nominal <= high && high.get::<ratio>() <= 1.0;
            assert!(is_ordered, "{name} {}: {:?}", screw.screw, screw.old_left);
            let push = screw.push;
            assert!(push.low <= push.nominal && push.nominal <= push.high);
        }
    }
}

/// A rinse takes fluid itself: of the numbers that keep the wanted old share at
/// the worst corner the one is taken with which least is bought.
#[test]
fn no_rinse_that_takes_more_than_it_saves() {
    for name in [
        "lapwing", "redshank", "ruff", "godwit", "avocet", "dunlin", "plover",
    ] {
        let network = load_demo(name);
        let plan = plan_of(&network, &Options::default());
        assert!(plan.reservoir_old < Options::default().residual, "{name}");
        for rinsing in &plan.rinsing {
            let chosen = rinsing
                .choices
                .iter()
                .find(|choice| choice.rinses == rinsing.rinses)
                .expect("the chosen number was weighed");
            assert!(rinsing.choices.len() > 1, "{rinsing:?}");
            for other in &rinsing.choices {
                assert!(chosen.takes <= other.takes, "{rinsing:?}");
            }
        }
    }
}

/// 13 of 500 ml stay: more than half of the residual, so that a rinse of 40 ml
/// was poured where the one short run saves less by it.
#[test]
fn a_short_run_is_not_worth_a_rinse() {
    let plan = plan_of(&one_run("13 ml", "3 ml", "1 m"), &Options::default());
    let [rinsing] = &plan.rinsing[..] else {
        panic!("one compartment: {:?}", plan.rinsing)
    };
    assert_eq!(rinsing.rinses, 0, "{rinsing:?}");
    let [none, one] = &rinsing.choices[..] else {
        panic!("both numbers are told: {rinsing:?}")
    };
    let saved = ml(none.takes) - (ml(one.takes) - 40.0);
    assert!((0.5..40.0).contains(&saved), "{saved}");
}
