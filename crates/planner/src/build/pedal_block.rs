//! The blocks under pedals and levers.

use super::Builder;
use crate::plan::Step;
use crate::sheet::PedalBlock;
use bleedwright_network::{CircuitId, Network, Purpose};
use std::collections::BTreeMap;

impl Builder<'_, '_> {
    /// The block of each pedal in use, where its first step wants it.
    pub(super) fn pedal_blocks(&self, steps: &[Step]) -> Vec<PedalBlock> {
        let network = self.network();
        let mut blocks: BTreeMap<String, PedalBlock> = BTreeMap::new();
        for step in steps {
            let Some(travel) = step.pedal_travel() else {
                continue;
            };
            let circuit = step.screws[0].circuit_id;
            let cylinders = pedal_of(network, circuit);
            blocks.entry(cylinders.clone()).or_insert(PedalBlock {
                cylinders,
                control: network.cylinder_of(circuit).control,
                is_clutch: network.circuit(circuit).purpose == Purpose::Clutch,
                travel,
            });
        }
        blocks.into_values().collect()
    }
}

/// The pedal or lever that works a circuit, by its cylinder; two cylinders
/// under one balance bar have one pedal.
pub(super) fn pedal_of(network: &Network, circuit: CircuitId) -> String {
    let own = &network.cylinder_of(circuit).id;
    let bars = &network.layout().balance_bars;
    match bars.iter().find(|bar| bar.cylinders.contains(own)) {
        Some(bar) => bar.cylinders.join(" + "),
        None => own.clone(),
    }
}
