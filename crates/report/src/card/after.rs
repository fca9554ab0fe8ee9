//! The words of what comes after the last screw.

use super::worked::{
    clutch_held, clutch_works, hard_press, held_lightly, of_one, pumped, wheels_free,
};
use crate::said::{Said, bare, bares, name, names, say};
use bleedwright_network::{BoosterKind, ParkingBrake};
use bleedwright_planner::{BarredBy, Change, Check, Kept, LeftInUnit, ScrewTorque, Standing};

/// What to do and what is right.
pub(crate) fn check_text(check: &Check) -> Said {
    let fixed = match check {
        Check::UnsafeOrder => {
            "NOT FINISHED: the order given breaks a rule of the pipework. What it left is bled again in \
             an order without that."
        }
        Check::LeftOut(screws) => {
            return say!(
                "Screws left out bled: {}. NOT READY TO DRIVE before.",
                bares(screws)
            );
        }
        Check::ScrewsToTorque(torques) => {
            return say!(
                "{}; hoses off, screws dried. Caps stay off: a cap hides a weep.",
                torque_text(torques)
            );
        }
        Check::Undo(change) => return undoing(change),
        Check::Routine(unit) => return routine_text(unit),
        Check::BleedAgain(unit) => {
            return say!(
                "{}: its circuits bled again after the routine. Until then the job is NOT \
                 FINISHED and the vehicle NOT ROADWORTHY.",
                name(unit)
            );
        }
        Check::Air(parts) => return say!("Air let out, as warned, at {}.", bares(parts)),
        Check::BrakesTogether {
            has_discs,
            has_drums,
            has_axle_bolts,
        } => together_text(*has_discs, *has_drums, *has_axle_bolts),
        Check::OldFluidAbove => {
            "What came up into the reservoir is old: drawn off, new fluid poured in."
        }
        Check::PumpedFirm { worked, has_discs } => return pumped(worked, *has_discs),
        Check::Level { has_switch } => level_text(*has_switch),
        Check::HeldLightly(worked) => return held_lightly(worked),
        Check::HardPress { worked, joints } => return hard_press(worked, joints),
        Check::Booster(kind) => booster_text(*kind),
        Check::StopLamps => "Stop lamps light, by each control.",
        Check::BledByVacuum => {
            "Soft: bled once more with the pedal or a tank; the pump's bubbles may have come in at \
             the thread."
        }
        Check::BrakeLamp {
            has_differential_switch: true,
        } => {
            "Brake warning lamp lights with the ignition, then out; else the differential switch \
             re-centred by the manual."
        }
        Check::BrakeLamp { .. } => "Brake warning lamp lights with the ignition, then out.",
        Check::AntiLockLamp => "Anti-lock lamp lights with the ignition, then out.",
        Check::ClutchHeld { worked, slaves } => return clutch_held(worked, slaves),
        Check::Clutch(worked) => return clutch_works(worked),
        Check::RenewedAgainSoon => {
            "Stood long: second renewal booked within weeks of use, as dirt and water come loose \
             (common practice, no source)."
        }
        Check::WheelsFree(worked) => return wheels_free(worked),
        Check::ParkingBrake(kind) => parking_brake_text(*kind),
        Check::Spills => {
            "Spills washed; linings, discs, tyres free of fluid (soaked linings: renewed); old fluid \
             handed in."
        }
        Check::FaultMemory { may_simulate_pedal } => fault_memory_text(*may_simulate_pedal),
        Check::RoadTest {
            barred_by,
            standing,
        } => road_test(*barred_by, *standing),
        Check::ClutchDriven => {
            "Moved off at walking pace, every gear tried; level and leaks again, once more after a day."
        }
    };
    fixed.into()
}

fn together_text(has_discs: bool, has_drums: bool, has_axle_bolts: bool) -> &'static str {
    match (has_discs, has_drums, has_axle_bolts) {
        (_, _, true) => "Pads or shoes in place; calipers and loosened axles to torque.",
        (true, true, _) => "Pads, shoes and drums in place, calipers bolted to torque.",
        (false, true, _) => "Shoes and drums in place.",
        (_, false, _) => "Pads in place, calipers bolted to torque.",
    }
}

fn level_text(has_switch: Option<bool>) -> &'static str {
    match has_switch {
        None => "Reservoir at the maximum mark, cap on, level switch (if fitted) connected.",
        Some(true) => {
            "Reservoir at the maximum mark, cap on, level switch connected, its lamp out."
        }
        Some(false) => "Reservoir at the maximum mark, cap on.",
    }
}

fn booster_text(kind: BoosterKind) -> &'static str {
    match kind {
        BoosterKind::Vacuum | BoosterKind::Hydraulic => {
            "Neutral or park, nobody under it or at a wheel, exhaust led out: foot on, start: sinks \
             a little, stays firm; hard again, engine running. Engine off: every place dry again."
        }
        BoosterKind::Electric => {
            "System awake as the maker says, nobody under it or at a wheel: hard again, with its help. \
             Asleep: every place dry again."
        }
    }
}

fn parking_brake_text(kind: Option<ParkingBrake>) -> &'static str {
    match kind {
        Some(ParkingBrake::Electric) => "Electric parking brake holds and lets go.",
        Some(ParkingBrake::Cable) => {
            "Parking brake: shoes first, then the cable adjusted; holds, lets go."
        }
        None => "Parking brake (if fitted) adjusted, holds, lets go.",
    }
}

fn fault_memory_text(may_simulate_pedal: bool) -> &'static str {
    if may_simulate_pedal {
        "A firm pedal proves nothing here: an electric booster may simulate the feel. Fault memory read, nothing left in \
         it, and the maker's own check of the bleed passed; else not driven."
    } else {
        "Fault memory read by the maker's routine, nothing left in it."
    }
}

fn road_test(barred_by: Option<BarredBy>, standing: Standing) -> &'static str {
    match (barred_by, standing) {
        (Some(BarredBy::LeftOut), _) => {
            "No road test before the screws left out are bled; then firm, at walking pace first, \
             away from traffic; level and leaks again, once more after a day."
        }
        (Some(BarredBy::Unit), _) => {
            "No road test before the anti-lock unit is finished; then firm, at walking pace first, \
             away from traffic; level and leaks again, once more after a day."
        }
        (None, Standing::TrailerOnStands) => {
            "Coupled, head locked and pulled up to prove it, breakaway cable on, jockey wheel up, lamps \
             tried, prop and chocks away: stops at walking pace, then a slow road test away from \
             traffic, both drums alike and only warm after it; level, leaks, wheel nuts again, once more \
             after a day."
        }
        (None, Standing::MotorcycleOnStand) => {
            "Stops at walking pace by each control alone, then a slow ride away from traffic; level \
             and leaks again, once more after a day."
        }
        (None, Standing::CarOnStands | Standing::WheelsOn) => {
            "Chocks away. Stops at walking pace, parking brake at hand, then a slow road test away from \
             traffic; level, leaks, wheel nuts again, once more after a day."
        }
    }
}

/// The maker governs how it is run.
fn routine_text(unit: &LeftInUnit) -> Said {
    let part = &unit.part;
    if unit.kept == Kept::OldFluid {
        return say!(
            "{}: old fluid stays in it unless the maker's routine is run and its circuits bled again.",
            name(part)
        );
    }
    say!(
        "{}: first pressed gently, every joint seen dry; then the maker's routine run. Reservoir full first, topped up by a second person all the way; the maker governs whether the pedal must be firm first or is \
         pressed for it; what is in its way, such as a block, out.",
        name(part)
    )
}

/// One torque for all screws, or each with the screws it belongs to.
fn torque_text(torques: &[ScrewTorque]) -> Said {
    if torques.iter().all(|group| group.torque.is_none()) {
        return say!("Screws tightened to the maker's torque, checked twice");
    }
    if let [
        ScrewTorque {
            torque: Some(torque),
            ..
        },
    ] = torques
    {
        return say!(
            "Screws to torque ({}; the maker's figure governs), checked twice",
            bare(torque)
        );
    }
    let parts = torques.iter().map(|group| {
        let torque = group.torque.as_deref();
        let torque = torque.map_or_else(|| "maker's figure".into(), bare);
        say!("{} {}", torque, bares(&group.screws))
    });
    say!(
        "Screws to torque, checked twice: {}",
        Said::joined(parts, "; ")
    )
}

fn undoing(change: &Change) -> Said {
    match change {
        Change::ServiceMode => say!("Electric parking brake out of service mode."),
        Change::LeverTied(valve) => say!("Lever of {} untied.", name(valve)),
        Change::Clamp(line) => say!("Clamp off {}, hose undamaged.", name(line)),
        Change::Plug(at) => {
            say!(
                "No plug left at {} (out before the joint was made up); joint to torque.",
                name(at)
            )
        }
        Change::Propped(of) => say!("Prop of {} away, right up by itself.", of_one(of)),
        Change::PedalBlock(cylinders) => say!("Block or stop of {} away.", of_one(cylinders)),
        Change::MeteringHeld(valve) => say!("Stem of {} released.", name(valve)),
        Change::Spacer(part) => say!("Spacer out of {}, bolted back to torque.", name(part)),
        Change::PressureReleased(owner) => {
            say!(
                "{}: recharge as the maker says, caps and valves closed.",
                name(owner)
            )
        }
        Change::TankOn => say!("Tank pressure released first, then the tank off."),
        Change::OnSupports(standing) => match standing {
            Standing::CarOnStands => {
                "Wheel nuts snug, lowered, to torque on the ground; parking brake on."
            }
            Standing::TrailerOnStands => {
                "Wheel nuts snug, lowered, to torque on the ground; parking brake on until coupled."
            }
            Standing::MotorcycleOnStand => "Off the stand.",
            Standing::WheelsOn => "Off the stands, parking brake on, chocks left.",
        }
        .into(),
        Change::BanjoCracked(cylinder) => {
            say!("Banjo at {} to the maker's torque, dry.", name(cylinder))
        }
        Change::ReverseLockSet(cylinder) => {
            say!(
                "Reverse lock-out of {} works again as the maker says.",
                name(cylinder)
            )
        }
        Change::BreakawayOff => say!(
            "Breakaway cable pulled, chocked: the parking brake goes on and holds; reset, refitted undamaged."
        ),
        Change::CapsOff => say!("Caps on the screws."),
        Change::UnionLoosened(unions) => {
            say!(
                "{}: if loosened, to the maker's torque, dry.",
                names(unions)
            )
        }
    }
}
