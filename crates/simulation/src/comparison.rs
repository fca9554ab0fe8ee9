//! Two plans side by side: what changes, and why.

use crate::bleed::simulate;
use crate::outcome::Outcome;
use crate::parameters::Parameters;
use crate::scene::{Scene, watch};
use crate::stroke::SimulationError;
use bleedwright_network::Network;
use bleedwright_planner::{Options, Plan, Step, StepScrew};
use std::collections::BTreeMap;
use uom::si::f64::{Ratio, Time, Volume};
use uom::si::ratio::percent;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// A difference smaller than this share changes nothing for anybody.
const SAME_SHARE: f64 = 0.02;

/// One layout under one set of options.
#[derive(Clone, Debug)]
pub struct Side {
    /// What it is called in the comparison.
    pub label: String,
    /// Its plan.
    pub plan: Plan,
    /// What following the plan comes to.
    pub outcome: Outcome,
    /// What every element holds before the first step and after each, if they were watched.
    pub scenes: Vec<Scene>,
    /// The circuits, each with its screws.
    pub circuits: Vec<(String, Vec<String>)>,
}

impl Side {
    /// A plan with its simulated bleed. Scenes are kept only where they are `watched`: their size grows with the square of
    /// the screws.
    ///
    /// # Errors
    ///
    /// As [`crate::simulate`].
    pub fn new(
        label: String,
        network: &Network,
        options: &Options,
        plan: Plan,
        parameters: &Parameters,
        watched: bool,
    ) -> Result<Self, SimulationError> {
        let (outcome, scenes) = if watched {
            watch(network, options, &plan, parameters)?
        } else {
            (simulate(network, options, &plan, parameters)?, Vec::new())
        };
        let circuits = network
            .circuits()
            .map(|(_, circuit)| {
                let mut screws: Vec<String> = circuit
                    .screws
                    .iter()
                    .map(|screw| network.screw(*screw).id.clone())
                    .collect();
                screws.sort();
                (circuit.name.clone(), screws)
            })
            .collect();
        Ok(Self {
            label,
            plan,
            outcome,
            scenes,
            circuits,
        })
    }

    /// The screws in the order of the plan.
    pub fn order(&self) -> Vec<&str> {
        self.screws()
            .map(|(_, screw)| screw.screw.as_str())
            .collect()
    }

    /// Fluid pushed, nominal.
    pub fn pushed(&self) -> Volume {
        let steps = self.plan.steps.iter();
        steps.fold(Volume::default(), |sum, step| sum + step.push.nominal)
    }

    /// Strokes to count to; none where none are counted.
    pub fn strokes(&self) -> Option<u64> {
        let strokes = self.plan.steps.iter().map(Step::strokes);
        strokes
            .map(|strokes| strokes.map(|strokes| strokes.nominal))
            .sum()
    }

    /// How long the steps take.
    pub fn time(&self) -> Time {
        let steps = self.plan.steps.iter();
        steps.fold(Time::default(), |sum, step| sum + step.time.nominal)
    }

    fn screws(&self) -> impl Iterator<Item = (&Step, &StepScrew)> {
        self.plan
            .steps
            .iter()
            .flat_map(|step| step.screws.iter().map(move |screw| (step, screw)))
    }

    /// Every visit by screw and by how often the screw came before.
    fn visits(&self) -> BTreeMap<(&str, usize), &StepScrew> {
        let mut before: BTreeMap<&str, usize> = BTreeMap::new();
        self.screws()
            .map(|(_, screw)| {
                let count = before.entry(&screw.screw).or_default();
                *count += 1;
                ((screw.screw.as_str(), *count), screw)
            })
            .collect()
    }
}

/// What changes from one side to another, in sentences; each says why.
pub fn changes(one: &Side, other: &Side) -> Vec<String> {
    let mut changes = Vec::new();
    circuits(one, other, &mut changes);
    order(one, other, &mut changes);
    amounts(one, other, &mut changes);
    totals(one, other, &mut changes);
    changes
}

fn circuits(one: &Side, other: &Side, changes: &mut Vec<String>) {
    let (split, other_split) = (one.plan.head.split, other.plan.head.split);
    let members = |side: &Side| -> Vec<Vec<String>> {
        let mut members: Vec<Vec<String>> = side
            .circuits
            .iter()
            .map(|(_, screws)| screws.clone())
            .collect();
        members.sort();
        members
    };
    if split == other_split && members(one) == members(other) {
        return;
    }
    let text = |side: &Side| {
        let circuits: Vec<String> = side
            .circuits
            .iter()
            .map(|(name, screws)| format!("{name}: {}", screws.join(", ")))
            .collect();
        circuits.join("; ")
    };
    changes.push(format!(
        "the circuits are others, so other screws share pipes and go together: split {} ({}) \
         against {} ({})",
        split.word(),
        text(one),
        other_split.word(),
        text(other)
    ));
}

fn order(one: &Side, other: &Side, changes: &mut Vec<String>) {
    let (this, that) = (one.order(), other.order());
    let difference = this.iter().zip(&that).position(|(a, b)| a != b);
    let place = match difference {
        Some(place) => place,
        None if this.len() != that.len() => this.len().min(that.len()),
        None => return,
    };
    let why = |side: &Side| {
        side.screws().nth(place).map_or_else(
            || "nothing".to_owned(),
            |(step, screw)| format!("`{}` ({})", screw.screw, step.why_here),
        )
    };
    changes.push(format!(
        "the order parts at place {}: {} against {}",
        place + 1,
        why(one),
        why(other)
    ));
}

/// With whom a screw is opened, or which one of its circuit was opened right before it, where that differs.
fn other_company(one: &Side, other: &Side, screw: &StepScrew) -> Option<String> {
    let names = |screws: Vec<&str>| match screws[..] {
        [] => "nothing".to_owned(),
        _ => format!("`{}`", screws.join("`, `")),
    };
    let differing = |of: &dyn Fn(&Side) -> Vec<String>| {
        let [this, that] = [of(one), of(other)];
        let text = |list: &[String]| names(list.iter().map(String::as_str).collect());
        (this != that).then(|| (text(&this), text(&that)))
    };
    let partners = |side: &Side| -> Vec<String> {
        let step = side.screws().find(|(_, it)| it.screw == screw.screw);
        let beside = step.into_iter().flat_map(|(step, _)| &step.screws);
        let others = beside.filter(|it| it.screw != screw.screw);
        others.map(|it| it.screw.clone()).collect()
    };
    if let Some((this, that)) = differing(&partners) {
        return Some(format!(": opened together with {this} against {that}"));
    }
    let earlier = |side: &Side| -> Vec<String> {
        let before = side
            .screws()
            .map(|(_, it)| it)
            .take_while(|it| it.screw != screw.screw);
        let of_circuit = before.filter(|it| it.circuit == screw.circuit);
        of_circuit
            .last()
            .map(|it| it.screw.clone())
            .into_iter()
            .collect()
    };
    differing(&earlier)
        .map(|(this, that)| format!(": right before it in its circuit {this} against {that}"))
}

fn amounts(one: &Side, other: &Side, changes: &mut Vec<String>) {
    let (visits, twins) = (one.visits(), other.visits());
    for (visit, screw) in &visits {
        let Some(twin) = twins.get(visit) else {
            changes.push(format!("`{}` is opened only in the first", screw.screw));
            continue;
        };
        if is_same(screw.push.nominal, twin.push.nominal) {
            continue;
        }
        let holds = |screw: &StepScrew| {
            screw.contents.shared.nominal
                + screw.contents.own.nominal
                + screw.contents.cavities.nominal
        };
        // The reason that goes the same way as the amount and is the larger.
        let more = twin.push.nominal - screw.push.nominal;
        let explains = |one: Volume, other: Volume| {
            let difference = other - one;
            let is_same_way = (difference.value > 0.0) == (more.value > 0.0);
            if is_same_way && !is_same(one, other) {
                difference.abs()
            } else {
                Volume::default()
            }
        };
        let by_plug = explains(screw.plug, twin.plug);
        let by_contents = explains(holds(screw), holds(twin));
        let why = if by_plug > by_contents {
            format!(
                ": {:.0} ml of its run were not pushed through before, against {:.0} ml",
                screw.plug.get::<milliliter>(),
                twin.plug.get::<milliliter>()
            )
        } else if by_contents > Volume::default() {
            format!(
                ": its run holds {:.0} ml against {:.0} ml",
                holds(screw).get::<milliliter>(),
                holds(twin).get::<milliliter>()
            )
        } else {
            other_company(one, other, screw).unwrap_or_default()
        };
        changes.push(format!(
            "`{}` takes {:.0} ml against {:.0} ml{why}",
            screw.screw,
            screw.push.nominal.get::<milliliter>(),
            twin.push.nominal.get::<milliliter>()
        ));
    }
    for (visit, screw) in &twins {
        if !visits.contains_key(visit) {
            changes.push(format!("`{}` is opened only in the second", screw.screw));
        }
    }
}

fn totals(one: &Side, other: &Side, changes: &mut Vec<String>) {
    let (pushed, twin) = (one.pushed(), other.pushed());
    if pushed > Volume::default() {
        let more: Ratio = (twin - pushed) / pushed;
        changes.push(if is_same(pushed, twin) {
            "in all both push almost the same".to_owned()
        } else {
            format!(
                "in all the second pushes {:.0} % {}",
                more.get::<percent>().abs(),
                if more.value > 0.0 { "more" } else { "less" }
            )
        });
    }
    let (buy, twin) = (one.plan.buy.needed, other.plan.buy.needed);
    if !is_same(buy, twin) {
        changes.push(format!(
            "to buy: {:.0} ml against {:.0} ml, of which pushed at most {:.0} ml and {:.0} ml; the \
             rest fills reservoir and tank, or is spilt",
            buy.get::<milliliter>(),
            twin.get::<milliliter>(),
            at_most(one).get::<milliliter>(),
            at_most(other).get::<milliliter>()
        ));
    }
    let (time, twin) = (one.time(), other.time());
    if (twin - time).abs() > time.abs().max(twin.abs()) * SAME_SHARE {
        changes.push(format!(
            "time at the screws: {:.0} s against {:.0} s",
            time.get::<second>(),
            twin.get::<second>()
        ));
    }
    let (air, twin) = (one.outcome.air_left, other.outcome.air_left);
    if (twin - air).abs() > Volume::new::<milliliter>(0.1) {
        changes.push(format!(
            "air left when simulated: {:.1} ml against {:.1} ml",
            air.get::<milliliter>(),
            twin.get::<milliliter>()
        ));
    }
    let (hands, twin) = (one.plan.hands, other.plan.hands);
    if hands != twin {
        changes.push(format!(
            "people needed: {hands} against {twin}, by the {} and the {} method",
            one.plan.head.method.word(),
            other.plan.head.method.word()
        ));
    }
}

fn at_most(side: &Side) -> Volume {
    let steps = side.plan.steps.iter();
    steps.fold(Volume::default(), |sum, step| sum + step.push.high)
}

fn is_same(one: Volume, other: Volume) -> bool {
    (one - other).abs() <= one.abs().max(other.abs()) * SAME_SHARE
}
