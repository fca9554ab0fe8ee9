//! What comes after the last screw: undo, press hard, look, test.

use super::Sheet;
use super::unfinished::left_out;
use super::unit::{checks_of, units};
use crate::options::Method;
use crate::plan::{About, Change, Check, Preparation, Remains};
use bleedwright_network::{BoosterKind, PartKind, Purpose, ValveKind};
use std::collections::{BTreeMap, BTreeSet};

/// The checks in their order: every change is undone before the hard press.
pub(crate) fn checks_after(
    sheet: &Sheet<'_, '_>,
    preparations: &[Preparation],
    remains: &[Remains],
) -> Vec<Check> {
    let mut checks: Vec<Check> = Vec::new();
    let left_out = left_out(sheet);
    if !left_out.is_empty() {
        checks.push(Check {
            text: format!(
                "NOT READY TO DRIVE until the screws left out are bled: {}.",
                joined(&left_out)
            ),
            about: About::LeftOut(left_out.iter().map(|&name| name.to_owned()).collect()),
        });
    }
    checks.push(Check::plain(torque_text(sheet)));
    // The last change made is the first undone, but the vehicle stays on its
    // stands while leaks are looked for; only wheels and ground come after,
    // and those are not under pressure.
    let changes = preparations
        .iter()
        .filter_map(|preparation| preparation.change.as_ref())
        .rev();
    checks.extend(changes.map(|change| Check {
        text: undoing(change),
        about: About::Undo(change.clone()),
    }));
    let mut plain = |text: &str| checks.push(Check::plain(text));
    plain("Spills washed, old fluid handed in.");
    if sheet.method() == Method::Reverse {
        plain("What came up into the reservoir is old: drawn off, new fluid poured in.");
    }
    plain("Reservoir at the maximum mark, cap on, level switch connected.");
    checks.push(Check {
        text: "Pumped firm, pressed hard and held 10 s: no sinking, no spring, no leak.".to_owned(),
        about: About::HardPress,
    });
    let mut plain = |text: &str| checks.push(Check::plain(text));
    if sheet.method() == Method::Vacuum {
        plain("Pedal soft: bled once more with the pedal or a tank; bubbles misled the pump.");
    }
    if sheet.has_booster(BoosterKind::Vacuum) {
        plain("Booster: foot on, engine started: the pedal sinks a little and stays firm.");
    }
    if sheet.has_tandem() {
        let has_switch = sheet.parts.iter().any(|part| {
            matches!(&part.kind, PartKind::Valve(valve) if valve.kind == ValveKind::DifferentialSwitch)
        });
        plain(if has_switch {
            "Brake lamp out; else the differential switch re-centred by the manual."
        } else {
            "Brake warning lamp out."
        });
    }
    let units = units(sheet);
    let has_unit = sheet
        .parts
        .iter()
        .any(|part| matches!(part.kind, PartKind::AntiLock { .. }));
    if has_unit {
        checks.push(Check {
            text: "Anti-lock lamp out.".to_owned(),
            about: About::AntiLockLamp,
        });
    }
    let has_air = units.iter().any(|unit| unit.kept.may_be_air());
    checks.extend(units.into_iter().flat_map(checks_of));
    if !remains.is_empty() {
        let parts: BTreeSet<&str> = remains.iter().map(|it| it.part.as_str()).collect();
        checks.push(Check {
            text: format!("Air let out, as warned, at {}.", joined(&parts)),
            about: About::Air(parts.into_iter().map(str::to_owned).collect()),
        });
    }
    let mut plain = |text: &str| checks.push(Check::plain(text));
    if sheet
        .circuits
        .iter()
        .any(|circuit| sheet.network().circuit(*circuit).purpose == Purpose::Clutch)
    {
        plain("Clutch: its pedal comes back by itself, every gear goes in without grating.");
    }
    plain(match (left_out.is_empty(), has_air) {
        (true, false) => "Pedal firm; slow road test away from traffic; level and leaks once more.",
        (false, _) => {
            "Pedal firm. No road test before the screws left out are bled; then slowly, away from \
             traffic; level and leaks once more."
        }
        (true, true) => {
            "Pedal firm. No road test before the anti-lock unit is finished; then slowly, away \
             from traffic; level and leaks once more."
        }
    });
    checks
}

/// One torque for all screws, or each with the screws it belongs to.
fn torque_text(sheet: &Sheet<'_, '_>) -> String {
    let network = sheet.network();
    let mut groups: BTreeMap<Option<&str>, BTreeSet<&str>> = BTreeMap::new();
    for screw in sheet.order {
        let screw = network.screw(*screw);
        let torque = screw.torque_text.as_deref();
        groups.entry(torque).or_default().insert(&screw.id);
    }
    let unknown = groups.remove(&None);
    if groups.is_empty() {
        return "Screws tightened to the maker's torque, checked twice.".to_owned();
    }
    if unknown.is_none() {
        let torques: Vec<&str> = groups.into_keys().flatten().collect();
        return format!(
            "Screws to torque ({}; the maker's figure governs), checked twice.",
            torques.join(", ")
        );
    }
    let mut parts: Vec<String> = groups
        .into_iter()
        .filter_map(|(torque, screws)| Some((torque?, screws)))
        .map(|(torque, screws)| format!("{torque} {}", joined(&screws)))
        .collect();
    parts.extend(unknown.map(|screws| format!("maker's figure {}", joined(&screws))));
    format!("Screws to torque, checked twice: {}.", parts.join("; "))
}

fn joined(names: &BTreeSet<&str>) -> String {
    let names: Vec<&str> = names.iter().copied().collect();
    names.join(", ")
}

fn undoing(change: &Change) -> String {
    match change {
        Change::ServiceMode => "Electric parking brake out of service mode.".to_owned(),
        Change::LeverTied(valve) => format!("Lever of `{valve}` untied."),
        Change::Clamp(line) => {
            format!("Clamp off `{line}`, hose undamaged.")
        }
        Change::Plug(at) => {
            format!("No plug left at `{at}` (out before the joint was made up); joint to torque.")
        }
        Change::Propped(cylinder) => format!("Prop of `{cylinder}` away, right up by itself."),
        Change::PedalBlock(cylinder) => format!("Block or stop of `{cylinder}` away."),
        Change::MeteringHeld(valve) => format!("Stem of `{valve}` released."),
        Change::Spacer(part) => {
            format!("Spacer out of `{part}`, bolted back to torque.")
        }
        Change::PressureReleased(owner) => {
            format!("`{owner}`: recharge as the maker says, caps and valves closed.")
        }
        Change::TankOn => "Tank pressure released first, then the tank off.".to_owned(),
        Change::OnSupports => "Brakes refitted, wheels to torque.".to_owned(),
        Change::CapsOff => "Screws dry, caps on.".to_owned(),
        Change::UnionLoosened(unions) => {
            format!("{unions}: if loosened, to the maker's torque, dry.")
        }
    }
}
