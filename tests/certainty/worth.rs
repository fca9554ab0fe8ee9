//! What is worth measuring, against planning again with every figure.

use crate::demo::{ALL, load_demo, network_of, plan_of};
use crate::generated::cases;
use bleedwright_network::{Layout, LineKind, Network, PartKind};
use bleedwright_planner::{Dimension, Options, Plan, Purpose, plan, worth_measuring};
use proptest::prelude::*;
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

type Change = Box<dyn Fn(&mut Layout)>;

fn width(plan: &Plan) -> Volume {
    plan.buy.needed - plan.buy.needed_at_least
}

/// A change for every figure of a layout that could matter, each written here
/// once more and without regard to what a plan passes.
fn every_change(layout: &Layout) -> Vec<Change> {
    let mut changes: Vec<Change> = Vec::new();
    for (index, line) in layout.lines.iter().enumerate() {
        if matches!(line.kind, LineKind::Direct) {
            continue;
        }
        changes.push(Box::new(move |layout| {
            if let LineKind::Pipe { length, .. } | LineKind::Hose { length, .. } =
                &mut layout.lines[index].kind
            {
                (length.low, length.high) = (length.nominal, length.nominal);
            }
        }));
        changes.push(Box::new(move |layout| {
            if let LineKind::Pipe { bore, .. } | LineKind::Hose { bore, .. } =
                &mut layout.lines[index].kind
            {
                let nominal = bore.bounds.nominal;
                (bore.bounds.low, bore.bounds.high) = (nominal, nominal);
            }
        }));
    }
    for (index, cylinder) in layout.cylinders.iter().enumerate() {
        for nth in 0..cylinder.chambers.len() {
            changes.push(Box::new(move |layout| {
                let chambers = &mut layout.cylinders[index].chambers;
                let written = chambers[nth].bore;
                for chamber in chambers.iter_mut().filter(|other| other.bore == written) {
                    let nominal = written.nominal;
                    (chamber.bore.low, chamber.bore.high) = (nominal, nominal);
                }
            }));
            changes.push(Box::new(move |layout| {
                let stroke = &mut layout.cylinders[index].chambers[nth].stroke;
                (stroke.low, stroke.high) = (stroke.nominal, stroke.nominal);
            }));
            changes.push(Box::new(move |layout| {
                let cut_off = &mut layout.cylinders[index].chambers[nth].cut_off.bounds;
                (cut_off.low, cut_off.high) = (cut_off.nominal, cut_off.nominal);
            }));
        }
    }
    for (r, reservoir) in layout.reservoirs.iter().enumerate() {
        for c in 0..reservoir.compartments.len() {
            changes.push(Box::new(move |layout| {
                let max = &mut layout.reservoirs[r].compartments[c].max;
                (max.low, max.high) = (max.nominal, max.nominal);
            }));
            changes.push(Box::new(move |layout| {
                let left = &mut layout.reservoirs[r].compartments[c].left_when_drawn_off;
                let nominal = left.bounds.nominal;
                (left.bounds.low, left.bounds.high) = (nominal, nominal);
            }));
        }
    }
    for (index, part) in layout.parts.iter().enumerate() {
        changes.push(Box::new(move |layout| {
            let contents = &mut layout.parts[index].contents.bounds;
            (contents.low, contents.high) = (contents.nominal, contents.nominal);
        }));
        match &part.kind {
            PartKind::Brake(brake) => {
                for (nth, cavity) in brake.cavities.iter().enumerate() {
                    changes.extend(changes_of_cavity(index, nth, cavity.pistons.len()));
                }
            }
            PartKind::AntiLock { circuits, .. } => {
                for nth in 0..circuits.len() {
                    changes.push(Box::new(move |layout| {
                        if let PartKind::AntiLock { circuits, .. } = &mut layout.parts[index].kind {
                            let through = &mut circuits[nth].through;
                            (through.low, through.high) = (through.nominal, through.nominal);
                        }
                    }));
                }
            }
            _ => {}
        }
    }
    changes
}

fn changes_of_cavity(index: usize, nth: usize, pistons: usize) -> Vec<Change> {
    let mut changes: Vec<Change> = vec![Box::new(move |layout| {
        if let PartKind::Brake(brake) = &mut layout.parts[index].kind {
            let dead = &mut brake.cavities[nth].dead_volume.bounds;
            (dead.low, dead.high) = (dead.nominal, dead.nominal);
        }
    })];
    for piston in 0..pistons {
        changes.push(Box::new(move |layout| {
            if let PartKind::Brake(brake) = &mut layout.parts[index].kind {
                let extension = &mut brake.cavities[nth].pistons[piston].extension.bounds;
                let nominal = extension.nominal;
                (extension.low, extension.high) = (nominal, nominal);
            }
        }));
        changes.push(Box::new(move |layout| {
            if let PartKind::Brake(brake) = &mut layout.parts[index].kind {
                let bore = &mut brake.cavities[nth].pistons[piston].bore;
                (bore.low, bore.high) = (bore.nominal, bore.nominal);
            }
        }));
    }
    changes
}

/// The best gains by planning everything again, largest first, in whole
/// nanolitres so that they can be compared.
fn best_gains(network: &Network, options: &Options, before: Volume, most: usize) -> Vec<i64> {
    let gain = |change: &Change| {
        let measured = network.with_values(|layout| change(layout));
        let plan = plan(&measured, options).plan?;
        Some(nanolitres(before - width(&plan)))
    };
    // One bore of two chambers is one measurement, and an exact figure none.
    let text = |layout: &Layout| format!("{layout:?}");
    let written = text(network.layout());
    let mut gains: BTreeMap<String, i64> = BTreeMap::new();
    for change in &every_change(network.layout()) {
        let mut layout = network.layout().clone();
        change(&mut layout);
        let measured = text(&layout);
        if measured != written
            && !gains.contains_key(&measured)
            && let Some(gain) = gain(change)
        {
            gains.insert(measured, gain);
        }
    }
    let mut gains: Vec<i64> = gains.into_values().filter(|gain| *gain > 0).collect();
    gains.sort_unstable_by(|a, b| b.cmp(a));
    gains.truncate(most);
    gains
}

fn nanolitres(volume: Volume) -> i64 {
    (volume.get::<milliliter>() * 1e6).round() as i64
}

fn assert_ranked(name: &str, network: &Network, options: &Options, plan: &Plan) {
    assert!(plan.buy.needed_at_least <= plan.buy.needed, "{name}");
    let most = 5;
    let worth = worth_measuring(network, options, plan, most);
    assert_eq!(worth.width, width(plan), "{name}");
    assert!(worth.left_out.is_none(), "{name}: {:?}", worth.left_out);
    let listed: Vec<i64> = worth
        .measurements
        .iter()
        .map(|measurement| nanolitres(measurement.gain))
        .filter(|gain| *gain > 0)
        .take(most)
        .collect();
    assert_eq!(
        listed,
        best_gains(network, options, width(plan), most),
        "{name}"
    );
}

#[test]
fn the_best_measurements_of_the_demos_are_those_of_planning_again() {
    let with_air = [Purpose::Air, Purpose::Fill].into_iter().cycle();
    for (name, with_air) in ALL.into_iter().zip(with_air) {
        let network = &load_demo(name);
        for purpose in [Purpose::Renew, with_air] {
            let options = Options {
                purpose: Some(purpose),
                depressurised: true,
                ..Options::default()
            };
            assert_ranked(name, network, &options, &plan_of(network, &options));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn the_best_measurements_are_those_of_planning_again(case in cases()) {
        let network = &case.load();
        let figures = every_change(network.layout()).len();
        if figures < 120 && let Some(plan) = plan(network, &case.options).plan {
            assert_ranked("random", network, &case.options, &plan);
        }
    }
}

/// A layout without any range has nothing to narrow.
#[test]
fn exact_figures_leave_nothing_to_measure() {
    let network = &load_demo("lapwing");
    let mut exact = network.clone();
    for change in every_change(network.layout()) {
        exact = exact.with_values(|layout| change(layout));
    }
    let plan = plan(&exact, &Options::default())
        .plan
        .expect("it can be planned");
    let worth = worth_measuring(&exact, &Options::default(), &plan, 5);
    assert_eq!(worth.measurements.len(), 0, "{:?}", worth.measurements);
    // What is left open is the diffusivity, which nobody measures in a car.
    let loose = plan_of(network, &Options::default());
    let loose = worth_measuring(network, &Options::default(), &loose, 1).width;
    assert!(worth.width < loose * 0.5, "{:?} {loose:?}", worth.width);
}

/// What the file marks as a guess is no measurement, though it stands there.
#[test]
fn a_guess_counts_as_assumed() {
    let text = crate::demo::demo_text("lapwing");
    let known = "length: \"4.70 m ± 0.10 m\"";
    assert!(text.contains(known), "the long rear pipe of lapwing");
    let shares = |text: &str| {
        let network = &network_of(text);
        let options = Options::default();
        let plan = plan(network, &options).plan.expect("it can be planned");
        let worth = worth_measuring(network, &options, &plan, 100);
        let pipe = worth
            .measurements
            .iter()
            .find(|it| it.what.what == Dimension::Length && it.what.of == "long rear pipe")
            .expect("its length has a tolerance")
            .clone();
        (plan.spread, pipe)
    };
    let (measured, pipe) = shares(&text);
    assert!(!pipe.is_assumed);
    let (guessed, pipe) = shares(&text.replace(known, "length: \"4.70 m ± 0.10 m?\""));
    assert!(pipe.is_assumed);
    assert_eq!(guessed.total, measured.total);
    let more = (guessed.assumed - measured.assumed).get::<milliliter>();
    // 0.2 m of 3/16 in pipe at its nominal bore, from the pipe's own size.
    let bore_mm: f64 = 4.7625 - 2.0 * 0.7112;
    let wanted = std::f64::consts::FRAC_PI_4 * bore_mm.powi(2) * 200.0 / 1000.0;
    assert!((more - wanted).abs() < 1e-9, "{more} ml, not {wanted}");
}
