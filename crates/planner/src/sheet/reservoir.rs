//! What is done at the reservoir before the first screw.

use super::{List, Sheet};
use crate::options::{Method, Purpose};
use crate::reservoir::{DrawOff, draw_offs};
use bleedwright_network::ScrewId;
use std::collections::BTreeSet;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// Drawing off, filling by gravity, the fluid itself.
pub(super) fn fluid(sheet: &Sheet<'_, '_>, list: &mut List) {
    let fluid = sheet
        .request
        .options
        .new_fluid
        .or(sheet.network().layout().fluid)
        .map_or(
            "New fluid as the maker's manual says,".to_owned(),
            |fluid| format!("New {}", fluid.text()),
        );
    if !sheet.draw_offs.is_empty() {
        let text = draw_off_text(sheet.draw_offs);
        list.add(format!("Reservoir {text}."));
    }
    let taken_as_done = taken_as_done(sheet);
    if !taken_as_done.is_empty() {
        let poured = taken_as_done.iter().map(|draw_off| draw_off.poured);
        let poured = poured.fold(Volume::default(), |sum, poured| sum + poured);
        list.add(format!(
            "Taken as done: reservoir {}. If not, do it now: {:.0} ml more to buy.",
            draw_off_text(&taken_as_done),
            poured.get::<milliliter>()
        ));
    }
    let filled = match sheet.method() {
        Method::Reverse => "",
        _ => "; filled to the maximum",
    };
    let level = match sheet.method() {
        Method::Pedal | Method::Vacuum | Method::Gravity => lowest_text(sheet),
        Method::Pressure | Method::Reverse => String::new(),
    };
    list.add(format!(
        "{fluid} from a sealed bottle within its date{filled}.{level}"
    ));
    if !sheet.gravity_first.is_empty() {
        list.add(format!(
            "Reservoir filled; by gravity first, {}, cap vented: each screw of {} open \
             until it drips, shut, topped up.",
            match sheet.pressed_word() {
                pedal @ "pedal" => format!("{pedal} right up"),
                other => format!("{other} right back"),
            },
            gravity_text(sheet)
        ));
    }
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

/// The level that top-ups are counted down to.
fn lowest_text(sheet: &Sheet<'_, '_>) -> String {
    let take_offs: Vec<String> = take_offs(sheet)
        .into_iter()
        .map(|(name, level)| format!("`{name}` ({:.0} ml)", level.get::<milliliter>()))
        .collect();
    if take_offs.is_empty() {
        return " Its level never below half (common practice) or the minimum mark, the higher."
            .to_owned();
    }
    format!(
        " Its level never below the highest of half (common practice), the minimum mark, the take-off of {}.",
        take_offs.join(", ")
    )
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
fn gravity_text(sheet: &Sheet<'_, '_>) -> String {
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
    names.join(", ")
}

/// One sentence for all compartments; their rinses are said apart only where
/// they differ.
fn draw_off_text(draw_offs: &[DrawOff]) -> String {
    let old = draw_offs
        .iter()
        .map(|draw_off| draw_off.old_fraction)
        .fold(0.0, f64::max);
    let rinse = |draw_off: &DrawOff| match draw_off.rinses {
        0 => String::new(),
        rinses => format!(
            "rinsed {rinses} x with {:.0} ml each and drawn off, ",
            draw_off.rinse.get::<milliliter>()
        ),
    };
    let is_alike = draw_offs
        .iter()
        .all(|draw_off| rinse(draw_off) == rinse(&draw_offs[0]));
    let left = |draw_off: &DrawOff| format!("{:.0} ml", draw_off.left.get::<milliliter>());
    let is_equal = draw_offs
        .iter()
        .all(|draw_off| left(draw_off) == left(&draw_offs[0]));
    let each: Vec<String> = if is_alike && is_equal {
        vec![format!("each to about {}", left(&draw_offs[0]))]
    } else {
        draw_offs
            .iter()
            .map(|draw_off| {
                let own = if is_alike {
                    String::new()
                } else {
                    format!(" {}", rinse(draw_off))
                };
                format!(
                    "`{}` to about {}{}",
                    draw_off.name,
                    left(draw_off),
                    own.trim_end_matches(", ")
                )
            })
            .collect()
    };
    format!(
        "drawn off to just above its ports, which stay covered, nothing pressed ({}), {}filled with new: at most {:.1} % old",
        each.join(", "),
        if is_alike {
            rinse(&draw_offs[0])
        } else {
            String::new()
        },
        old * 100.0
    )
}

/// How far each compartment is lowered, or filled where it is dry.
pub(super) fn room_text(sheet: &Sheet<'_, '_>) -> String {
    let layout = sheet.network().layout();
    let mut rooms: Vec<String> = sheet
        .kept
        .iter()
        .map(|((r, c), kept)| {
            let compartment = &layout.reservoirs[*r].compartments[*c];
            let room = compartment.usable() - *kept;
            format!(
                "`{}` {:.0} ml",
                compartment.id,
                room.get::<milliliter>().floor()
            )
        })
        .collect();
    rooms.sort();
    format!(
        "Level set below the maximum mark: {}. The fluid comes up there; at every stop it is \
         drawn off to the same level.",
        rooms.join(", ")
    )
}
