//! What the shut circuit takes up of a stroke, checked by hand, and the hold before the screw is shut.

use crate::demo::{load_demo, plan_demo};
use bleedwright_network::{Bounds, CircuitId, Element, Network};
use bleedwright_planner::{Drive, Options, Plan, Step, line_resistance, liquid, shut_circuits};
use bleedwright_report::plan_markdown;
use uom::si::f64::{ThermodynamicTemperature, Time, Volume};
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::volume::milliliter;

fn circuit(network: &Network, name: &str) -> CircuitId {
    let mut circuits = network.circuits();
    let found = circuits.find(|(_, circuit)| circuit.name == name);
    found.expect("the demo has this circuit").0
}

fn step<'p>(plan: &'p Plan, screw: &str) -> &'p Step {
    let mut steps = plan.steps.iter();
    let found = steps.find(|step| step.screws[0].screw == screw);
    found.expect("the demo has this screw")
}

fn drive(step: &Step) -> (Bounds<f64>, Bounds<f64>, Time) {
    let ml = |volume: Bounds<Volume>| volume.map(|volume| volume.get::<milliliter>());
    match step.drive {
        Drive::Strokes {
            brought,
            taken_up,
            hold,
            ..
        } => (ml(brought), ml(taken_up), hold),
        Drive::Steady { .. } => panic!("a pedal drives this plan"),
    }
}

fn at(degrees: f64) -> Options {
    Options {
        temperature: ThermodynamicTemperature::new::<degree_celsius>(degrees),
        ..Options::default()
    }
}

/// By hand: 15 N on a bore of 23.8 mm are 0.337 bar; two pistons of 54 mm with 0.15 mm of clearance, closed by 0.5 bar, take
/// 0.337 / 0.5 of 0.687 ml at that, and all of it at the 0.67 bar of 30 N. Calipers, hoses and fluid add a hundredth, four at most.
#[test]
fn what_the_front_of_lapwing_takes_up() {
    let network = &load_demo("lapwing");
    let mut shut = shut_circuits(network, &Options::default());
    let taken = shut
        .beside(circuit(network, "secondary"))
        .expect("the primary is shut");
    assert!((taken.pressure.nominal.get::<bar>() - 0.337).abs() < 5e-4);
    let ml = taken.volume.map(|volume| volume.get::<milliliter>());
    assert!(ml.low.abs() < 1e-12, "{ml:?}");
    assert!((0.463..0.473).contains(&ml.nominal), "{ml:?}");
    assert!((0.687..0.73).contains(&ml.high), "{ml:?}");
}

/// Of a single cylinder nothing is shut.
#[test]
fn a_single_cylinder_loses_nothing() {
    let network = &load_demo("avocet");
    let mut shut = shut_circuits(network, &Options::default());
    for (id, data) in network.circuits() {
        let is_alone = network.balance_bar(id).is_none()
            && network.circuits_of_cylinder(data.cylinder).count() == 1;
        assert_eq!(shut.beside(id).is_none(), is_alone, "{}", data.name);
    }
}

/// The firm circuit gave 3.1 ml as the least. By hand, from the block at 44 mm with a lever of 4.2, 5 mm ± 1 mm of play and
/// cut-offs of 1.4 and 1.2 mm ± 0.2 mm: `444.88 mm2 x ((44 - 6) / 4.2 - 1.6 - 1.4) mm = 2.690 ml` less 0.73 ml is the least,
/// `444.88 mm2 x ((44 - 5) / 4.2 - 1.4 - 1.2) mm = 2.974 ml` less 0.47 ml what is to be expected, and
/// `444.88 mm2 x ((44 - 4) / 4.2 - 1.2 - 1.0) mm = 3.258 ml` the most. What is counted to is 2.690 ml less 0.47 ml.
#[test]
fn the_rear_of_lapwing_takes_more_strokes() {
    let plan = plan_demo("lapwing", &Options::default());
    let rear = step(&plan, "rear left");
    let (brought, taken_up, hold) = drive(rear);
    assert!((1.955..2.005).contains(&brought.low), "{brought:?}");
    assert!((2.50..2.515).contains(&brought.nominal), "{brought:?}");
    assert!((brought.high - 3.258).abs() < 1e-3, "{brought:?}");
    assert!(taken_up.low <= taken_up.nominal && taken_up.nominal <= taken_up.high);
    let push_ml = rear.push.nominal.get::<milliliter>();
    let strokes = rear.strokes().expect("a pedal drives it");
    assert_eq!(strokes.expected, (push_ml / brought.nominal).ceil() as u64);
    let counted_ml = 2.690 - taken_up.nominal;
    let counted = push_ml / counted_ml;
    assert!(
        (strokes.nominal as f64 - counted).abs() <= 1.0,
        "{strokes:?}"
    );
    assert!(strokes.nominal > (push_ml / 3.11).ceil() as u64);
    assert!((hold.get::<second>() - 2.0).abs() < 1e-12);
}

/// Cold fluid lets the shut circuit settle more slowly: it is held for longer, and that counts.
#[test]
fn cold_fluid_is_held_for_longer() {
    let warm = plan_demo("lapwing", &at(20.0));
    let cold = plan_demo("lapwing", &at(0.0));
    for (plan, count) in [(&warm, "two"), (&cold, "five")] {
        let said = plan_markdown(plan);
        let wanted = format!("count {count}, then shut");
        assert!(said.contains(&wanted), "{said}");
    }
    let held = |plan: &Plan| drive(&plan.steps[0]).2.get::<second>();
    assert!((held(&warm) - 2.0).abs() < 1e-12 && (held(&cold) - 5.0).abs() < 1e-12);
    // Cold fluid may ask for less of a push, since less diffuses: each stroke is what takes longer.
    let each_s = |plan: &Plan| {
        let strokes = plan.steps[0].strokes().expect("a pedal drives it").nominal;
        plan.steps[0].time.nominal.get::<second>() / strokes as f64
    };
    assert!(each_s(&cold) - each_s(&warm) >= 3.0 - 1e-6);
}

/// By hand, 6.61 m of 3.33 mm at 15.75 mPa s: `128 mu L / (pi D^4)` is 3.4e10 Pa s/m3, and 0.47 ml at 0.337 bar are
/// 1.4e-11 m3/Pa: 0.5 s. The fluid of this layout is a quarter thicker, and a third as fluid at 0 degC.
#[test]
fn how_fast_the_shut_circuit_settles() {
    let network = &load_demo("lapwing");
    let rear = circuit(network, "secondary");
    let plan = plan_demo("lapwing", &Options::default());
    let screw = step(&plan, "rear left").screws[0].id;
    let settles_s = |degrees: f64| {
        let options = at(degrees);
        let liquid = liquid(network, &options).nominal;
        let links = network
            .run(screw)
            .into_iter()
            .filter_map(|element| match element {
                Element::Link(link) => Some(link),
                Element::Cell(_) => None,
            });
        let run = links
            .map(|link| line_resistance(network, link, &liquid))
            .sum();
        let taken = shut_circuits(network, &options).beside(rear);
        taken
            .expect("the primary is shut")
            .settles_in(run)
            .get::<second>()
    };
    let (warm, cold) = (settles_s(20.0), settles_s(0.0));
    assert!((0.45..0.66).contains(&warm), "{warm}");
    assert!((1.2..1.66).contains(&cold), "{cold}");
}
