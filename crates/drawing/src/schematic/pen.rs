//! What every symbol needs to know of the network and the plan: its circuit's colour, the steps of its screws.

use super::arrange::Arrangement;
use super::measure::LINE;
use super::symbol;
use super::told::Words;
use crate::ink::{Ink, stroke_of};
use crate::picture::{Mark, Point};
use bleedwright_network::{CellId, CircuitId, ScrewId};
use std::collections::HashMap;

pub(super) struct Pen<'a, 'n> {
    pub(super) arrangement: &'a Arrangement<'n>,
    /// The step of every screw that a plan opens.
    pub(super) steps: HashMap<ScrewId, usize>,
    pub(super) words: Words,
}

impl Pen<'_, '_> {
    pub(super) fn ink(&self, cell: CellId) -> Ink {
        let circuit = self.arrangement.network.circuit_of_cell(cell);
        stroke_of(circuit.map(CircuitId::index), LINE).ink
    }

    /// A screw that hangs on a cell with its foot and its circle there.
    pub(super) fn screw(&self, id: ScrewId, foot: Point, centre: Point) -> Mark {
        let network = self.arrangement.network;
        let circuit = network.screw_place(id).circuit.map(CircuitId::index);
        symbol::screw(
            &network.screw(id).id,
            circuit,
            foot,
            centre,
            self.steps.get(&id).copied(),
        )
    }
}
