//! What decides the place of a circuit among the others.

use super::preference::Rank;
use super::sequence::{Derived, is_airy_primary, is_airy_twin};
use crate::options::Method;
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{CircuitId, ScrewId, Works};

/// A circuit with the screws of which the longest (or shortest) run decides
/// its place.
#[derive(Clone, Debug)]
pub(crate) struct CircuitStanding {
    pub(crate) circuit: CircuitId,
    /// What comes before length: whether it was asked for, whether it is a
    /// brake's, whether it was opened; the least goes first.
    class: (bool, bool, bool),
    pub(crate) screws: Vec<ScrewId>,
    /// An empty primary goes before this circuit, its twin, in any case.
    twin: Option<CircuitId>,
}

impl CircuitStanding {
    fn new(request: &Request<'_>, derived: &Derived, circuit: CircuitId) -> Self {
        let screws = &derived.sorted[&circuit];
        let rank = |screw: &ScrewId| -> &Rank { &derived.ranks[screw] };
        let is_suspect = screws.iter().any(|screw| rank(screw).is_suspect);
        Self {
            circuit,
            class: (
                request.circuit_first != Some(circuit),
                request.network.circuit(circuit).purpose == Works::Clutch,
                !is_suspect,
            ),
            screws: screws
                .iter()
                .copied()
                .filter(|screw| rank(screw).is_suspect == is_suspect)
                .collect(),
            twin: None,
        }
    }

    /// An empty primary stands where it or its twin stands, whichever is
    /// first: the better class, and in one class the screws of both.
    fn joined(mut self, twin: Self) -> Self {
        self.twin = Some(twin.circuit);
        if twin.class < self.class {
            self.class = twin.class;
            self.screws = twin.screws;
        } else if twin.class == self.class {
            self.screws.extend(twin.screws);
        }
        self
    }

    /// Whether length decides between this circuit and the next.
    pub(crate) fn may_change_places(&self, next: &Self) -> bool {
        self.class == next.class && self.twin != Some(next.circuit)
    }
}

/// The circuits in their order.
pub(crate) fn standings(
    request: &Request<'_>,
    scope: &Scope,
    derived: &Derived,
) -> Vec<CircuitStanding> {
    let network = request.network;
    let is_by_pedal = request.options.method == Method::Pedal;
    let standing = |circuit: CircuitId| CircuitStanding::new(request, derived, circuit);
    let circuits = || derived.circuits.iter().map(|(circuit, _)| *circuit);
    circuits()
        .map(|circuit| {
            let own = standing(circuit);
            if !is_by_pedal || !is_airy_primary(network, scope, circuit) {
                return own;
            }
            let twin = circuits().find(|other| is_airy_twin(network, scope, circuit, *other));
            match twin {
                Some(twin) => own.joined(standing(twin)),
                None => own,
            }
        })
        .collect()
}
