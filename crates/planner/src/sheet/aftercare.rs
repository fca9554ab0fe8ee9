//! What comes after the last screw, in working order: everything undone, then pressed and looked at, then driven.

use super::Sheet;
use super::unfinished::left_out;
use super::unit::{checks_of, units};
use crate::options::Method;
use crate::plan::{BarredBy, Change, Check, Preparation, Remains, ScrewTorque};
use bleedwright_network::{BoosterKind, BrakeKind, PartKind, Purpose, ValveKind};
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
    if purposes(sheet).contains(&Purpose::Brake) {
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
    if purposes(sheet).contains(&Purpose::Clutch) {
        checks.push(Check::Clutch);
    }
    if purposes(sheet).contains(&Purpose::Brake) {
        checks.push(Check::WheelsFree);
        let has_axle = sheet
            .parts
            .iter()
            .any(|part| part.wheel.is_some_and(|wheel| wheel.side().is_some()));
        if has_axle {
            let is_electric = sheet
                .parts
                .iter()
                .any(|part| part.has_electric_parking_brake);
            checks.push(Check::ParkingBrake { is_electric });
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

/// What the circuits of the job are for.
fn purposes(sheet: &Sheet<'_, '_>) -> Vec<Purpose> {
    let circuits = sheet.circuits.iter();
    circuits
        .map(|circuit| sheet.network().circuit(*circuit).purpose)
        .collect()
}

/// From the first gentle stroke to the hard press, and once more with help.
fn pressed(sheet: &Sheet<'_, '_>) -> Vec<Check> {
    let has = |wanted: fn(BrakeKind) -> bool| {
        sheet.parts.iter().any(|part| match &part.kind {
            PartKind::Brake(brake) => wanted(brake.kind),
            _ => false,
        })
    };
    let mut checks = vec![Check::BrakesTogether {
        has_discs: has(|kind| matches!(kind, BrakeKind::Caliper { .. })),
        has_drums: has(|kind| kind == BrakeKind::WheelCylinder),
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
