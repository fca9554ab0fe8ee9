//! What ran out when the system was opened.

use crate::drive::valve_at;
use crate::options::Purpose;
use crate::request::{Request, Target, cell_below};
use bleedwright_network::{
    Bounds, CellId, CircuitId, Element, LinkId, Network, Owner, PartKind, ValveKind,
};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use uom::si::f64::Volume;

/// A part of the network: single elements, and whole circuits.
#[derive(Debug, Default)]
pub(crate) struct Extent {
    elements: HashSet<Element>,
    circuits: BTreeSet<CircuitId>,
}

impl Extent {
    fn is_nothing(&self) -> bool {
        self.circuits.is_empty() && self.elements.is_empty()
    }

    fn contains(&self, circuit: CircuitId, element: Element) -> bool {
        self.circuits.contains(&circuit) || self.elements.contains(&element)
    }
}

/// Where the air is, as far as one can know.
#[derive(Debug, Default)]
pub(crate) struct Drained {
    /// Surely empty: the low bound.
    sure: Extent,
    /// Taken for empty: the nominal amount.
    likely: Extent,
    /// Possibly empty: the high bound.
    possible: Extent,
    /// What the routine of a unit pumped into its passages, beside what these hold.
    freed: BTreeMap<CellId, Bounds<Volume>>,
}

impl Drained {
    pub(crate) fn is_surely_empty(&self, circuit: CircuitId, element: Element) -> bool {
        self.sure.contains(circuit, element)
    }

    pub(crate) fn is_taken_for_empty(&self, circuit: CircuitId, element: Element) -> bool {
        self.is_surely_empty(circuit, element) || self.likely.contains(circuit, element)
    }

    /// Whether nothing at all is taken for empty.
    pub(crate) fn is_nothing_taken(&self) -> bool {
        self.sure.is_nothing() && self.likely.is_nothing()
    }

    pub(crate) fn may_be_empty(&self, circuit: CircuitId, element: Element) -> bool {
        self.is_taken_for_empty(circuit, element) || self.possible.contains(circuit, element)
    }

    /// What a routine pumped into an element.
    pub(crate) fn freed_in(&self, element: Element) -> Option<Bounds<Volume>> {
        match element {
            Element::Cell(cell) => self.freed.get(&cell).copied(),
            Element::Link(_) => None,
        }
    }

    pub(crate) fn new(request: &Request<'_>) -> Self {
        let network = request.network;
        let mut drained = Self::default();
        let everywhere = || network.circuits().map(|(id, _)| id);
        let nothing_named = request.opened.is_empty()
            && request.drained.is_empty()
            && request.dry_circuits.is_empty();
        match request.options.purpose() {
            Purpose::Fill => drained.sure.circuits.extend(everywhere()),
            // The spongy pedal: the place of the air is unknown.
            Purpose::Air if nothing_named => drained.likely.circuits.extend(everywhere()),
            Purpose::Air | Purpose::Renew => {}
        }
        for target in &request.opened {
            drained.add_opened(request, target);
        }
        for unit in &request.freed_units {
            if let PartKind::AntiLock { circuits, .. } = &network.layout().parts[*unit].kind {
                let passages = network.cells_of_part(*unit).zip(circuits);
                let freed = passages.map(|(cell, passage)| (cell, passage.trapped));
                drained.freed.extend(freed);
            }
        }
        for target in &request.drained {
            drained.sure.elements.extend(request.elements_of(target));
        }
        for circuit in &request.dry_circuits {
            drained.add_dry(network, *circuit);
        }
        drained
    }

    /// Opening a part drains its cavity and the line back to the next tee,
    /// valve or cylinder; everything downstream may have run out too. A new unit
    /// that came filled is as full as it was sold.
    fn add_opened(&mut self, request: &Request<'_>, target: &Target) {
        let network = request.network;
        let is_filled = matches!(target, Target::Part(part) if request.filled_units.contains(part));
        for element in request.elements_of(target) {
            if !is_filled {
                self.sure.elements.insert(element);
            }
            let below = match element {
                Element::Cell(cell) => {
                    self.sure.elements.extend(line_back(request, cell));
                    cell
                }
                Element::Link(link) => {
                    let below = cell_below(network, link);
                    if let Some((above, _)) = network.step_to(below)
                        && is_union(network, above)
                    {
                        self.sure.elements.insert(Element::Cell(above));
                        self.sure.elements.extend(line_back(request, above));
                    }
                    below
                }
            };
            self.add_run_back(request, below);
            let possible = downstream(network, below, &request.kept_full);
            self.possible.elements.extend(possible);
        }
    }

    /// From a joint above the fluid of its reservoir a line runs back to it, down to that level, unless a residual valve
    /// holds it. A line that crosses the level is empty in part: perhaps.
    fn add_run_back(&mut self, request: &Request<'_>, joint: CellId) {
        let network = request.network;
        let height = |cell: CellId| network.height_of(network.cell(cell).owner);
        let compartment = network.circuit_of_cell(joint);
        let compartment = compartment.and_then(|circuit| network.circuit(circuit).compartment);
        let fluid = compartment.and_then(|(r, _)| network.layout().reservoirs[r].height);
        let (Some(fluid), Some(top)) = (fluid, height(joint)) else {
            return;
        };
        if top.nominal <= fluid.nominal || request.options.propped {
            return;
        }
        let (mut likely, mut possible) = (Vec::new(), Vec::new());
        let mut here = joint;
        while let Some((above, link)) = network.step_to(here) {
            if request.kept_full.contains(&link) || is_residual(network, above) {
                return;
            }
            possible.push(Element::Link(link));
            match height(above) {
                Some(height) if height.nominal > fluid.nominal => {
                    likely.append(&mut possible);
                    likely.push(Element::Cell(above));
                }
                Some(_) => break,
                None => possible.push(Element::Cell(above)),
            }
            here = above;
        }
        self.likely.elements.extend(likely);
        self.possible.elements.extend(possible);
    }

    /// A dry reservoir lets air into the chamber; how far it went from there
    /// is unknown, so the whole circuit is taken for empty.
    fn add_dry(&mut self, network: &Network, circuit: CircuitId) {
        let chamber = network.circuit(circuit).chamber;
        self.sure.elements.insert(Element::Cell(chamber));
        self.likely.circuits.insert(circuit);
    }
}

/// The lines from a cell back to the next tee, valve or cylinder. A union
/// only joins two lines and is passed. A clamp or a plug keeps what is above it
/// full, and a pedal propped past the cut-off everything: no air gets in behind
/// the fluid.
fn line_back(request: &Request<'_>, cell: CellId) -> Vec<Element> {
    let network = request.network;
    let mut back = Vec::new();
    if request.options.propped {
        return back;
    }
    let mut here = cell;
    while let Some((above, link)) = network.step_to(here) {
        if request.kept_full.contains(&link) {
            break;
        }
        back.push(Element::Link(link));
        if !is_union(network, above) {
            break;
        }
        back.push(Element::Cell(above));
        here = above;
    }
    back
}

fn is_union(network: &Network, cell: CellId) -> bool {
    let Owner::Part(part, _) = network.cell(cell).owner else {
        return false;
    };
    matches!(
        network.layout().parts[part].kind,
        PartKind::Junction { word: "union" }
    )
}

fn is_residual(network: &Network, cell: CellId) -> bool {
    valve_at(network, Element::Cell(cell))
        .is_some_and(|(_, valve)| valve.kind == ValveKind::Residual)
}

/// Everything below a cell, itself included, that no clamp or plug protects.
fn downstream(network: &Network, top: CellId, kept_full: &BTreeSet<LinkId>) -> Vec<Element> {
    let Some(circuit) = network.circuit_of_cell(top) else {
        return Vec::new();
    };
    let mut below: HashSet<CellId> = HashSet::from([top]);
    let mut elements = vec![Element::Cell(top)];
    for cell in network.cells_of(circuit) {
        if let Some((parent, link)) = network.step_to(*cell)
            && below.contains(&parent)
            && !kept_full.contains(&link)
        {
            below.insert(*cell);
            elements.push(Element::Link(link));
            elements.push(Element::Cell(*cell));
        }
    }
    elements
}
