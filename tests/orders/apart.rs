//! Circuits that do not touch each other.

use crate::demo::plan_of;
use bleedwright_benches::{short_circuits, tee_tree};
use bleedwright_network::{Split, load};
use bleedwright_planner::{Options, Plan, StepScrew};
use std::collections::BTreeMap;

fn plan_text(text: &str) -> Plan {
    plan_of(&load(text.as_bytes()), &Options::default())
}

fn by_name(plan: &Plan) -> BTreeMap<&str, &StepScrew> {
    let screws = plan.steps.iter().flat_map(|step| &step.screws);
    screws.map(|found| (found.screw.as_str(), found)).collect()
}

/// A circuit needs the same to the last digit whether it stands among ten or
/// among hundreds, whose amounts are worked out in two parts.
#[test]
fn a_circuit_needs_the_same_beside_any_number_of_others() {
    let (few, many) = (
        plan_text(&short_circuits(50)),
        plan_text(&short_circuits(1_000)),
    );
    let (few, many) = (by_name(&few), by_name(&many));
    assert_eq!((few.len(), many.len()), (40, 800));
    for (name, alone) in few {
        let among = many[name];
        assert_eq!(alone.push, among.push, "{name}");
        assert_eq!(alone.plug, among.plug, "{name}");
        assert_eq!(alone.old_fraction_out, among.old_fraction_out, "{name}");
        assert_eq!(alone.old_left, among.old_left, "{name}");
    }
}

/// One circuit stays whole however many screws it has: what the first half of
/// its screws pushes through the shared pipes spares every later one a third
/// or more of what the first needs. Worked out apart from the first half, a
/// screw behind fresh pipes would be spared nothing.
#[test]
fn a_large_circuit_is_not_divided() {
    let plan = plan_text(&tee_tree(801));
    let pushes: Vec<_> = plan.steps.iter().map(|step| step.push.nominal).collect();
    assert_eq!(pushes.len(), 401);
    let second_half = &pushes[200..];
    assert!(second_half.iter().all(|push| *push * 1.5 < pushes[0]));
    assert!(plan.other_order.is_some());
}

/// Three brakes without a common pedal are single; a bar that joins two of
/// them makes a split that has no name.
#[test]
fn three_brakes_are_single_until_a_bar_joins_two() {
    let apart = short_circuits(15);
    let with_bar = |cylinders: &str| {
        let bar = format!("balance_bars: [(cylinders: [{cylinders}])],\nparts: [");
        let loaded = load(apart.replace("parts: [", &bar).as_bytes());
        loaded.network.expect("it can be read").split()
    };
    let network = load(apart.as_bytes()).network.expect("it can be read");
    assert_eq!(network.split(), Split::Single);
    assert_eq!(with_bar("\"cylinder 0\", \"cylinder 2\""), Split::Other);
    assert_eq!(with_bar("\"cylinder 1\""), Split::Single);
}
