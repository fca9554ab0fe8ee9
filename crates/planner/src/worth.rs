//! What is worth measuring: by how much one figure, measured, would narrow the
//! fluid to buy, and which measurements would settle the order.

use crate::amount::KnownPushes;
use crate::build::fluid_to_buy_knowing;
use crate::figure::{LayoutFigure, figures_of};
use crate::options::Options;
use crate::plan::{Measurement, Plan, TooMuch, Worth};
use crate::spread::elements_of_runs;
use crate::threads::{WORTH_A_THREAD, both};
use bleedwright_network::{CircuitId, Network, ScrewId};
use std::collections::BTreeSet;
use uom::si::f64::Volume;

/// So many amounts of single screws are worked out at most: every uncertain
/// figure asks for the amounts of all screws again.
pub const MOST_WORK: usize = 20_000;

/// So many lines and parts are passed at most while these are worked out, and
/// while the network is built again for every figure: runs can be long.
pub const MOST_PASSED: usize = 400_000;

/// The `most` measurements that would narrow the fluid to buy most, found by
/// planning again with each uncertain figure at its nominal value, and those
/// that settle an uncertain pair of the order by themselves.
///
/// `plan` is the plan of this network with these options.
pub fn worth_measuring(network: &Network, options: &Options, plan: &Plan, most: usize) -> Worth {
    let width = plan.buy.needed - plan.buy.needed_at_least;
    let figures = uncertain_figures(network, plan);
    let visits: usize = plan.steps.iter().map(|step| step.screws.len()).sum();
    let amounts = figures.len().saturating_mul(visits.max(1));
    let passed = figures.len().saturating_mul(passed_for_one(network, plan));
    let is_too_much = amounts > MOST_WORK || passed > MOST_PASSED;
    let settling = |figure: LayoutFigure| -> Vec<[String; 2]> {
        let LayoutFigure::LineLength(line) = figure else {
            return Vec::new();
        };
        let line = &network.layout().lines[line].id;
        let is_settled = |measure: &[String]| measure.len() == 1 && measure[0] == *line;
        plan.order_certainty
            .uncertain
            .iter()
            .filter(|pair| is_settled(&pair.measure))
            .map(|pair| [pair.first.clone(), pair.then.clone()])
            .collect()
    };
    let measured = |figure: &LayoutFigure, known: &KnownPushes| {
        let measured = network.with_values(|layout| figure.measure(layout));
        let [least, needed] = fluid_to_buy_knowing(&measured, options, known)?;
        Some(Measurement {
            what: figure.what(network),
            is_assumed: figure.known(network.layout()).is_assumed,
            gain: width - (needed - least),
            settles: settling(*figure),
        })
    };
    let all = |figures: &[LayoutFigure]| -> Vec<Measurement> {
        let known = KnownPushes::default();
        let measured = |figure| measured(figure, &known);
        figures.iter().filter_map(measured).collect()
    };
    let looked_at = if is_too_much { &[] } else { &figures[..] };
    let (first, second) = looked_at.split_at(looked_at.len() / 2);
    let (mut measurements, rest) = both(
        looked_at.len() * visits >= WORTH_A_THREAD,
        || all(first),
        || all(second),
    );
    measurements.extend(rest);
    measurements.sort_by(|a, b| {
        let better = b.gain.value.total_cmp(&a.gain.value);
        better.then_with(|| a.what.cmp(&b.what))
    });
    let mut place = 0;
    measurements.retain(|measurement| {
        place += 1;
        let is_top = place <= most && measurement.gain > Volume::default();
        is_top || !measurement.settles.is_empty()
    });
    Worth {
        width,
        measurements,
        left_out: is_too_much.then_some(TooMuch {
            figures: figures.len(),
            visits,
            is_by_amounts: amounts > MOST_WORK,
        }),
    }
}

/// The lines and parts that one figure costs: the network, and every run.
fn passed_for_one(network: &Network, plan: &Plan) -> usize {
    let screws = plan.steps.iter().flat_map(|step| &step.screws);
    let run = |screw: ScrewId| 2 * network.depth(network.screw_place(screw).cell) as usize;
    let runs: usize = screws.map(|screw| run(screw.id)).sum();
    network.all_cells().count() + network.all_links().count() + runs
}

/// The figures that an amount of the plan may rest on and that are not exact.
fn uncertain_figures(network: &Network, plan: &Plan) -> Vec<LayoutFigure> {
    let screws = plan.steps.iter().flat_map(|step| &step.screws);
    // What was done earlier still shapes what is left.
    let done = plan.head.done.iter();
    let done = done.filter_map(|name| network.find_screw(name));
    let ids: Vec<ScrewId> = screws.clone().map(|screw| screw.id).chain(done).collect();
    let mut figures: BTreeSet<LayoutFigure> = BTreeSet::new();
    for element in elements_of_runs(network, ids) {
        figures_of(network, element, |figure, _| {
            figures.insert(figure);
        });
    }
    let circuits: BTreeSet<CircuitId> = screws.map(|screw| screw.circuit_id).collect();
    for circuit in circuits {
        let data = network.circuit(circuit);
        figures.insert(LayoutFigure::CutOff(data.cylinder, data.chamber_index));
        if let Some((r, c)) = data.compartment {
            figures.extend([
                LayoutFigure::Maximum(r, c),
                LayoutFigure::Minimum(r, c),
                LayoutFigure::LeftWhenDrawnOff(r, c),
                LayoutFigure::FeedHose(r, c),
            ]);
        }
    }
    figures.retain(|figure| figure.known(network.layout()).is_uncertain);
    without_twins(network, &figures)
}

/// One bore is written for both chambers of a cylinder that is not stepped.
fn without_twins(network: &Network, figures: &BTreeSet<LayoutFigure>) -> Vec<LayoutFigure> {
    let bore = |index: usize, nth: usize| network.layout().cylinders[index].chambers[nth].bore;
    let is_twin = |figure: &LayoutFigure| match figure {
        LayoutFigure::ChamberBore(index, nth) => (0..*nth).any(|before| {
            figures.contains(&LayoutFigure::ChamberBore(*index, before))
                && bore(*index, before) == bore(*index, *nth)
        }),
        _ => false,
    };
    figures
        .iter()
        .copied()
        .filter(|figure| !is_twin(figure))
        .collect()
}
