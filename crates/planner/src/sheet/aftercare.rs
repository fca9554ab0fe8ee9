//! What comes after the last screw, in working order: everything undone, then pressed and looked at, then driven.

use super::unfinished::left_out;
use super::unit::checks_of;
use super::{Sheet, parts_of};
use crate::build::Pedal;
use crate::options::Method;
use crate::plan::{BarredBy, Before, Change, Check, LeftInUnit, Remains, ScrewTorque, Standing};
use bleedwright_network::{
    BoosterKind, CircuitId, ParkingBrake, PartKind, ScrewId, ValveKind, Works,
};
use std::collections::{BTreeMap, BTreeSet};

/// The checks in their order. Every block, clamp and tie is undone before the first press; the wheels go on after the last,
/// and so do the caps of the screws, since a cap hides a screw that weeps. Where circuits are bled again after a routine,
/// both come before the first press, and what the second bleed wants again is undone after it.
pub(crate) fn checks_after(
    sheet: &Sheet<'_, '_>,
    preparations: &[Before],
    remains: &[Remains],
    is_unsafe: bool,
) -> Vec<Check> {
    let left_out = left_out(sheet);
    let barred_by = if !left_out.is_empty() {
        Some(BarredBy::LeftOut)
    } else if sheet.units.iter().any(|unit| unit.kept.may_be_air()) {
        Some(BarredBy::Unit)
    } else {
        None
    };
    let mut checks = Vec::new();
    if is_unsafe {
        checks.push(Check::UnsafeOrder);
    }
    if !left_out.is_empty() {
        checks.push(Check::LeftOut(
            left_out.into_iter().map(str::to_owned).collect(),
        ));
    }
    if !remains.is_empty() {
        let parts: BTreeSet<&String> = remains.iter().map(|remains| &remains.part).collect();
        checks.push(Check::Air(parts.into_iter().cloned().collect()));
    }
    // Whoever runs a routine bleeds again, and comes back to what stands below.
    let is_full = |unit: &&LeftInUnit| !unit.kept.may_be_air();
    checks.extend(checks_of(sheet.units.iter().filter(is_full)));
    checks.push(Check::ScrewsToTorque(torques(sheet, sheet.order)));
    // The last change made is the first undone.
    let mut changes: Vec<Change> = preparations.iter().filter_map(Before::change).collect();
    for change in changed_earlier(sheet) {
        if !changes.contains(&change) {
            changes.push(change);
        }
    }
    let (last, mut first): (Vec<Change>, Vec<Change>) =
        changes.into_iter().rev().partition(is_undone_last);
    // Nobody presses a caliper that is off its disc, block or not.
    first.sort_by_key(|change| !matches!(change, Change::Spacer(_)));
    let has_second = !sheet.second.is_empty();
    let (again, first): (Vec<Change>, Vec<Change>) =
        (first.into_iter()).partition(|change| has_second && is_wanted_again(change));
    checks.extend(first.into_iter().map(Check::Undo));
    if sheet.has_brakes() {
        checks.extend(brakes_ready(sheet));
    }
    let is_early = |unit: &&LeftInUnit| has_second && unit.kept.may_be_air();
    if has_second {
        checks.extend(checks_of(sheet.units.iter().filter(is_early)));
        checks.push(Check::ScrewsToTorque(torques(sheet, &sheet.second)));
    }
    checks.extend(again.into_iter().map(Check::Undo));
    if sheet.has_brakes() {
        checks.extend(pressed(sheet));
    } else {
        checks.push(level(sheet));
    }
    let clutch = sheet.worked(Works::Clutch);
    if sheet.has_clutch() {
        checks.push(Check::ClutchHeld {
            worked: clutch.clone(),
            slaves: sheet.slaves(),
        });
    }
    let (caps, wheels): (Vec<Change>, Vec<Change>) = last
        .into_iter()
        .partition(|change| *change == Change::CapsOff);
    checks.extend(caps.into_iter().map(Check::Undo));
    checks.extend(lamps(sheet));
    let is_late = |unit: &&LeftInUnit| !is_early(unit) && !is_full(unit);
    checks.extend(checks_of(sheet.units.iter().filter(is_late)));
    if sheet.has_brakes() {
        if sheet.has_axles() {
            checks.push(Check::ParkingBrake(sheet.parking_brake()));
        }
        checks.push(Check::WheelsFree(sheet.worked(Works::Brake)));
    }
    checks.extend(wheels.into_iter().map(Check::Undo));
    // Gears are tried with the engine running, on the ground.
    if sheet.has_clutch() {
        checks.push(Check::Clutch(clutch));
    }
    if sheet.request.options.is_laid_up {
        checks.push(Check::RenewedAgainSoon);
    }
    checks.push(Check::Spills);
    checks.push(if sheet.has_brakes() || barred_by.is_some() {
        Check::RoadTest {
            barred_by,
            standing: sheet.standing(),
        }
    } else {
        Check::ClutchDriven
    });
    checks
}

/// What the part of the job that was done earlier changed on the vehicle: nobody may have undone it since.
fn changed_earlier(sheet: &Sheet<'_, '_>) -> Vec<Change> {
    let network = sheet.network();
    let done = &sheet.request.done;
    let circuits = done
        .iter()
        .filter_map(|screw| network.screw_place(*screw).circuit);
    let circuits: BTreeSet<CircuitId> = circuits.collect();
    let mut changes = Vec::new();
    if sheet.method() == Method::Pedal {
        for circuit in &circuits {
            changes.push(Change::PedalBlock(
                Pedal::of(network, *circuit).cylinders(network),
            ));
        }
    }
    for part in parts_of(network, &circuits) {
        if let PartKind::Valve(valve) = &part.kind {
            changes.extend(match valve.kind {
                ValveKind::LoadSensing => Some(Change::LeverTied(part.id.clone())),
                ValveKind::Metering => Some(Change::MeteringHeld(part.id.clone())),
                _ => None,
            });
        }
    }
    changes.extend(
        sheet
            .tilted(done)
            .map(|part| Change::Spacer(part.id.clone())),
    );
    // Not in the order of the file.
    changes.sort();
    changes
}

/// Wheels and caps are no force on the system, and both are in the way of looking for leaks; a coupler locked again presses
/// nothing.
fn is_undone_last(change: &Change) -> bool {
    matches!(
        change,
        Change::OnSupports(_) | Change::CapsOff | Change::ReverseLockSet(_) | Change::BreakawayOff
    )
}

/// The reservoirs that feed the job's circuits; one switch among them is enough to be looked at.
fn level(sheet: &Sheet<'_, '_>) -> Check {
    let reservoirs = &sheet.network().layout().reservoirs;
    let compartments = sheet.compartments().into_iter();
    let said: Option<Vec<bool>> = compartments
        .map(|(reservoir, _)| reservoirs[reservoir].level_switch)
        .collect();
    Check::Level {
        has_switch: said.map(|said| said.contains(&true)),
    }
}

/// What a second bleed wants again; else it would be out of the way before the first press.
pub(crate) fn is_wanted_again(change: &Change) -> bool {
    match change {
        Change::PedalBlock(_)
        | Change::LeverTied(_)
        | Change::MeteringHeld(_)
        | Change::Spacer(_)
        | Change::PressureReleased(_)
        | Change::TankOn
        | Change::ReverseLockSet(_) => true,
        Change::ServiceMode
        | Change::Clamp(_)
        | Change::Plug(_)
        | Change::Propped(_)
        | Change::OnSupports(_)
        | Change::CapsOff
        | Change::UnionLoosened(_)
        | Change::BanjoCracked(_)
        | Change::BreakawayOff => false,
    }
}

/// Before anybody presses, and before a pump does.
fn brakes_ready(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let mut checks = vec![Check::BrakesTogether {
        has_discs: sheet.has_calipers(),
        has_drums: sheet.has_drums(),
        has_axle_bolts: sheet.standing() == Standing::MotorcycleOnStand,
    }];
    if sheet.method() == Method::Reverse {
        checks.push(Check::OldFluidAbove);
    }
    checks
}

/// From the first gentle stroke to the hard press, and once more with help.
fn pressed(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let worked = sheet.worked(Works::Brake);
    let mut checks = vec![
        Check::PumpedFirm {
            worked: worked.clone(),
            has_discs: sheet.has_calipers(),
        },
        level(sheet),
        Check::HeldLightly(worked.clone()),
        Check::HardPress {
            worked,
            joints: sheet.joints(),
        },
    ];
    if sheet.method() == Method::Vacuum {
        checks.push(Check::BledByVacuum);
    }
    checks.extend(sheet.boosters().map(Check::Booster));
    checks
}

fn lamps(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let mut checks = Vec::new();
    if sheet.has_brakes() && sheet.standing() != Standing::TrailerOnStands {
        checks.push(Check::StopLamps);
    }
    if sheet.has_tandem() {
        checks.push(Check::BrakeLamp {
            has_differential_switch: sheet.parts.iter().any(|part| {
                matches!(&part.kind, PartKind::Valve(valve) if valve.kind == ValveKind::DifferentialSwitch)
            }),
        });
    }
    let has_unit = sheet.has_unit();
    if has_unit {
        checks.push(Check::AntiLockLamp);
    }
    let may_simulate_pedal = sheet.has_booster(BoosterKind::Electric);
    if has_unit || may_simulate_pedal || sheet.parking_brake() == Some(ParkingBrake::Electric) {
        checks.push(Check::FaultMemory { may_simulate_pedal });
    }
    checks
}

/// The screws by their torque; those whose torque is not given come last.
fn torques(sheet: &Sheet<'_, '_>, screws: &[ScrewId]) -> Vec<ScrewTorque> {
    let network = sheet.network();
    let mut groups: BTreeMap<Option<&str>, BTreeSet<&str>> = BTreeMap::new();
    for screw in screws {
        let screw = network.screw(*screw);
        let torque = screw.torque_text.as_deref();
        groups.entry(torque).or_default().insert(&screw.id);
    }
    let unknown = groups.remove(&None).map(|screws| (None, screws));
    let groups = groups.into_iter().chain(unknown);
    groups
        .map(|(torque, screws)| ScrewTorque {
            torque: torque.map(str::to_owned),
            screws: screws.into_iter().map(str::to_owned).collect(),
        })
        .collect()
}
