//! Two plans side by side: what changes, and why.

use crate::bleed::simulate;
use crate::difference::{Difference, WhyAmount};
use crate::outcome::Outcome;
use crate::parameters::Parameters;
use crate::scene::{Scene, watch};
use crate::stroke::SimulationError;
use bleedwright_network::Network;
use bleedwright_planner::{Options, Plan, Step, StepScrew};
use std::collections::BTreeMap;
use uom::si::f64::{Time, Volume};
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

/// What changes from one side to another; each says why.
pub fn changes(one: &Side, other: &Side) -> Vec<Difference> {
    let mut changes = Vec::new();
    changes.extend(circuits(one, other));
    changes.extend(order(one, other));
    amounts(one, other, &mut changes);
    totals(one, other, &mut changes);
    changes
}

fn circuits(one: &Side, other: &Side) -> Option<Difference> {
    let sides = [one, other];
    let splits = sides.map(|side| side.plan.head.split);
    let [members, others] = sides.map(|side| {
        let screws = side.circuits.iter().map(|(_, screws)| screws);
        let mut members: Vec<&Vec<String>> = screws.collect();
        members.sort();
        members
    });
    let is_same = splits[0] == splits[1] && members == others;
    (!is_same).then(|| Difference::Circuits {
        splits,
        circuits: sides.map(|side| side.circuits.clone()),
    })
}

fn order(one: &Side, other: &Side) -> Option<Difference> {
    let (this, that) = (one.order(), other.order());
    let place = match this.iter().zip(&that).position(|(a, b)| a != b) {
        Some(place) => place,
        None if this.len() != that.len() => this.len().min(that.len()),
        None => return None,
    };
    let there = [one, other].map(|side| {
        let (step, screw) = side.screws().nth(place)?;
        Some((screw.screw.clone(), step.why_here.clone()))
    });
    Some(Difference::Order {
        place: place + 1,
        there,
    })
}

/// With whom a screw is opened, or which one of its circuit was opened right before it, where that differs.
fn other_company(one: &Side, other: &Side, screw: &StepScrew) -> Option<WhyAmount> {
    let sides = [one, other];
    let partners = sides.map(|side| -> Vec<String> {
        let step = side.screws().find(|(_, it)| it.screw == screw.screw);
        let beside = step.into_iter().flat_map(|(step, _)| &step.screws);
        let others = beside.filter(|it| it.screw != screw.screw);
        others.map(|it| it.screw.clone()).collect()
    });
    if partners[0] != partners[1] {
        return Some(WhyAmount::Together(partners));
    }
    let earlier = sides.map(|side| -> Option<String> {
        let screws = side.screws().map(|(_, it)| it);
        let before = screws.take_while(|it| it.screw != screw.screw);
        let of_circuit = before.filter(|it| it.circuit == screw.circuit);
        of_circuit.last().map(|it| it.screw.clone())
    });
    (earlier[0] != earlier[1]).then_some(WhyAmount::RightBefore(earlier))
}

fn amounts(one: &Side, other: &Side, changes: &mut Vec<Difference>) {
    let (visits, twins) = (one.visits(), other.visits());
    let only_in = |screw: &StepScrew, is_first| Difference::OnlyIn {
        screw: screw.screw.clone(),
        is_first,
    };
    for (visit, screw) in &visits {
        let Some(twin) = twins.get(visit) else {
            changes.push(only_in(screw, true));
            continue;
        };
        if is_same(screw.push.nominal, twin.push.nominal) {
            continue;
        }
        let holds = |screw: &StepScrew| {
            let contents = &screw.contents;
            contents.shared.nominal + contents.own.nominal + contents.cavities.nominal
        };
        // The reason that goes the same way as the amount and is the larger.
        let more = twin.push.nominal - screw.push.nominal;
        let explains = |[one, other]: [Volume; 2]| {
            let difference = other - one;
            let is_same_way = (difference.value > 0.0) == (more.value > 0.0);
            if is_same_way && !is_same(one, other) {
                difference.abs()
            } else {
                Volume::default()
            }
        };
        let plugs = [screw.plug, twin.plug];
        let contents = [holds(screw), holds(twin)];
        let (by_plug, by_contents) = (explains(plugs), explains(contents));
        let why = if by_plug > by_contents {
            Some(WhyAmount::NotPushedBefore(plugs))
        } else if by_contents > Volume::default() {
            Some(WhyAmount::RunHolds(contents))
        } else {
            other_company(one, other, screw)
        };
        changes.push(Difference::Amount {
            screw: screw.screw.clone(),
            pushes: [screw.push.nominal, twin.push.nominal],
            why,
        });
    }
    let new = twins
        .iter()
        .filter(|(visit, _)| !visits.contains_key(*visit));
    changes.extend(new.map(|(_, screw)| only_in(screw, false)));
}

fn totals(one: &Side, other: &Side, changes: &mut Vec<Difference>) {
    let sides = [one, other];
    let [pushed, twin] = sides.map(Side::pushed);
    if pushed > Volume::default() {
        changes.push(if is_same(pushed, twin) {
            Difference::PushedTheSame
        } else {
            Difference::Pushed((twin - pushed) / pushed)
        });
    }
    let needed = sides.map(|side| side.plan.buy.needed);
    if !is_same(needed[0], needed[1]) {
        changes.push(Difference::Buy {
            needed,
            pushed: sides.map(at_most),
        });
    }
    let times = sides.map(Side::time);
    let [time, twin] = times;
    if (twin - time).abs() > time.abs().max(twin.abs()) * SAME_SHARE {
        changes.push(Difference::Time(times));
    }
    let air = sides.map(|side| side.outcome.air_left);
    if (air[1] - air[0]).abs() > Volume::new::<milliliter>(0.1) {
        changes.push(Difference::AirLeft(air));
    }
    let hands = sides.map(|side| side.plan.hands);
    if hands[0] != hands[1] {
        changes.push(Difference::Hands {
            hands,
            methods: sides.map(|side| side.plan.head.method),
        });
    }
}

fn at_most(side: &Side) -> Volume {
    let steps = side.plan.steps.iter();
    steps.fold(Volume::default(), |sum, step| sum + step.push.high)
}

fn is_same(one: Volume, other: Volume) -> bool {
    (one - other).abs() <= one.abs().max(other.abs()) * SAME_SHARE
}
