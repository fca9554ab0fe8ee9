//! What went through each part of the network so far.

use bleedwright_network::{CircuitId, Element, Network};
use uom::si::f64::Volume;

/// Cumulative volumes, by cell: a cell and the link to it see the same.
#[derive(Clone, Debug)]
pub(crate) struct History {
    cells: Vec<Volume>,
    circuits: Vec<Volume>,
}

impl History {
    pub(crate) fn new(network: &Network) -> Self {
        Self {
            cells: vec![Volume::default(); network.all_cells().count()],
            circuits: vec![Volume::default(); network.circuits().count()],
        }
    }

    /// What went through an element of a run. `below` is the cell that the
    /// run reaches by it.
    pub(crate) fn pushed(&self, below: usize) -> Volume {
        self.cells[below]
    }

    /// What a chamber has delivered.
    pub(crate) fn delivered(&self, circuit: CircuitId) -> Volume {
        self.circuits[circuit.index()]
    }

    /// Adds what a chamber delivered, and what is taken for the push through a
    /// run: another volume where an end of the bounds is followed.
    pub(crate) fn add(
        &mut self,
        circuit: CircuitId,
        delivered: Volume,
        run: &[Element],
        through: Volume,
    ) {
        self.circuits[circuit.index()] += delivered;
        for element in run {
            if let Element::Cell(cell) = element {
                self.cells[cell.index()] += through;
            }
        }
    }
}
