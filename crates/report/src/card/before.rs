//! The words of what comes before the first screw.

use super::filled::{drawn_off, gravity_first, level_lowered, new_fluid, taken_as_drawn_off};
use super::instruction::{Instruction, line};
use super::made::made_text;
use super::opened::{joints_text, level_held, new_brakes};
use super::worked::{pressed, worked_text};
use crate::number::mm;
use crate::said::{Said, bare, figure, name, names, say};
use bleedwright_network::{BoosterKind, Bounds, Control, ParkingBrake};
use bleedwright_planner::{Before, Fed, Look, Method};
use uom::si::f64::{Length, Pressure};
use uom::si::pressure::bar;

/// What to look at or to do before the first screw.
pub(crate) fn before_text(before: &Before) -> Instruction {
    match before {
        Before::Look(look) => look_text(*look),
        Before::ShortStrokes => line!(
            "Stood long: short strokes, never to the end, nor in the press afterwards";
            "Rust or dirt where driving never sweeps the bore cuts the cups (common practice, no source)."
        ),
        Before::Joints { at, may_be_crossed } => joints_text(at, *may_be_crossed),
        Before::LevelHeld(take_offs) => level_held(take_offs),
        Before::SwitchCentred(part) => line!(
            say!("Switch of {} held centred by the manual's tool", name(part));
            "One circuit open throws it."
        ),
        Before::Booster(kind) => booster_text(*kind),
        Before::ParkingBrakeOff(kind) => line!(parking_brake_off(*kind)),
        Before::PumpMayWake => line!(
            "A pump may wake by a door or the pedal: ignition, battery as the maker says";
            "It would press fluid out: hands off what is open."
        ),
        Before::NewBrakes {
            parts,
            has_calipers,
        } => new_brakes(parts, *has_calipers),
        Before::SlavesInPlace(slaves) => line!(say!(
            "{} bolted in place: pressed without, the piston comes out",
            names(slaves)
        )),
        Before::BarTurned(cylinders) => line!(say!(
            "Bar turned until the reservoir of {} is level and highest; held so",
            names(cylinders)
        )),
        Before::Linked(linked) => line!(
            say!(
                "Linked: {} brakes both wheels; nothing else pressed with a screw open",
                Said::joined(linked.iter().map(worked_text), " and ")
            );
            "It is done when both controls are firm."
        ),
        Before::ShaftByLever(cylinder) => line!(
            say!(
                "Shaft of {} pushed in slowly by a bar as a lever, no hand between",
                name(cylinder)
            );
            "The bar is borne by the drawbar itself, so that the trailer cannot slide."
        ),
        Before::PortsOpen(controls) => line!(ports_open(controls)),
        Before::Made(made) => made_text(made),
        Before::ResidualHeld { valves, method } => residual_held(valves, *method),
        Before::ShoesAdjusted => {
            line!("Shoes adjusted; drums on, held by screws or nuts: slack shoes feel like air")
        }
        Before::RoutineAtHand { unit, routine } => {
            let routine = routine.as_deref();
            let routine = routine.map_or_else(Said::default, |routine| say!(": {}", bare(routine)));
            line!(say!(
                "Maker's routine for {} at hand{}",
                name(unit),
                routine
            ))
        }
        Before::BenchDone(cylinders) => {
            line!(say!(
                "Taken as done: {} bled on the bench",
                names(cylinders)
            ))
        }
        Before::BenchFirst { cylinders, stroke } => bench_first(cylinders, *stroke),
        Before::DrawnOff(compartments) => drawn_off(compartments),
        Before::TakenAsDrawnOff {
            compartments,
            poured,
        } => taken_as_drawn_off(compartments, *poured),
        Before::NewFluid { fluid, method, .. } => new_fluid(*fluid, *method),
        Before::GravityFirst { controls, through } => gravity_first(controls, through),
        Before::LevelLowered(rooms) => level_lowered(rooms),
        Before::OpenInPairs => {
            line!("Three people, two hoses, two jars: screws of both circuits open at once")
        }
        Before::VacuumPump { below, controls } => vacuum_pump(*below, controls),
        Before::CupsMayLeak => {
            line!("A vacuum may draw air past cups of wheel cylinders: another method is better")
        }
        Before::CapLoose => {
            line!("Reservoir cap loose; one screw open at a time: a second one draws air in")
        }
        Before::CapOff => line!(
            "Cap off, cloth round the reservoir, goggles on";
            "When drawing back hold the syringe nozzle down."
        ),
        Before::DirtIntoUnit => line!(
            "Reverse allowed by the manual? Dirt goes into the anti-lock unit: a little fluid out of each screw first"
        ),
    }
}

/// What is looked at before anything else.
fn look_text(look: Look) -> Instruction {
    match look {
        Look::Dry(fed) => line!(look_dry(fed)),
        Look::Sound(fed) if has_brakes(fed) => {
            line!(
                "Hoses, pipes, linings sound; pistons, slides free, moved by hand";
                "Nobody presses while a brake is open."
            )
        }
        Look::Sound(_) => line!("Hose, pipe sound; slave and its lever free"),
        Look::Freed(fed) => freed_dry(fed),
        Look::HosesByDate => line!(
            "Stood long: date read on each hose; past the maker's life renewed first";
            "Else the local rule, however sound it looks."
        ),
        Look::Fluid => {
            line!("Old fluid: one colour, no layers; cap seal not swollen (else wrong fluid)")
        }
        Look::Screws => line!(
            "Goggles, gloves. Screws cleaned, caps off, cracked under a cloth, shut again";
            "Each that is to be opened; nothing is drawn off yet, and every other screw is left alone. One that sticks is found now, \
             not later."
        ),
    }
}

fn has_brakes(fed: Fed) -> bool {
    fed.has_discs || fed.has_drums
}

fn look_dry(fed: Fed) -> Said {
    let mut places = vec!["cylinder, unions, hoses"];
    places.extend(has_brakes(fed).then_some("wheels"));
    places.extend(fed.has_drums.then_some("inside the drums"));
    places.extend(fed.has_clutch.then_some("clutch slave"));
    let places = places.into_iter().map(Said::from);
    say!("Dry everywhere: {}", Said::joined(places, ", "))
}

fn freed_dry(fed: Fed) -> Instruction {
    let mut what = Vec::new();
    what.extend(fed.has_discs.then_some("caliper pistons, slides"));
    what.extend(fed.has_drums.then_some("wheel-cylinder pistons, shoes"));
    what.extend(fed.has_clutch.then_some("clutch slave"));
    line!(
        say!(
            "Stood long: {} moved by hand, screw open into a jar",
            Said::joined(what.into_iter().map(Said::from), ", ")
        );
        "Rust goes out, not up; the screw is shut before the piston is let back. What sticks is freed or renewed now, \
         before fluid is poured, never by pressing."
    )
}

fn ports_open(controls: &[Control]) -> Said {
    let back = controls.iter().map(|control| match control {
        Control::Pedal => "pedal all the way up".into(),
        Control::HandLever => "lever right out".into(),
        Control::Coupler => "shaft drawn right out".into(),
    });
    say!(
        "{}, left alone: only then are the ports open",
        Said::joined(back, ", ")
    )
    .capitalised()
}

/// Fluid held back by a valve comes out in a spurt.
fn residual_held(valves: &[String], method: Method) -> Instruction {
    let slow = match method {
        Method::Gravity => {
            "What opens it toward the brakes is not known: if nothing runs, use the pedal."
        }
        Method::Reverse => "Pushed back, it opens only above what it holds, heights on top.",
        Method::Pedal | Method::Pressure | Method::Vacuum => "",
    };
    line!(
        say!(
            "{} holds pressure: a screw may spurt; goggles, cloth, open slowly",
            names(valves)
        );
        slow
    )
}

fn booster_text(kind: BoosterKind) -> Instruction {
    match kind {
        BoosterKind::Vacuum => line!(
            "Booster emptied: engine off, pressed to the block until no help is left";
            "All before this in place first. With air in the brakes the pedal may stay soft."
        ),
        BoosterKind::Hydraulic => line!(
            "Booster emptied: engine, pump off, pressed until no help is left";
            "All before this in place first."
        ),
        BoosterKind::Electric => line!(
            "Electric booster: bled by its pedal only where the maker allows it";
            "In the state that the maker names; else stop, and by the manual's method."
        ),
    }
}

fn parking_brake_off(kind: Option<ParkingBrake>) -> &'static str {
    match kind {
        Some(ParkingBrake::Cable) => "Then the parking brake off, its cable slack",
        Some(ParkingBrake::Electric) => "Then the electric parking brake off, as the maker says",
        None => "Then the parking brake off",
    }
}

fn bench_first(cylinders: &[String], stroke: Length) -> Instruction {
    line!(
        say!(
            "Dry: {} bled on the bench first: strokes of {} until no bubble comes",
            names(cylinders),
            figure(mm(stroke))
        );
        "Not in the vehicle: held by the flange, goggles, blunt rod. Return tubes into the reservoir; nose a little \
         down, then a little up. With screwed plugs instead: as far as it goes, until it moves a few mm only."
    )
}

fn vacuum_pump(below: Bounds<Pressure>, controls: &[Control]) -> Instruction {
    let below = [below.low, below.high].map(|pressure| pressure.get::<bar>());
    line!(
        say!(
            "Pump at the screw, jar upright; {} below the air outside",
            figure(format_args!("{:.1}-{:.1} bar", below[0], below[1]))
        );
        say!(
            "Small bubbles that never end prove nothing: dissolved air, or air past the thread. Finish, and judge by \
             the {}.",
            pressed(controls)
        )
    )
}
