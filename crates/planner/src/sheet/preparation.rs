//! What comes before the first screw, from the parts that are there.

use super::Sheet;
use super::equipment::equipment;
use super::height::unions;
use super::job::{banjo, bar, clutch, laid_up, shaft, trailer};
use super::opened::{joints, kept_full, level_while_open, new_brakes};
use super::reservoir::fluid;
use crate::options::{Method, Purpose};
use crate::plan::{Before, Look, Made};
use bleedwright_network::{PartKind, ValveKind};
use std::collections::BTreeSet;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// The preparations in the order they are made.
pub(crate) fn preparations(sheet: &Sheet<'_, '_>) -> Vec<Before> {
    let mut list = Vec::new();
    support(sheet, &mut list);
    trailer(sheet, &mut list);
    bar(sheet, &mut list);
    stored_force(sheet, &mut list);
    look_first(sheet, &mut list);
    joints(sheet, &mut list);
    new_brakes(sheet, &mut list);
    brakes(sheet, &mut list);
    valves(sheet, &mut list);
    residual_valves(sheet, &mut list);
    clutch(sheet, &mut list);
    pedal(sheet, &mut list);
    shaft(sheet, &mut list);
    level_while_open(sheet, &mut list);
    // A full system is pressed before its reservoir is drawn off, an opened one once it is full again.
    let is_full = sheet.purpose() == Purpose::Renew;
    if is_full {
        boosters(sheet, &mut list);
    }
    list.push(Before::Made(Made::CapsOff(sheet.method())));
    fluid(sheet, &mut list);
    if !is_full {
        boosters(sheet, &mut list);
    }
    equipment(sheet, &mut list);
    unions(sheet, &mut list);
    banjo(sheet, &mut list);
    list
}

/// What would make the work useless is found before fluid is poured.
fn look_first(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    list.push(Before::Look(Look::Dry(sheet.fed())));
    list.push(Before::Look(Look::Sound(sheet.fed())));
    laid_up(sheet, list);
    list.extend((sheet.purpose() != Purpose::Fill).then_some(Before::Look(Look::Fluid)));
    list.push(Before::Look(Look::Screws));
}

fn support(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    list.push(Before::Made(Made::Stands(sheet.standing())));
    if sheet.has_axles() && sheet.has_brakes() {
        list.push(Before::ParkingBrakeOff(sheet.parking_brake()));
    }
}

/// Fluid held back by a valve comes out in a spurt.
fn residual_valves(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let valves = sheet.valves_in_use(ValveKind::Residual).into_iter();
    let valves: Vec<String> = valves.map(|part| part.id.clone()).collect();
    if !valves.is_empty() {
        let method = sheet.method();
        list.push(Before::ResidualHeld { valves, method });
    }
}

fn stored_force(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if sheet.has_unit() || !sheet.pressure_stores().is_empty() {
        list.push(Before::PumpMayWake);
    }
    for (owner, routine) in sheet.pressure_stores() {
        list.push(Before::Made(Made::PressureReleased {
            owner: owner.to_owned(),
            routine: routine.map(str::to_owned),
        }));
    }
}

/// Pressed only with everything in its place, and no farther than the block.
fn boosters(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if sheet.method() == Method::Pedal {
        list.extend(sheet.boosters().map(Before::Booster));
    }
}

fn brakes(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let service_mode = Before::Made(Made::ServiceMode);
    list.extend(sheet.needs_service_mode().then_some(service_mode));
    list.extend(sheet.has_drums().then_some(Before::ShoesAdjusted));
    let tilted: BTreeSet<&String> = sheet.tilted(sheet.order).map(|part| &part.id).collect();
    let tilted = tilted.into_iter().cloned();
    list.extend(tilted.map(|part| Before::Made(Made::Tilted(part))));
}

fn valves(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    for part in sheet.valves_in_use(ValveKind::LoadSensing) {
        list.push(Before::Made(Made::LeverTied(part.id.clone())));
    }
    for part in sheet.valves_in_use(ValveKind::Metering) {
        if let PartKind::Valve(valve) = &part.kind {
            list.push(Before::Made(Made::MeteringHeld {
                valve: part.id.clone(),
                by: valve.held_open_by.clone(),
            }));
        }
    }
    for part in sheet.valves_in_use(ValveKind::DifferentialSwitch) {
        list.push(Before::SwitchCentred(part.id.clone()));
    }
    let clamped = sheet.request.clamped.iter();
    let mut clamped: Vec<String> = clamped
        .map(|link| sheet.network().link_name(*link))
        .collect();
    clamped.sort();
    let clamped = clamped.into_iter();
    list.extend(clamped.map(|line| Before::Made(Made::Clamp(line))));
    kept_full(sheet, list);
    for part in &sheet.parts {
        if let PartKind::AntiLock { routine, .. } = &part.kind {
            list.push(Before::RoutineAtHand {
                unit: part.id.clone(),
                routine: routine.clone(),
            });
        }
    }
}

fn pedal(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let blocks = sheet.pedal_blocks.iter().cloned();
    list.extend(blocks.map(|block| Before::Made(Made::PedalBlock(block))));
    bench(sheet, list);
}

/// Cylinders that are bled off the vehicle.
fn bench(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let cylinders = &sheet.network().layout().cylinders;
    let names = |indices: &BTreeSet<usize>| -> Vec<String> {
        let names: BTreeSet<&String> = indices.iter().map(|index| &cylinders[*index].id).collect();
        names.into_iter().cloned().collect()
    };
    let [dry, done] = sheet.dry_cylinders();
    if !done.is_empty() {
        list.push(Before::BenchDone(names(&done)));
    }
    if !dry.is_empty() {
        // TM 5-4210-224-14&P strokes a truck's cylinder by about 25 mm; a shorter
        // one must not be pushed to its end.
        let stroke = (dry.iter())
            .map(|index| cylinders[*index].chambers[0].stroke.low * BENCH_SHARE)
            .fold(Length::new::<millimeter>(25.0), Length::min);
        list.push(Before::BenchFirst {
            cylinders: names(&dry),
            stroke,
        });
    }
}

/// Share of its stroke by which a short cylinder is pushed on the bench.
///
/// ASSUMPTION: 80 %, clear of its end.
const BENCH_SHARE: f64 = 0.8;
