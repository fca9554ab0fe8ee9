//! Names of changes to the vehicle and of what comes after the last screw, as JSON has them.

use crate::words::quoted;
use bleedwright_planner::{Change, Check};

/// What a check after the last screw is about.
pub(super) fn check_kind(check: &Check) -> &'static str {
    match check {
        Check::UnsafeOrder => "unsafe_order",
        Check::LeftOut(..) => "left_out",
        Check::ScrewsToTorque(..) => "screws_to_torque",
        Check::Undo(..) => "undo",
        Check::BrakesTogether { .. } => "brakes_together",
        Check::OldFluidAbove => "old_fluid_above",
        Check::PumpedFirm { .. } => "pumped_firm",
        Check::Level { .. } => "level",
        Check::HeldLightly(..) => "held_lightly",
        Check::HardPress { .. } => "hard_press",
        Check::Booster(..) => "booster",
        Check::StopLamps => "stop_lamps",
        Check::BledByVacuum => "bled_by_vacuum",
        Check::BrakeLamp { .. } => "brake_lamp",
        Check::AntiLockLamp => "anti_lock_lamp",
        Check::Routine(..) => "routine",
        Check::BleedAgain(..) => "bleed_again",
        Check::Air(..) => "air",
        Check::ClutchHeld { .. } => "clutch_held",
        Check::Clutch(..) => "clutch",
        Check::WheelsFree(..) => "wheels_free",
        Check::ParkingBrake(..) => "parking_brake",
        Check::Spills => "spills",
        Check::RoadTest { .. } => "road_test",
        Check::ClutchDriven => "clutch_driven",
        Check::RenewedAgainSoon => "renewed_again_soon",
        Check::FaultMemory { .. } => "fault_memory",
    }
}

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
        Change::UnionLoosened(unions) => format!("union loosened: {}", quoted(unions)),
        Change::BanjoCracked(cylinder) => format!("banjo cracked: {cylinder}"),
        Change::ReverseLockSet(cylinder) => format!("reverse lock-out set: {cylinder}"),
        Change::BreakawayOff => "breakaway cable off".to_owned(),
    }
}
