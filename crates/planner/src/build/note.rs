//! Anything else worth saying at a wheel.

use super::Builder;
use crate::amount::Amount;
use crate::plan::StepNote;
use bleedwright_network::{CircuitId, Owner, PartKind, ScrewId};

impl Builder<'_, '_> {
    /// Whether a screw in scope opens the same part on another circuit.
    fn has_screw_of_another_circuit(&self, owner: Owner, circuit: CircuitId) -> bool {
        let Owner::Part(part, _) = owner else {
            return false;
        };
        let network = self.network();
        let mut screws = network
            .cells_of_part(part)
            .flat_map(|cell| network.screws_on(cell));
        screws.any(|screw| {
            let other = network.screw_place(screw).circuit;
            self.scope.screws.contains(&screw) && other.is_some_and(|other| other != circuit)
        })
    }

    pub(super) fn notes(&self, needs: &[(ScrewId, CircuitId, Amount)]) -> Vec<StepNote> {
        let network = self.network();
        let mut notes = Vec::new();
        if needs.len() > 1 {
            notes.push(StepNote::OpenBoth);
        } else if self.is_by_strokes() && network.bar_partner(needs[0].1).is_some() {
            notes.push(StepNote::BarTilts);
        }
        if let [(_, circuit, _)] = needs
            && self.is_by_strokes()
            && self
                .blocks
                .stroke(&[*circuit], *circuit)
                .may_bring_nothing()
        {
            notes.push(StepNote::ShutTakesUp);
        }
        for (screw, circuit, _) in needs {
            let place = network.screw_place(*screw);
            if let Some(part) = network.part(place.owner)
                && let PartKind::Brake(brake) = &part.kind
                && brake.cavities.len() > 1
                && brake.crossover.is_none()
                && self.has_screw_of_another_circuit(place.owner, *circuit)
            {
                notes.push(StepNote::OtherChamber(part.id.clone()));
            }
            if let Some(kept) = network.air_kept_by(*screw) {
                notes.push(StepNote::Unbolted(kept.nominal));
            }
        }
        notes
    }
}
