//! The blocks under pedals and levers.

use super::Builder;
use crate::plan::Step;
use crate::sheet::PedalBlock;
use bleedwright_network::{CircuitId, Network, Purpose};
use std::collections::BTreeMap;

/// The pedal or lever that works a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Pedal {
    /// That of one cylinder.
    OfCylinder(usize),
    /// That of the cylinders under one balance bar.
    OfBalanceBar(usize),
}

impl Pedal {
    pub(super) fn of(network: &Network, circuit: CircuitId) -> Self {
        match network.balance_bar(circuit) {
            Some(bar) => Self::OfBalanceBar(bar),
            None => Self::OfCylinder(network.circuit(circuit).cylinder),
        }
    }

    /// Its cylinders, by name.
    fn cylinders(self, network: &Network) -> String {
        match self {
            Self::OfCylinder(cylinder) => network.layout().cylinders[cylinder].id.clone(),
            Self::OfBalanceBar(bar) => network.layout().balance_bars[bar].cylinders.join(" + "),
        }
    }
}

impl Builder<'_, '_> {
    /// The block of each pedal in use, where its first step wants it.
    pub(super) fn pedal_blocks(&self, steps: &[Step]) -> Vec<PedalBlock> {
        let network = self.network();
        let mut blocks: BTreeMap<Pedal, PedalBlock> = BTreeMap::new();
        for step in steps {
            let Some(travel) = step.pedal_travel() else {
                continue;
            };
            let circuit = step.screws[0].circuit_id;
            let pedal = Pedal::of(network, circuit);
            blocks.entry(pedal).or_insert_with(|| PedalBlock {
                cylinders: pedal.cylinders(network),
                control: network.cylinder_of(circuit).control,
                is_clutch: network.circuit(circuit).purpose == Purpose::Clutch,
                travel,
            });
        }
        let mut blocks: Vec<PedalBlock> = blocks.into_values().collect();
        blocks.sort_by(|a, b| a.cylinders.cmp(&b.cylinders));
        blocks
    }
}
