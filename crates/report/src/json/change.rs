//! Names of changes to the vehicle, as JSON has them.

use crate::said::names;
use bleedwright_planner::Change;

/// A change to the vehicle, as preparation and undoing name it.
pub(super) fn change_name(change: &Change) -> String {
    match change {
        Change::ServiceMode => "electric parking brake in service mode".to_owned(),
        Change::LeverTied(valve) => format!("lever tied: {valve}"),
        Change::Clamp(line) => format!("clamp: {line}"),
        Change::PedalBlock(cylinders) => format!("pedal block: {}", cylinders.join(" + ")),
        Change::MeteringHeld(valve) => format!("metering valve held open: {valve}"),
        Change::Spacer(part) => format!("spacer: {part}"),
        Change::PressureReleased(owner) => format!("stored pressure released: {owner}"),
        Change::TankOn => "pressure tank on".to_owned(),
        Change::OnSupports(_) => "on supports".to_owned(),
        Change::Plug(at) => format!("plug: {at}"),
        Change::Propped(cylinders) => format!("pedal propped: {}", cylinders.join(" + ")),
        Change::CapsOff => "screw caps off".to_owned(),
        Change::UnionLoosened(unions) => format!("union loosened: {}", names(unions)),
        Change::BanjoCracked(cylinder) => format!("banjo cracked: {cylinder}"),
        Change::ReverseLockSet(cylinder) => format!("reverse lock-out set: {cylinder}"),
        Change::BreakawayOff => "breakaway cable off".to_owned(),
    }
}
