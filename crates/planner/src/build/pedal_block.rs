//! The blocks under pedals and levers, and what a stroke to them brings.

use super::Builder;
use crate::amount::KnownPushes;
use crate::order::Visit;
use crate::plan::{Block, PedalBlock, Step};
use crate::scope::circuit_of;
use crate::stroke::Stroke;
use crate::travel::{pistons, travel};
use bleedwright_mechanism::{ShutCircuits, TakeUp};
use bleedwright_network::{CircuitId, Network, Works};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;

/// One pedal has one block, unless that costs more than this many times the
/// strokes that blocks of their own take in all.
///
/// ASSUMPTION: a tenth more.
const MOST_STROKES: f64 = 1.1;

/// A block that is safe at every corner is of no use where it allows less than
/// this share of the travel that is likely wanted.
///
/// ASSUMPTION: a half.
const LEAST_SHARE_OF_WANTED: f64 = 0.5;

/// The pedal or lever that works a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Pedal {
    OfCylinder(usize),
    /// That of the cylinders under one balance bar.
    OfBalanceBar(usize),
}

impl Pedal {
    pub(crate) fn of(network: &Network, circuit: CircuitId) -> Self {
        match network.balance_bar(circuit) {
            Some(bar) => Self::OfBalanceBar(bar),
            None => Self::OfCylinder(network.circuit(circuit).cylinder),
        }
    }

    pub(crate) fn cylinders(self, network: &Network) -> Vec<String> {
        match self {
            Self::OfCylinder(cylinder) => vec![network.layout().cylinders[cylinder].id.clone()],
            Self::OfBalanceBar(bar) => network.layout().balance_bars[bar].cylinders.clone(),
        }
    }
}

/// The circuits that are open at once, sorted: one, or both of a balance bar.
type Open = Vec<CircuitId>;

/// The block for some open circuits.
#[derive(Clone, Debug)]
struct Blocked {
    block: Block,
    strokes: Vec<(CircuitId, Stroke)>,
}

impl Blocked {
    /// The block at the largest whole millimetre at which no piston goes beyond
    /// the share, at any corner of the tolerances.
    fn own(network: &Network, open: &[CircuitId], share: Ratio, shut: &Shut) -> Self {
        let wanted = travel(network, open, share);
        let mm = (wanted.low.get::<millimeter>() + 1e-9).floor();
        let safe = Length::new::<millimeter>(mm);
        let is_enough = safe >= wanted.nominal * LEAST_SHARE_OF_WANTED;
        Some(Self::at(network, open, safe, shut))
            .filter(|blocked| is_enough && blocked.moves_fluid())
            .unwrap_or_else(|| Self::at_firm_pedal(network, open, share, shut))
    }

    fn at(network: &Network, open: &[CircuitId], travel: Length, shut: &Shut) -> Self {
        let pistons = pistons(network, open, travel);
        Self {
            block: Block::At(travel),
            strokes: open
                .iter()
                .zip(pistons)
                .map(|(circuit, piston)| {
                    let taken_up = taken_up(shut, open, *circuit);
                    (*circuit, Stroke::new(network, *circuit, piston, taken_up))
                })
                .collect(),
        }
    }

    /// ASSUMPTION: the block that is set by a pedal that was firm before the
    /// work lets the piston go the share that was asked for.
    fn at_firm_pedal(network: &Network, open: &[CircuitId], share: Ratio, shut: &Shut) -> Self {
        let stroke = |circuit: &CircuitId| {
            let taken_up = taken_up(shut, open, *circuit);
            Stroke::of_share(network, *circuit, share, taken_up)
        };
        Self {
            block: Block::FirmPedal,
            strokes: open
                .iter()
                .map(|circuit| (*circuit, stroke(circuit)))
                .collect(),
        }
    }

    fn moves_fluid(&self) -> bool {
        self.strokes.iter().all(|(_, stroke)| stroke.moves_fluid())
    }

    fn stroke(&self, circuit: CircuitId) -> Option<&Stroke> {
        let of_circuit = |(other, _): &&(CircuitId, Stroke)| *other == circuit;
        self.strokes
            .iter()
            .find(of_circuit)
            .map(|(_, stroke)| stroke)
    }

    /// How many times as many strokes this block takes as the other one.
    fn strokes_against(&self, other: &Self) -> Ratio {
        let each = self.strokes.iter().zip(&other.strokes);
        each.map(|((_, own), (_, other))| other.counted() / own.counted())
            .fold(Ratio::default(), Ratio::max)
    }
}

/// What shut circuits take up of a stroke, by the circuit that is bled.
type Shut = BTreeMap<CircuitId, TakeUp>;

/// What is taken up while these circuits are open; nothing where both of a bar are.
fn taken_up(shut: &Shut, open: &[CircuitId], circuit: CircuitId) -> Option<TakeUp> {
    match open {
        [_] => shut.get(&circuit).copied(),
        _ => None,
    }
}

/// The blocks of a job, and the strokes that they allow.
#[derive(Clone, Debug, Default)]
pub(super) struct Blocks {
    blocked: BTreeMap<Open, Blocked>,
    shut: Shut,
}

impl Blocks {
    /// Each with a block of its own, whatever else its pedal is used for.
    pub(super) fn own(
        network: &Network,
        circuits: &BTreeSet<CircuitId>,
        share: Ratio,
        mut beside: ShutCircuits<'_>,
    ) -> Self {
        let shut: Shut = (circuits.iter())
            .filter_map(|circuit| Some((*circuit, beside.beside(*circuit)?)))
            .collect();
        let pair = |circuit: &CircuitId| {
            let partner = network.bar_partner(*circuit)?;
            circuits
                .contains(&partner)
                .then(|| sorted(vec![*circuit, partner]))
        };
        let alone = circuits.iter().map(|circuit| vec![*circuit]);
        let all: BTreeSet<Open> = alone.chain(circuits.iter().filter_map(pair)).collect();
        let blocked = all.into_iter().map(|open| {
            let blocked = Blocked::own(network, &open, share, &shut);
            (open, blocked)
        });
        let blocked = blocked.collect();
        Self { blocked, shut }
    }

    fn of(&self, open: &[CircuitId]) -> &Blocked {
        self.blocked
            .get(&sorted(open.to_vec()))
            .expect("every circuit in scope has a block, alone and with its partner")
    }

    /// Where the pedal stops while these circuits are open.
    pub(super) fn block(&self, open: &[CircuitId]) -> Block {
        self.of(open).block
    }

    /// What a stroke of one of these open circuits brings.
    pub(super) fn stroke(&self, open: &[CircuitId], circuit: CircuitId) -> &Stroke {
        self.of(open)
            .stroke(circuit)
            .expect("it is one of the open circuits")
    }
}

fn sorted(mut open: Open) -> Open {
    open.sort_unstable();
    open
}

impl Builder<'_, '_> {
    /// Gives each pedal one block for the whole job where that costs little.
    pub(super) fn settle_blocks(&mut self, known: &KnownPushes) {
        if !self.is_by_strokes() {
            return;
        }
        let network = self.network();
        let share = self.request.options.stroke;
        let visits = self.visits(&self.ordered.order);
        let mut weights: Option<BTreeMap<Open, Ratio>> = None;
        for (pedal, used) in self.opened_by_pedal(&visits) {
            if used
                .iter()
                .any(|open| self.blocks.block(open) == Block::FirmPedal)
            {
                let Blocks { blocked, shut } = &mut self.blocks;
                let all =
                    (blocked.iter_mut()).filter(|(open, _)| Pedal::of(network, open[0]) == pedal);
                for (open, blocked) in all {
                    *blocked = Blocked::at_firm_pedal(network, open, share, shut);
                }
                continue;
            }
            let travels = used
                .iter()
                .filter_map(|open| match self.blocks.block(open) {
                    Block::At(travel) => Some(travel),
                    Block::FirmPedal => None,
                });
            let Some(shortest) = travels.reduce(Length::min) else {
                continue;
            };
            let shared: Vec<(&Open, Blocked)> = used
                .iter()
                .map(|open| {
                    (
                        open,
                        Blocked::at(network, open, shortest, &self.blocks.shut),
                    )
                })
                .collect();
            let most = Ratio::new::<ratio>(MOST_STROKES);
            let times =
                |(open, blocked): &(&Open, Blocked)| blocked.strokes_against(self.blocks.of(open));
            if !shared.iter().all(|(_, blocked)| blocked.moves_fluid()) {
                continue;
            }
            if shared.iter().any(|blocked| times(blocked) > most) {
                let weights = weights.get_or_insert_with(|| self.strokes_wanted(&visits, known));
                let wanted = |open: &Open| weights.get(open).copied().unwrap_or_default();
                let own: Ratio =
                    (used.iter()).fold(Ratio::default(), |sum, open| sum + wanted(open));
                let all = (shared.iter()).fold(Ratio::default(), |sum, blocked| {
                    sum + wanted(blocked.0) * times(blocked)
                });
                if all > own * most {
                    continue;
                }
            }
            let shared: Vec<(Open, Blocked)> = shared
                .into_iter()
                .map(|(open, blocked)| (open.clone(), blocked))
                .collect();
            self.blocks.blocked.extend(shared);
        }
    }

    /// What is opened at once, by the pedal that drives it.
    fn opened_by_pedal(&self, visits: &[Visit]) -> BTreeMap<Pedal, BTreeSet<Open>> {
        let network = self.network();
        let mut used: BTreeMap<Pedal, BTreeSet<Open>> = BTreeMap::new();
        for visit in visits {
            let due = visit.screws.iter();
            let due = due.filter(|screw| !self.request.done.contains(screw));
            let open: Open = due.map(|screw| circuit_of(network, *screw)).collect();
            if let Some(first) = open.first() {
                let pedal = Pedal::of(network, *first);
                used.entry(pedal).or_default().insert(sorted(open));
            }
        }
        used
    }

    /// The strokes for everything that is opened, each with its own block.
    fn strokes_wanted(&self, visits: &[Visit], known: &KnownPushes) -> BTreeMap<Open, Ratio> {
        let mut wanted: BTreeMap<Open, Ratio> = BTreeMap::new();
        // What cannot be planned needs no block.
        let Ok(nominal) = self.nominal(self.amounts(known).pushes_only(), visits) else {
            return wanted;
        };
        for screws in nominal.due() {
            let open = sorted(screws.iter().map(|screw| screw.circuit).collect());
            let strokes = screws.iter().map(|screw| {
                let stroke = self.blocks.stroke(&open, screw.circuit);
                screw.amount.push.nominal / stroke.counted()
            });
            if let Some(strokes) = strokes.reduce(Ratio::max) {
                *wanted.entry(open).or_default() += strokes;
            }
        }
        wanted
    }

    /// The block of each pedal in use, with the screws that want it.
    pub(super) fn pedal_blocks(&self, steps: &[Step]) -> Vec<PedalBlock> {
        let network = self.network();
        let mut blocks: BTreeMap<Pedal, PedalBlock> = BTreeMap::new();
        for step in steps {
            let Some(block) = step.block() else {
                continue;
            };
            let circuit = step.screws[0].circuit_id;
            let pedal = Pedal::of(network, circuit);
            let of_pedal = blocks.entry(pedal).or_insert_with(|| PedalBlock {
                cylinders: pedal.cylinders(network),
                control: network.cylinder_of(circuit).control,
                is_clutch: network.circuit(circuit).purpose == Works::Clutch,
                moves_two: network.balance_bar(circuit).is_some()
                    || network.cylinder_of(circuit).chambers.len() > 1,
                stops: Vec::new(),
            });
            let screws = step.screws.iter().map(|screw| screw.screw.clone());
            let screws: Vec<String> = screws.collect();
            match of_pedal.stops.iter_mut().find(|stop| stop.0 == block) {
                Some((_, wanting)) => wanting.push(screws),
                None => of_pedal.stops.push((block, vec![screws])),
            }
        }
        let mut blocks: Vec<PedalBlock> = blocks.into_values().collect();
        blocks.sort_by(|a, b| a.cylinders.cmp(&b.cylinders));
        blocks
    }
}
