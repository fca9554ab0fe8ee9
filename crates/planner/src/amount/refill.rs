//! Air only: refill what ran out, in the order of the screws.

use crate::drained::Drained;
use bleedwright_network::{Bounds, CircuitId, Element, Network};
use std::collections::HashSet;
use uom::si::f64::Volume;

/// What earlier screws have refilled already.
#[derive(Clone, Debug, Default)]
pub(crate) struct Refill(HashSet<Element>);

/// What a screw must refill.
pub(crate) struct RefillNeed {
    pub(crate) push: Bounds<Volume>,
    /// The same at nominal contents: plug flow needs no more.
    pub(crate) plug: Volume,
}

impl Refill {
    /// From the first drained volume on the run that no earlier screw has
    /// refilled, the chamber included, all that lies between it and the screw:
    /// air does not mix, it leaves ahead of the fluid, and all of the way to the
    /// screw must be pushed through before it does.
    pub(crate) fn need(
        &self,
        network: &Network,
        drained: &Drained,
        circuit: CircuitId,
        run: &[Element],
    ) -> RefillNeed {
        let chamber = Element::Cell(network.circuit(circuit).chamber);
        let mut push = Bounds::exact(Volume::default());
        let (mut surely, mut likely, mut possibly) = (false, false, false);
        for element in std::iter::once(&chamber).chain(run) {
            let is_refilled = self.0.contains(element);
            surely |= !is_refilled && drained.is_surely_empty(circuit, *element);
            likely |= !is_refilled && drained.is_taken_for_empty(circuit, *element);
            possibly |= !is_refilled && drained.may_be_empty(circuit, *element);
            let contents = network.contents(*element);
            if surely {
                push.low += contents.low;
            }
            if likely {
                push.nominal += contents.nominal;
            }
            if possibly {
                push.high += contents.high;
            }
        }
        RefillNeed {
            plug: push.nominal,
            push,
        }
    }

    pub(crate) fn remember(&mut self, circuit: CircuitId, network: &Network, run: &[Element]) {
        let chamber = Element::Cell(network.circuit(circuit).chamber);
        self.0.extend(run.iter().copied().chain([chamber]));
    }
}
