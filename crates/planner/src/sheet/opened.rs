//! What an opened system asks for before the first screw: joints made up, new brakes fitted right, levels that held, plugs
//! and props away.

use super::Sheet;
use super::reservoir::take_offs;
use crate::options::Purpose;
use crate::plan::{Before, Made, Worked};
use crate::request::Target;
use bleedwright_network::{BrakeKind, PartKind};
use std::collections::BTreeSet;

/// A joint that is opened again after the bleed lets air in that nobody bleeds.
pub(super) fn joints(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let at = sheet.joints();
    if at.is_empty() {
        return;
    }
    let parts = &sheet.network().layout().parts;
    let is_unit = |index: usize| matches!(parts[index].kind, PartKind::AntiLock { .. });
    let mut opened = sheet.request.opened.iter().filter_map(Target::part);
    list.push(Before::Joints {
        may_be_crossed: opened.any(is_unit),
        at,
    });
}

/// What is new is fitted right before it is filled.
pub(super) fn new_brakes(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let brakes = sheet.request.new_parts.iter().filter_map(|index| {
        let part = &sheet.network().layout().parts[*index];
        match &part.kind {
            PartKind::Brake(brake) => Some((part.id.clone(), brake.kind)),
            _ => None,
        }
    });
    let (mut parts, kinds): (Vec<String>, Vec<BrakeKind>) = brakes.unzip();
    if parts.is_empty() {
        return;
    }
    parts.sort();
    list.push(Before::NewBrakes {
        parts,
        has_calipers: kinds
            .iter()
            .any(|kind| matches!(kind, BrakeKind::Caliper { .. })),
    });
}

/// Nobody can tell from the pipework whether a compartment ran dry while a joint was open.
pub(super) fn level_while_open(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let request = sheet.request;
    if !request.opened.is_empty()
        && request.dry_circuits.is_empty()
        && request.options.purpose() == Purpose::Air
    {
        list.push(Before::LevelHeld(take_offs(sheet)));
    }
}

/// What kept lines full while they were open is taken away before bleeding.
pub(super) fn kept_full(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let request = sheet.request;
    let plugged = request.plugged.iter();
    let mut plugged: Vec<&str> = plugged.map(|target| request.name_of(target)).collect();
    plugged.sort_unstable();
    plugged.dedup();
    let plugged = plugged.into_iter().map(str::to_owned);
    list.extend(plugged.map(|at| Before::Made(Made::Plug(at))));
    if !request.options.propped {
        return;
    }
    let layout = sheet.network().layout();
    let opened = request.opened.iter();
    let circuits = opened.flat_map(|target| request.circuits_of(target));
    let cylinders: BTreeSet<usize> = circuits
        .map(|circuit| sheet.network().circuit(circuit).cylinder)
        .collect();
    for cylinder in cylinders {
        let cylinder = &layout.cylinders[cylinder];
        list.push(Before::Made(Made::Propped(Worked {
            control: cylinder.control,
            cylinders: vec![cylinder.id.clone()],
        })));
    }
}
