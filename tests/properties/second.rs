//! The bleed after the routine of anti-lock units: where it is planned, what lies on its way, and that it is bought.

use super::opening::{Triple, contents_ml};
use crate::asked::{opening, with_purpose};
use crate::demo::{ALL, load_demo};
use crate::generated::cases;
use bleedwright_network::{CellId, CircuitId, Element, Network, Owner, PartKind, ScrewId};
use bleedwright_planner::{Kept, Method, Options, Plan, Purpose, Step, Use, plan};
use proptest::prelude::*;
use std::collections::{BTreeSet, HashSet};
use uom::si::volume::milliliter;

/// The passage of one of these units on a run: its place there, and the least that stands behind its valves.
fn passage(network: &Network, units: &BTreeSet<&str>, run: &[Element]) -> Option<(usize, f64)> {
    let layout = network.layout();
    let trapped_ml = |element: &Element| {
        let Element::Cell(cell) = element else {
            return None;
        };
        let Owner::Part(index, nth) = network.cell(*cell).owner else {
            return None;
        };
        let part = &layout.parts[index];
        match &part.kind {
            PartKind::AntiLock { circuits, .. } if units.contains(part.id.as_str()) => {
                Some(circuits[nth].trapped.low.get::<milliliter>())
            }
            _ => None,
        }
    };
    let places = run.iter().enumerate();
    let mut places = places.filter_map(|(place, element)| Some((place, trapped_ml(element)?)));
    places.next_back()
}

fn circuit(network: &Network, screw: ScrewId) -> CircuitId {
    network
        .screw_place(screw)
        .circuit
        .expect("a circuit reaches it")
}

/// The top screws behind these units on the circuits of the job.
fn wanted(network: &Network, units: &BTreeSet<&str>, plan: &Plan) -> BTreeSet<ScrewId> {
    let first = || plan.steps.iter().flat_map(|step| &step.screws);
    let circuits: BTreeSet<CircuitId> = first().map(|screw| screw.circuit_id).collect();
    let is_top = |screw: ScrewId| {
        let cell: CellId = network.screw_place(screw).cell;
        network.top_screw(network.screws_on(cell)) == Some(screw)
    };
    (network.screws())
        .map(|(id, _)| id)
        .filter(|id| network.screw_place(*id).circuit.is_some() && is_top(*id))
        .filter(|id| circuits.contains(&circuit(network, *id)))
        .filter(|id| passage(network, units, &network.run(*id)).is_some())
        .collect()
}

fn pushed_ml<'p>(steps: impl Iterator<Item = &'p Step>) -> [f64; 2] {
    steps.fold([0.0; 2], |[low, high], step| {
        let push = step.push.map(|push| push.get::<milliliter>());
        [low + push.low, high + push.high]
    })
}

/// What must hold of any plan.
fn check(network: &Network, plan: &Plan) -> Result<(), TestCaseError> {
    let airy = plan.units().filter(|unit| unit.kept != Kept::OldFluid);
    let airy: BTreeSet<&str> = airy.map(|unit| unit.part.as_str()).collect();
    let wanted = wanted(network, &airy, plan);
    let steps: &[Step] = plan.second.as_ref().map_or(&[], |second| &second.steps);
    let screws = steps.iter().flat_map(|step| &step.screws);
    let opened: BTreeSet<ScrewId> = screws.map(|screw| screw.id).collect();
    prop_assert!(opened.is_superset(&wanted), "{opened:?}, wanted {wanted:?}");
    prop_assert_eq!(plan.second.is_some(), !steps.is_empty());
    if let Some(second) = &plan.second {
        let units: BTreeSet<&str> = second.units.iter().map(String::as_str).collect();
        prop_assert_eq!(&units, &airy);
        let last = plan.steps.last().expect("the first bleed has a step");
        prop_assert_eq!(second.steps[0].number, last.number + 1);
        let first = &second.steps[0];
        let is_emptied = first.jars.iter().any(|jar| jar.is_emptied);
        prop_assert!(is_emptied || first.jar_mark_ml > last.jar_mark_ml);
    }
    let mut swept: HashSet<Element> = HashSet::new();
    for step in steps {
        let mut sum_ml = 0.0;
        for screw in &step.screws {
            let run = network.run(screw.id);
            let behind = passage(network, &airy, &run);
            let Some((place, trapped_ml)) = behind else {
                return Err(TestCaseError::fail(format!(
                    "`{}` lies behind no unit",
                    screw.screw
                )));
            };
            super::assert_ordered(&screw.screw, &screw.push)?;
            let unswept = run[place..].iter().filter(|it| !swept.contains(*it));
            let between_ml: f64 = unswept.map(|it| contents_ml(network, *it)).sum();
            let low_ml = screw.push.low.get::<milliliter>();
            let least_ml = between_ml + trapped_ml;
            prop_assert!(
                low_ml >= least_ml - 1e-9,
                "`{}`: {low_ml} of {least_ml}",
                screw.screw
            );
            sum_ml += least_ml;
        }
        for screw in &step.screws {
            swept.extend(network.run(screw.id));
        }
        prop_assert!(step.stop_rule.at_least.get::<milliliter>() >= sum_ml - 1e-9);
        prop_assert!(step.strokes().is_some() == (plan.head.method == Method::Pedal));
    }
    let buy = &plan.buy;
    let [low_ml, high_ml] = pushed_ml(plan.all_steps());
    let bought_ml = buy.needed.get::<milliliter>();
    prop_assert!(bought_ml >= high_ml - 1e-9, "{bought_ml} of {high_ml}");
    prop_assert!(buy.needed_at_least.get::<milliliter>() >= low_ml - 1e-9);
    let named = buy.parts.iter().find(|(what, _)| *what == Use::SecondBleed);
    let named_ml = named.map_or(0.0, |(_, volume)| volume.get::<milliliter>());
    prop_assert!((named_ml - pushed_ml(steps.iter())[1]).abs() < 1e-9);
    // What nobody has to do is named, and is not in the sum.
    let keeps_old = plan.units().any(|unit| unit.kept == Kept::OldFluid);
    prop_assert!(buy.if_routine.is_none() || keeps_old);
    Ok(())
}

#[test]
fn every_demo_is_bled_again_where_its_unit_may_keep_air() {
    let (mut with, mut without, mut optional) = (0, 0, 0);
    for name in ALL {
        let network = &load_demo(name);
        let layout = network.layout();
        let opened = layout.parts.iter().map(|part| Options {
            opened: vec![part.id.clone()],
            ..Options::default()
        });
        let cylinders = layout.cylinders.iter().map(|cylinder| Options {
            opened: vec![cylinder.id.clone()],
            ..Options::default()
        });
        let done = network.screws().take(1).map(|(id, _)| Options {
            purpose: Some(Purpose::Fill),
            done: vec![network.screw(id).id.clone()],
            ..Options::default()
        });
        let purposes = [Purpose::Renew, Purpose::Air, Purpose::Fill].map(with_purpose);
        for options in opened.chain(cylinders).chain(done).chain(purposes) {
            for method in [Method::Pedal, Method::Pressure, Method::Reverse] {
                let options = Options {
                    method,
                    ..options.clone()
                };
                let Some(plan) = plan(network, &options).plan else {
                    continue;
                };
                if let Err(error) = check(network, &plan) {
                    panic!("{name} {options:#?}: {error}");
                }
                with += usize::from(plan.second.is_some());
                without += usize::from(plan.second.is_none());
                optional += usize::from(plan.buy.if_routine.is_some());
            }
        }
    }
    assert!(
        with > 5 && without > 5 && optional > 2,
        "{with} {without} {optional}"
    );
}

/// Who opened the unit bleeds all of it again; who renewed the fluid is only told what it would take.
#[test]
fn a_renewal_names_what_the_routine_would_take_and_counts_it_not() {
    let network = &load_demo("godwit");
    let renewed = plan(network, &Options::default()).plan.expect("it plans");
    assert!(renewed.second.is_none());
    let more = renewed.buy.if_routine.expect("the unit keeps old fluid");
    let opened = opening(&["anti-lock unit"]);
    let opened = plan(network, &opened).plan.expect("it plans");
    let again = opened
        .second
        .as_ref()
        .expect("the unit keeps air")
        .push()
        .high;
    assert!(more >= again, "{more:?} {again:?}");
    let counted = renewed.buy.parts.iter();
    assert!(counted.clone().all(|(what, _)| *what != Use::SecondBleed));
    let counted = counted.map(|(_, volume)| volume.get::<milliliter>());
    let counted_ml: f64 = counted.sum();
    assert!((counted_ml - renewed.buy.needed.get::<milliliter>()).abs() < 1e-9);
}

proptest! {
    #![proptest_config(super::config())]

    #[test]
    fn a_unit_that_may_keep_air_is_bled_again(case in cases()) {
        let Triple { what, network, options, plan } = Triple::draw(&case);
        if let Err(error) = check(&network, &plan) {
            return Err(TestCaseError::fail(format!("{error}\n{options:#?}\n{what}")));
        }
        let network = &case.load();
        let plan = super::plan_of(network, &case)?;
        // Options of a case may leave screws out.
        if case.options.skip.is_empty() {
            check(network, &plan)?;
        }
    }
}
