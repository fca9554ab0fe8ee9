//! What anti-lock units keep behind their valves, which no screw reaches.

use super::Sheet;
use crate::drained::Drained;
use crate::plan::{Check, Kept, LeftInUnit};
use bleedwright_network::{Bounds, CircuitId, Element, PartKind};
use std::collections::BTreeSet;
use uom::si::f64::Volume;

/// The units on the circuits of the job, by name. A circuit that was finished
/// earlier counts: what its passage keeps, it still keeps.
pub(super) fn units(sheet: &Sheet<'_, '_>) -> Vec<LeftInUnit> {
    let network = sheet.network();
    let done = sheet.request.done.iter();
    let done = done.filter_map(|screw| network.screw_place(*screw).circuit);
    let circuits: BTreeSet<CircuitId> = sheet.circuits.iter().copied().chain(done).collect();
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
            kept = kept.max(kept_in(sheet.drained, circuit, Element::Cell(cell)));
        }
        // Whatever the layout says of its passages: what a new dry one holds behind its valves is air.
        let is_dry = sheet.request.dry_units.contains(&index);
        if is_dry {
            kept = Kept::Air;
        }
        // A unit whose maker has a routine keeps something, whatever a zero in the layout means.
        let came_filled = sheet.request.filled_units.contains(&index);
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

/// The checks of a unit by itself; one that may keep air is not finished with before its circuits were bled again.
pub(super) fn checks_of(unit: LeftInUnit) -> Vec<Check> {
    let again = unit
        .kept
        .may_be_air()
        .then(|| Check::BleedAgain(unit.part.clone()));
    std::iter::once(Check::Routine(unit)).chain(again).collect()
}
