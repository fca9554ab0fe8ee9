//! What is said where air on other runs takes up strokes.

use super::Builder;
use super::visited::Visited;
use crate::plan::StepNote;
use crate::scope::circuit_of;
use crate::stroke::primary_of;
use bleedwright_network::{CircuitId, Element, ScrewId};
use std::collections::{HashMap, HashSet};

impl Builder<'_, '_> {
    /// For each visit what is to be said of air that is left elsewhere: the pedal
    /// squeezes it, and it takes up strokes. On runs that gravity fills before the
    /// pedal is used there is none.
    pub(super) fn air_elsewhere(
        &self,
        visited: &[Option<Visited>],
        gravity_first: &[ScrewId],
    ) -> Vec<Vec<StepNote>> {
        let screws = || visited.iter().flatten().flat_map(|visited| &visited.screws);
        if !self.is_by_strokes() || self.drained.is_nothing_taken() {
            return vec![Vec::new(); visited.len()];
        }
        let network = self.network();
        let with_chamber = |screw: ScrewId, circuit: CircuitId| {
            let chamber = Element::Cell(network.circuit(circuit).chamber);
            network.run(screw).into_iter().chain([chamber])
        };
        let mut air: HashMap<CircuitId, HashSet<Element>> = HashMap::new();
        for screw in screws() {
            let is_empty =
                |element: &Element| self.drained.is_taken_for_empty(screw.circuit_id, *element);
            let run = with_chamber(screw.id, screw.circuit_id);
            let of_circuit = air.entry(screw.circuit_id).or_default();
            of_circuit.extend(run.filter(is_empty));
        }
        for screw in gravity_first {
            let circuit = circuit_of(network, *screw);
            if let Some(left) = air.get_mut(&circuit) {
                for element in with_chamber(*screw, circuit) {
                    left.remove(&element);
                }
            }
        }
        let mut notes = Vec::with_capacity(visited.len());
        for visited in visited {
            let mut own = Vec::new();
            for screw in visited.iter().flat_map(|visited| &visited.screws) {
                let circuit = screw.circuit_id;
                let primary = primary_of(network, circuit);
                if primary.is_some_and(|it| air.get(&it).is_some_and(|left| !left.is_empty())) {
                    own.push(StepNote::AirInPrimary {
                        or_by_gravity: gravity_first.contains(&screw.id),
                    });
                }
                let left = air.entry(circuit).or_default();
                for element in with_chamber(screw.id, circuit) {
                    left.remove(&element);
                }
                if !left.is_empty() {
                    own.push(StepNote::AirElsewhere);
                }
            }
            notes.push(own);
        }
        notes
    }
}
