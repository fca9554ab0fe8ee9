//! What comes after the last screw, in working order: everything undone, then pressed and looked at, then driven.

use super::Sheet;
use super::unfinished::left_out;
use super::unit::{checks_of, units};
use crate::options::Method;
use crate::plan::{BarredBy, Change, Check, Preparation, Remains, ScrewTorque};
use bleedwright_network::{BoosterKind, PartKind, ValveKind};
use std::collections::{BTreeMap, BTreeSet};

/// The checks in their order. Every block, clamp and tie is undone before the first press; the wheels go on after the last,
/// and so do the caps of the screws, since a cap hides a screw that weeps.
pub(crate) fn checks_after(
    sheet: &Sheet<'_, '_>,
    preparations: &[Preparation],
    remains: &[Remains],
) -> Vec<Check> {
    let left_out = left_out(sheet);
    let units = units(sheet);
    let barred_by = if !left_out.is_empty() {
        Some(BarredBy::LeftOut)
    } else if units.iter().any(|unit| unit.kept.may_be_air()) {
        Some(BarredBy::Unit)
    } else {
        None
    };
    let mut checks = Vec::new();
    if !left_out.is_empty() {
        checks.push(Check::LeftOut(
            left_out.into_iter().map(str::to_owned).collect(),
        ));
    }
    checks.push(Check::ScrewsToTorque(torques(sheet)));
    // The last change made is the first undone.
    let changes = preparations
        .iter()
        .filter_map(|preparation| preparation.change.as_ref());
    let (last, first): (Vec<&Change>, Vec<&Change>) =
        changes.rev().partition(|change| is_undone_last(change));
    checks.extend(first.into_iter().cloned().map(Check::Undo));
    if sheet.has_brakes() {
        checks.extend(pressed(sheet));
    } else {
        checks.push(Check::Level);
    }
    if last.contains(&&Change::CapsOff) {
        checks.push(Check::CapsOn);
    }
    checks.extend(lamps(sheet));
    checks.extend(units.into_iter().flat_map(checks_of));
    if !remains.is_empty() {
        let parts: BTreeSet<&String> = remains.iter().map(|remains| &remains.part).collect();
        checks.push(Check::Air(parts.into_iter().cloned().collect()));
    }
    if sheet.has_clutch() {
        checks.push(Check::Clutch);
    }
    if sheet.has_brakes() {
        checks.push(Check::WheelsFree);
        if sheet.has_axles() {
            checks.push(Check::ParkingBrake(sheet.parking_brake()));
        }
    }
    let wheels_on = last
        .into_iter()
        .filter(|change| **change == Change::OnSupports);
    checks.extend(wheels_on.cloned().map(Check::Undo));
    checks.extend([Check::Spills, Check::RoadTest(barred_by)]);
    checks
}

/// Wheels and caps are no force on the system, and both are in the way of looking for leaks.
fn is_undone_last(change: &Change) -> bool {
    matches!(change, Change::OnSupports | Change::CapsOff)
}

/// From the first gentle stroke to the hard press, and once more with help.
fn pressed(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let mut checks = vec![Check::BrakesTogether {
        has_discs: sheet.has_calipers(),
        has_drums: sheet.has_drums(),
    }];
    if sheet.method() == Method::Reverse {
        checks.push(Check::OldFluidAbove);
    }
    checks.extend([
        Check::PumpedFirm,
        Check::Level,
        Check::HeldLightly,
        Check::HardPress,
    ]);
    if sheet.method() == Method::Vacuum {
        checks.push(Check::BledByVacuum);
    }
    if sheet.has_booster(BoosterKind::Vacuum) {
        checks.push(Check::Booster);
    }
    checks
}

fn lamps(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let mut checks = Vec::new();
    if sheet.has_tandem() {
        checks.push(Check::BrakeLamp {
            has_differential_switch: sheet.parts.iter().any(|part| {
                matches!(&part.kind, PartKind::Valve(valve) if valve.kind == ValveKind::DifferentialSwitch)
            }),
        });
    }
    let has_unit = |kind: &PartKind| matches!(kind, PartKind::AntiLock { .. });
    if sheet.parts.iter().any(|part| has_unit(&part.kind)) {
        checks.push(Check::AntiLockLamp);
    }
    checks
}

/// The screws by their torque; those whose torque is not given come last.
fn torques(sheet: &Sheet<'_, '_>) -> Vec<ScrewTorque> {
    let network = sheet.network();
    let mut groups: BTreeMap<Option<&str>, BTreeSet<&str>> = BTreeMap::new();
    for screw in sheet.order {
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
