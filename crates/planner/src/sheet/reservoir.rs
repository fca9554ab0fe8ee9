//! What is done at the reservoir before the first screw.

use super::Sheet;
use crate::options::Purpose;
use crate::plan::{Before, DrawnOff};
use crate::reservoir::{DrawOff, draw_offs};
use bleedwright_network::ScrewId;
use std::collections::BTreeSet;
use uom::si::f64::Volume;

/// Drawing off, filling by gravity, the fluid itself.
pub(super) fn fluid(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if !sheet.draw_offs.is_empty() {
        list.push(Before::DrawnOff(drawn_off(sheet.draw_offs)));
    }
    let taken_as_done = taken_as_done(sheet);
    if !taken_as_done.is_empty() {
        let poured = taken_as_done.iter().map(|draw_off| draw_off.poured);
        list.push(Before::TakenAsDrawnOff {
            compartments: drawn_off(&taken_as_done),
            poured: poured.fold(Volume::default(), |sum, poured| sum + poured),
        });
    }
    let given = sheet.request.options.new_fluid;
    list.push(Before::NewFluid {
        fluid: given.or(sheet.network().layout().fluid),
        method: sheet.method(),
        take_offs: take_offs(sheet),
    });
    if !sheet.gravity_first.is_empty() {
        list.push(Before::GravityFirst {
            controls: sheet.controls(),
            through: filled_by_gravity(sheet),
        });
    }
}

fn drawn_off(draw_offs: &[DrawOff]) -> Vec<DrawnOff> {
    draw_offs.iter().map(|it| it.work.clone()).collect()
}

/// The compartments of the job that a clutch draws from above their ports, with the highest level at which it may draw air.
pub(super) fn take_offs(sheet: &Sheet<'_, '_>) -> Vec<(String, Volume)> {
    let reservoirs = &sheet.network().layout().reservoirs;
    let compartments = sheet.compartments().into_iter();
    let compartments = compartments.map(|(r, c)| &reservoirs[r].compartments[c]);
    let mut take_offs: Vec<(String, Volume)> = compartments
        .filter_map(|compartment| Some((compartment.id.clone(), compartment.take_off?.high)))
        .collect();
    take_offs.sort_by(|a, b| a.0.cmp(&b.0));
    take_offs
}

/// The reservoir work of a renewal that was begun earlier: the amounts rest on
/// it, but nothing on the vehicle shows whether it was done.
fn taken_as_done(sheet: &Sheet<'_, '_>) -> Vec<DrawOff> {
    if sheet.request.done.is_empty() || sheet.purpose() != Purpose::Renew {
        return Vec::new();
    }
    draw_offs(sheet.request, &sheet.circuits).0
}

/// The circuits, where every screw in use of each is opened; else the screws.
fn filled_by_gravity(sheet: &Sheet<'_, '_>) -> Vec<String> {
    let network = sheet.network();
    let first: BTreeSet<ScrewId> = sheet.gravity_first.iter().copied().collect();
    let circuit_of = |screw: &ScrewId| network.screw_place(*screw).circuit;
    let circuits: BTreeSet<_> = first.iter().filter_map(circuit_of).collect();
    let is_in_them = |screw: &&ScrewId| circuit_of(screw).is_some_and(|c| circuits.contains(&c));
    let is_whole = sheet
        .order
        .iter()
        .filter(is_in_them)
        .all(|screw| first.contains(screw));
    let options = sheet.request.options;
    let is_everything = is_whole && options.done.is_empty() && options.skip.is_empty();
    let mut names: Vec<&str> = if is_everything {
        let names = circuits.iter();
        names
            .map(|circuit| network.circuit(*circuit).name.as_str())
            .collect()
    } else {
        let names = first.iter();
        names
            .map(|screw| network.screw(*screw).id.as_str())
            .collect()
    };
    names.sort_unstable();
    names.into_iter().map(str::to_owned).collect()
}

/// How far each compartment is lowered, or filled where it is dry.
pub(super) fn lowered(sheet: &Sheet<'_, '_>) -> Vec<(String, Volume)> {
    let layout = sheet.network().layout();
    let kept = sheet.kept.iter();
    let mut rooms: Vec<(String, Volume)> = kept
        .map(|((r, c), kept)| {
            let compartment = &layout.reservoirs[*r].compartments[*c];
            (compartment.id.clone(), compartment.usable() - *kept)
        })
        .collect();
    rooms.sort_by(|a, b| a.0.cmp(&b.0));
    rooms
}
