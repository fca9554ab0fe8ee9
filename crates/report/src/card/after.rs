//! The words of what comes after the last screw.

use super::instruction::{Instruction, line};
use super::worked::{
    clutch_held, clutch_works, hard_press, held_lightly, of_one, pumped, wheels_free,
};
use crate::said::{Said, bare, bares, name, names, say};
use bleedwright_network::{BoosterKind, ParkingBrake};
use bleedwright_planner::{BarredBy, Change, Check, Kept, LeftInUnit, ScrewTorque, Standing};

/// What to do and what is right.
pub(crate) fn check_text(check: &Check) -> Instruction {
    match check {
        Check::UnsafeOrder => line!(
            "NOT FINISHED: the order given breaks a rule of the pipework";
            "What it left is bled again in an order without that."
        ),
        Check::LeftOut(screws) => line!(say!(
            "Screws left out bled: {}. NOT READY TO DRIVE before",
            bares(screws)
        )),
        Check::ScrewsToTorque(torques) => line!(
            "All screws to torque, checked twice; hoses off, dried; screw caps still off";
            say!("{}. A cap hides a weep.", torque_text(torques))
        ),
        Check::Undo(change) => undoing(change),
        Check::Routine(unit) => routine_text(unit),
        Check::BleedAgain(unit) => line!(
            say!("{}: bled again after the routine. NOT FINISHED, NOT ROADWORTHY before", name(unit));
            "Its circuits; until then the job is NOT FINISHED and the vehicle NOT ROADWORTHY."
        ),
        Check::Air(parts) => line!(say!("Air let out, as warned, at {}", bares(parts))),
        Check::BrakesTogether {
            has_discs,
            has_drums,
            has_axle_bolts,
        } => together_text(*has_discs, *has_drums, *has_axle_bolts),
        Check::OldFluidAbove => {
            line!("Old fluid that came up into the reservoir drawn off, new poured in")
        }
        Check::PumpedFirm { worked, has_discs } => pumped(worked, *has_discs),
        Check::Level { has_switch } => line!(level_text(*has_switch)),
        Check::HeldLightly(worked) => held_lightly(worked),
        Check::HardPress { worked, joints } => hard_press(worked, joints),
        Check::Booster(kind) => booster_text(*kind),
        Check::StopLamps => line!("Stop lamps light, by each control"),
        Check::BledByVacuum => line!(
            "Soft: bled once more with the pedal or a tank";
            "The pump's bubbles may have come in at the thread."
        ),
        Check::BrakeLamp {
            has_differential_switch: true,
        } => line!(
            "Brake warning lamp: on, then out";
            "Else the differential switch re-centred by the manual."
        ),
        Check::BrakeLamp { .. } => line!("Brake warning lamp: on, then out"),
        Check::AntiLockLamp => line!("Anti-lock lamp the same"),
        Check::ClutchHeld { worked, slaves } => clutch_held(worked, slaves),
        Check::Clutch(worked) => clutch_works(worked),
        Check::RenewedAgainSoon => line!(
            "Stood long: second renewal booked within weeks of use";
            "Dirt and water come loose (common practice, no source)."
        ),
        Check::WheelsFree(worked) => wheels_free(worked),
        Check::ParkingBrake(kind) => line!(parking_brake_text(*kind)),
        Check::Spills => line!(
            "Spills washed; linings, discs, tyres free of fluid; old fluid handed in";
            "Soaked linings: renewed."
        ),
        Check::FaultMemory { may_simulate_pedal } => fault_memory_text(*may_simulate_pedal),
        Check::RoadTest {
            barred_by,
            standing,
        } => road_test(*barred_by, *standing),
        Check::ClutchDriven => line!(
            "Moved off at walking pace, every gear tried; level, leaks again, also after a day"
        ),
    }
}

fn together_text(has_discs: bool, has_drums: bool, has_axle_bolts: bool) -> Instruction {
    match (has_discs, has_drums, has_axle_bolts) {
        (_, _, true) => line!("Pads or shoes all in place; calipers, loosened axles to torque"),
        (true, true, _) => {
            line!("Pads, shoes, drums all in place"; "Calipers bolted to torque.")
        }
        (false, true, _) => line!("Shoes and drums all in place"),
        (_, false, _) => line!("Pads all in place"; "Calipers bolted to torque."),
    }
}

fn level_text(has_switch: Option<bool>) -> &'static str {
    match has_switch {
        None => "Reservoir at the max mark, cap on, level switch (if fitted) connected",
        Some(true) => "Reservoir at the max mark, cap on, level switch connected, lamp out",
        Some(false) => "Reservoir at the max mark, cap on",
    }
}

fn booster_text(kind: BoosterKind) -> Instruction {
    match kind {
        BoosterKind::Vacuum | BoosterKind::Hydraulic => line!(
            "Neutral, foot on, start: sinks a little, holds; pressed hard; off: all dry";
            "Neutral or park, nobody under it or at a wheel, exhaust led out; hard with the engine running; engine off: \
             every place looked at again."
        ),
        BoosterKind::Electric => line!(
            "System awake: pressed hard again, with its help; asleep: all dry again";
            "As the maker says, nobody under it or at a wheel; every place looked at again."
        ),
    }
}

fn parking_brake_text(kind: Option<ParkingBrake>) -> &'static str {
    match kind {
        Some(ParkingBrake::Electric) => "Electric parking brake holds and lets go",
        Some(ParkingBrake::Cable) => {
            "Parking brake: shoes first, then the cable adjusted; holds, lets go"
        }
        None => "Parking brake holds and lets go",
    }
}

fn fault_memory_text(may_simulate_pedal: bool) -> Instruction {
    if may_simulate_pedal {
        line!(
            "A firm pedal proves nothing here: fault memory empty, maker's bleed check passed";
            "An electric booster may simulate the feel. Not so: not driven."
        )
    } else {
        line!("Fault memory read by the maker's routine, nothing left in it")
    }
}

fn road_test(barred_by: Option<BarredBy>, standing: Standing) -> Instruction {
    let barred = match barred_by {
        Some(BarredBy::LeftOut) => "before the screws left out are bled",
        Some(BarredBy::Unit) => "before the anti-lock unit is finished",
        None => return allowed_road_test(standing),
    };
    line!(
        say!("NO road test {}; then as slowly, level and leaks again", barred);
        "Firm then: at walking pace first, away from traffic; level and leaks again, once more after a day."
    )
}

fn allowed_road_test(standing: Standing) -> Instruction {
    match standing {
        Standing::TrailerOnStands => line!(
            "Coupled, locked, cable on, lamps; stops at walking pace, slow test away from traffic; level, leaks, nuts again";
            "Head pulled up to prove it, jockey wheel up, prop and chocks away; both drums alike and only warm after it; \
             once more after a day."
        ),
        Standing::MotorcycleOnStand => line!(
            "Stops at walking pace, each control; slow ride away from traffic; level, leaks";
            "Each control alone; level and leaks again, once more after a day."
        ),
        Standing::CarOnStands | Standing::WheelsOn => line!(
            "Stops at walking pace; slow road test away from traffic; then level, leaks";
            "Chocks away, parking brake at hand; wheel nuts too; all of it once more after a day."
        ),
    }
}

/// The maker governs how it is run.
fn routine_text(unit: &LeftInUnit) -> Instruction {
    let part = &unit.part;
    if unit.kept == Kept::OldFluid {
        return line!(
            say!("{}: keeps old fluid, unless its routine is run now", name(part));
            "By the maker's routine; then its circuits are bled again, and what follows here comes after that."
        );
    }
    line!(
        say!("{}: pressed gently, all joints dry; then the maker's routine run", name(part));
        "Reservoir full first, topped up by a second person all the way; the maker governs whether the pedal must be firm \
         first or is pressed for it; what is in its way, such as a block, out."
    )
}

/// One torque for all screws, or each with the screws it belongs to.
fn torque_text(torques: &[ScrewTorque]) -> Said {
    if torques.iter().all(|group| group.torque.is_none()) {
        return say!("The maker's torque");
    }
    if let [
        ScrewTorque {
            torque: Some(torque),
            ..
        },
    ] = torques
    {
        return say!("All {}; the maker's figure governs", bare(torque));
    }
    let parts = torques.iter().map(|group| {
        let torque = group.torque.as_deref();
        let torque = torque.map_or_else(|| "maker's figure".into(), bare);
        say!("{} {}", torque, bares(&group.screws))
    });
    say!("{}", Said::joined(parts, "; "))
}

fn undoing(change: &Change) -> Instruction {
    match change {
        Change::ServiceMode => line!("Electric parking brake out of service mode"),
        Change::LeverTied(valve) => line!(say!("Lever of {} untied", name(valve))),
        Change::Clamp(line) => line!(say!("Clamp off {}, hose undamaged", name(line))),
        Change::Plug(at) => line!(
            say!("No plug left at {}; joint to torque", name(at));
            "It was out before the joint was made up."
        ),
        Change::Propped(of) => line!(say!("Prop of {} away, right up by itself", of_one(of))),
        Change::PedalBlock(cylinders) => line!(say!("Block or stop OUT ({})", of_one(cylinders))),
        Change::MeteringHeld(valve) => line!(say!("Stem of {} released", name(valve))),
        Change::Spacer(part) => line!(say!("Spacer out of {}, bolted back to torque", name(part))),
        Change::PressureReleased(owner) => line!(say!(
            "{}: recharged as the maker says, caps and valves closed",
            name(owner)
        )),
        Change::TankOn => line!("Tank pressure released first, then the tank off"),
        Change::OnSupports(standing) => line!(match standing {
            Standing::CarOnStands => "Wheel nuts snug, lowered, to torque; parking brake on",
            Standing::TrailerOnStands => {
                "Wheel nuts snug, lowered, to torque; parking brake on until coupled"
            }
            Standing::MotorcycleOnStand => "Off the stand",
            Standing::WheelsOn => "Off the stands, parking brake on, chocks left",
        }),
        Change::BanjoCracked(cylinder) => {
            line!(say!(
                "Banjo at {} to the maker's torque, dry",
                name(cylinder)
            ))
        }
        Change::ReverseLockSet(cylinder) => line!(say!(
            "Reverse lock-out of {} works again as the maker says",
            name(cylinder)
        )),
        Change::BreakawayOff => line!(
            "Breakaway cable pulled: the parking brake holds; reset, refitted undamaged";
            "Chocked while it is tried."
        ),
        Change::CapsOff => line!("Caps on the screws"),
        Change::UnionLoosened(unions) => line!(say!(
            "{}: if loosened, to the maker's torque, dry",
            names(unions)
        )),
    }
}
