//! What went through each part of the network so far.

use bleedwright_network::{CircuitId, Element, Network};
use uom::si::f64::Volume;

/// Cumulative volumes, by cell: a cell and the link to it see the same.
#[derive(Clone, Debug)]
pub(crate) struct History {
    nominal: Vec<Volume>,
    least: Vec<Volume>,
    most: Vec<Volume>,
    circuits: Vec<Volume>,
}

/// Which of the carried volumes an amount is worked out with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Carried {
    /// What was pushed.
    Nominal,
    /// What earlier screws would have been given with their own contents at
    /// their low: the worst case for a later screw.
    Least,
    /// The opposite corner.
    Most,
}

impl History {
    pub(crate) fn new(network: &Network) -> Self {
        let cells = network.all_cells().count();
        Self {
            nominal: vec![Volume::default(); cells],
            least: vec![Volume::default(); cells],
            most: vec![Volume::default(); cells],
            circuits: vec![Volume::default(); network.circuits().count()],
        }
    }

    /// What went through an element of a run. `below` is the cell that the
    /// run reaches by it.
    pub(crate) fn pushed(&self, below: usize, carried: Carried) -> Volume {
        match carried {
            Carried::Nominal => self.nominal[below],
            Carried::Least => self.least[below],
            Carried::Most => self.most[below],
        }
    }

    /// What a chamber has delivered.
    pub(crate) fn delivered(&self, circuit: CircuitId) -> Volume {
        self.circuits[circuit.index()]
    }

    pub(crate) fn add(
        &mut self,
        circuit: CircuitId,
        run: &[Element],
        nominal: Volume,
        least: Volume,
        most: Volume,
    ) {
        self.circuits[circuit.index()] += nominal;
        for element in run {
            if let Element::Cell(cell) = element {
                self.nominal[cell.index()] += nominal;
                self.least[cell.index()] += least;
                self.most[cell.index()] += most;
            }
        }
    }
}
