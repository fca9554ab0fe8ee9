//! The words of what comes before the first screw.

use super::filled::{drawn_off, gravity_first, level_lowered, new_fluid, taken_as_drawn_off};
use super::made::made_text;
use super::opened::{joints_text, level_held, new_brakes};
use super::worked::{pressed, worked_text};
use crate::number::mm;
use crate::said::{Said, bare, figure, name, names, say};
use bleedwright_network::{BoosterKind, Bounds, Control, ParkingBrake};
use bleedwright_planner::{Before, Fed, Method};
use uom::si::f64::{Length, Pressure};
use uom::si::pressure::bar;

/// What to look at or to do before the first screw.
pub(crate) fn before_text(before: &Before) -> Said {
    match before {
        Before::LookDry(fed) => look_dry(*fed),
        Before::LookSound(fed) if has_brakes(*fed) => {
            say!("Hoses, pipes, linings sound; pistons and slides free by hand, nobody presses.")
        }
        Before::LookSound(_) => say!("Hose, pipe sound; slave and its lever free."),
        Before::FreedDry(fed) => freed_dry(*fed),
        Before::HosesByDate => say!(
            "Stood long: date read on each hose; past the maker's life, else the local rule: renewed \
             first, however sound it looks."
        ),
        Before::ShortStrokes => say!(
            "Stood long: short strokes, never to the end, nor in the press afterwards: rust or dirt \
             where driving never sweeps the bore cuts the cups (common practice, no source)."
        ),
        Before::LookFluid => say!("Old fluid: one colour, no layers; cap seal not swollen."),
        Before::LookScrews => say!(
            "Goggles, gloves. Each screw of the steps cleaned, cap off, cracked under a cloth and shut \
             again, nothing drawn off yet; every other screw left alone."
        ),
        Before::Joints { at, may_be_crossed } => joints_text(at, *may_be_crossed),
        Before::LevelHeld(take_offs) => level_held(take_offs),
        Before::SwitchCentred(part) => say!(
            "Switch of {} held centred by the manual's tool: one circuit open throws it.",
            name(part)
        ),
        Before::Booster(kind) => booster_text(*kind),
        Before::ParkingBrakeOff(kind) => parking_brake_off(*kind).into(),
        Before::PumpMayWake => say!(
            "A pump may wake by a door or the pedal and press fluid out: ignition and battery as the maker says, hands off \
             what is open."
        ),
        Before::NewBrakes {
            parts,
            has_calipers,
        } => new_brakes(parts, *has_calipers),
        Before::SlavesInPlace(slaves) => say!(
            "{} bolted in place: pressed without, the piston comes out.",
            names(slaves)
        ),
        Before::BarTurned(cylinders) => say!(
            "Bar turned until the reservoir of {} stands level and the highest; held so.",
            names(cylinders)
        ),
        Before::Linked(linked) => say!(
            "Linked brakes: {} brakes front and rear wheel. Nothing else pressed or pulled while \
             a screw is open; done when both controls are firm.",
            Said::joined(linked.iter().map(worked_text), " and ")
        ),
        Before::ShaftByLever(cylinder) => say!(
            "Shaft of {} pushed in by a bar as a lever, slowly, the bar borne by the \
             drawbar itself so that the trailer cannot slide; no hand between.",
            name(cylinder)
        ),
        Before::PortsOpen(controls) => ports_open(controls),
        Before::Made(made) => made_text(made),
        Before::ResidualHeld { valves, method } => residual_held(valves, *method),
        Before::ShoesAdjusted => say!(
            "Drum brakes' shoes adjusted, drums on and held by screws or wheel nuts: slack shoes feel like air."
        ),
        Before::RoutineAtHand { unit, routine } => routine_at_hand(unit, routine.as_deref()),
        Before::BenchDone(cylinders) => {
            say!("Taken as done: {} bled on the bench.", names(cylinders))
        }
        Before::BenchFirst { cylinders, stroke } => bench_first(cylinders, *stroke),
        Before::DrawnOff(compartments) => drawn_off(compartments),
        Before::TakenAsDrawnOff {
            compartments,
            poured,
        } => taken_as_drawn_off(compartments, *poured),
        Before::NewFluid {
            fluid,
            method,
            take_offs,
        } => new_fluid(*fluid, *method, take_offs),
        Before::GravityFirst { controls, through } => gravity_first(controls, through),
        Before::LevelLowered(rooms) => level_lowered(rooms),
        Before::OpenInPairs => {
            say!("Three people, two hoses, two jars: screws of both circuits are open at once.")
        }
        Before::VacuumPump { below, controls } => vacuum_pump(*below, controls),
        Before::CupsMayLeak => say!(
            "A vacuum may draw air past the cups of wheel cylinders: another method is \
             better for these."
        ),
        Before::CapLoose => {
            say!("Reservoir cap loose. One screw open at a time: a second one draws air in.")
        }
        Before::CapOff => say!(
            "Cap off, cloth round the reservoir, goggles on. When drawing back hold the \
             syringe nozzle down."
        ),
        Before::DirtIntoUnit => say!(
            "Dirt from the brakes would be pushed into the anti-lock unit: first let a \
             little fluid out of each screw, and ask the maker's manual whether reverse \
             is allowed."
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
    say!(
        "Look first; one \"no\": stop, mend, plan again. Dry everywhere: {}.",
        Said::joined(places.into_iter().map(Said::from), ", ")
    )
}

fn freed_dry(fed: Fed) -> Said {
    let mut what = Vec::new();
    what.extend(fed.has_discs.then_some("caliper pistons and slides"));
    what.extend(fed.has_drums.then_some("wheel-cylinder pistons, shoes"));
    what.extend(fed.has_clutch.then_some("clutch slave"));
    say!(
        "Stood long: {} moved by hand, its screw open into a jar (rust goes out, not up), shut before \
         it is let back. Stuck: freed or renewed now, before fluid is poured, never by pressing.",
        Said::joined(what.into_iter().map(Said::from), ", ")
    )
}

fn ports_open(controls: &[Control]) -> Said {
    let back = controls.iter().map(|control| match control {
        Control::Pedal => "pedal all the way up".into(),
        Control::HandLever => "lever right out".into(),
        Control::Coupler => "shaft drawn right out".into(),
    });
    say!(
        "{} and left alone: only then are the ports open.",
        Said::joined(back, ", ")
    )
    .capitalised()
}

/// Fluid held back by a valve comes out in a spurt.
fn residual_held(valves: &[String], method: Method) -> Said {
    let slow = match method {
        Method::Gravity => {
            " What opens it toward the brakes is not known: if nothing runs, use the pedal."
        }
        Method::Reverse => " Pushed back, it opens only above what it holds, heights on top.",
        Method::Pedal | Method::Pressure | Method::Vacuum => "",
    };
    say!(
        "{} holds pressure: a spurt may come from a screw; goggles, cloth, open slowly.{}",
        names(valves),
        slow
    )
}

fn booster_text(kind: BoosterKind) -> Said {
    let fixed = match kind {
        BoosterKind::Vacuum => {
            "Booster exhausted, all of that in place: engine off, pressed to the block until nothing \
             helps any more (with air in it the pedal may stay soft)."
        }
        BoosterKind::Hydraulic => {
            "Booster exhausted, all of that in place: engine and pump off, pressed to the block until \
             nothing helps any more."
        }
        BoosterKind::Electric => {
            "Electric booster: bled by its pedal only where the maker allows it, in the state that the \
             maker names; else stop, the manual's method."
        }
    };
    fixed.into()
}

fn parking_brake_off(kind: Option<ParkingBrake>) -> &'static str {
    match kind {
        Some(ParkingBrake::Cable) => "Then the parking brake off, its cable slack.",
        Some(ParkingBrake::Electric) => {
            "Then the electric parking brake off, as the maker says (it may want the ignition)."
        }
        None => "Then the parking brake off.",
    }
}

fn routine_at_hand(unit: &str, routine: Option<&str>) -> Said {
    let routine = routine.map_or(".".into(), |routine| say!(": {}", bare(routine)));
    say!("Maker's routine for {} at hand{}", name(unit), routine)
}

fn bench_first(cylinders: &[String], stroke: Length) -> Said {
    say!(
        "Dry: {}: bled on the bench first, not in the vehicle: held by the flange, goggles, \
         blunt rod. Return tubes into the reservoir: strokes of {} until no bubble comes, \
         nose a little down, then a little up. With screwed plugs instead: as far as it goes, \
         until it moves a few mm only.",
        names(cylinders),
        figure(mm(stroke))
    )
}

fn vacuum_pump(below: Bounds<Pressure>, controls: &[Control]) -> Said {
    let below = [below.low, below.high].map(|pressure| pressure.get::<bar>());
    say!(
        "Pump at the screw, jar upright; {} below the air outside. Small bubbles \
         that never end prove nothing: dissolved air, or air past the thread. Finish, and \
         judge by the {}.",
        figure(format_args!("{:.1}-{:.1} bar", below[0], below[1])),
        pressed(controls)
    )
}
