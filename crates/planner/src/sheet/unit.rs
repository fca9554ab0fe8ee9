//! What anti-lock units keep behind their valves, which no screw reaches.

use crate::drained::Drained;
use crate::plan::{Check, Kept, LeftInUnit};
use crate::request::Request;
use bleedwright_network::{Bounds, CircuitId, Element, PartKind};
use std::collections::BTreeSet;
use uom::si::f64::Volume;

/// The units on these circuits, by name.
pub(crate) fn units(
    request: &Request<'_>,
    drained: &Drained,
    circuits: &BTreeSet<CircuitId>,
) -> Vec<LeftInUnit> {
    let network = request.network;
    let mut units = Vec::new();
    for (index, part) in network.layout().parts.iter().enumerate() {
        let PartKind::AntiLock {
            circuits: passages,
            routine,
            ..
        } = &part.kind
        else {
            continue;
        };
        let mut volume = Bounds::exact(Volume::default());
        let mut kept = Kept::OldFluid;
        for (cell, passage) in network.cells_of_part(index).zip(passages) {
            let circuit = network.circuit_of_cell(cell);
            let Some(circuit) = circuit.filter(|circuit| circuits.contains(circuit)) else {
                continue;
            };
            volume = volume + passage.trapped;
            kept = kept.max(kept_in(drained, circuit, Element::Cell(cell)));
        }
        // Whatever the layout says of its passages: what a new dry one holds behind its valves is air.
        let is_dry = request.dry_units.contains(&index);
        if is_dry {
            kept = Kept::Air;
        }
        // A unit whose maker has a routine keeps something, whatever a zero in the layout means.
        let came_filled = request.filled_units.contains(&index);
        let may_hide_air = routine.is_some() && kept.may_be_air() && !came_filled;
        if is_dry || may_hide_air || volume.high > Volume::default() {
            units.push(LeftInUnit {
                part: part.id.clone(),
                volume,
                kept,
            });
        }
    }
    units.sort_by(|a, b| a.part.cmp(&b.part));
    units
}

/// What ran out of a passage ran out behind its valves too, or may have:
/// nothing pushes fluid back in there.
fn kept_in(drained: &Drained, circuit: CircuitId, passage: Element) -> Kept {
    if drained.is_surely_empty(circuit, passage) {
        Kept::Air
    } else if drained.may_be_empty(circuit, passage) {
        Kept::MaybeAir
    } else {
        Kept::OldFluid
    }
}

/// The routines of units, and then their circuits bled again: one that may keep air is not finished with before.
pub(super) fn checks_of<'u>(units: impl Iterator<Item = &'u LeftInUnit> + Clone) -> Vec<Check> {
    let again = units.clone().filter(|unit| unit.kept.may_be_air());
    let again = again.map(|unit| Check::BleedAgain(unit.part.clone()));
    units.cloned().map(Check::Routine).chain(again).collect()
}
