//! The words of what comes before the first screw, and of what to do when something goes otherwise.

use super::worked::worked_text;
use crate::words::{capitalised, listed, quoted};
use bleedwright_network::{BoosterKind, Control, FluidFamily, ParkingBrake};
use bleedwright_planner::{Before, Fed, Otherwise, Preparation, Standing};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// What to do before the first screw.
pub(crate) fn before_text(preparation: &Preparation) -> String {
    preparation
        .fact
        .as_ref()
        .map_or_else(|| preparation.text.clone(), fact_text)
}

fn fact_text(fact: &Before) -> String {
    let fixed = match fact {
        Before::LookDry(fed) => return look_dry(*fed),
        Before::LookSound(fed) if has_brakes(*fed) => {
            "Hoses, pipes, linings sound; pistons and slides free by hand, nobody presses."
        }
        Before::LookSound(_) => "Hose, pipe sound; slave and its lever free.",
        Before::FreedDry(fed) => return freed_dry(*fed),
        Before::HosesByDate => {
            "Stood long: date read on each hose; past the maker's life, else the local rule: renewed \
             first, however sound it looks."
        }
        Before::ShortStrokes => {
            "Stood long: short strokes, never to the end, nor in the press afterwards: rust or dirt \
             where driving never sweeps the bore cuts the cups (common practice, no source)."
        }
        Before::Stands(standing) => standing_text(*standing),
        Before::LookFluid => "Old fluid: one colour, no layers; cap seal not swollen.",
        Before::LookScrews => {
            "Goggles, gloves. Each screw of the steps cleaned, cap off, cracked under a cloth and shut \
             again, nothing drawn off yet; every other screw left alone."
        }
        Before::Joints { at, may_be_crossed } => return joints_text(at, *may_be_crossed),
        Before::LevelHeld(take_offs) => return level_held(take_offs),
        Before::SwitchCentred(part) => {
            return format!(
                "Switch of `{part}` held centred by the manual's tool: one circuit open throws it."
            );
        }
        Before::Booster(BoosterKind::Vacuum) => {
            "Booster exhausted, all of that in place: engine off, pressed to the block until nothing \
             helps any more (with air in it the pedal may stay soft)."
        }
        Before::Booster(BoosterKind::Hydraulic) => {
            "Booster exhausted, all of that in place: engine and pump off, pressed to the block until \
             nothing helps any more."
        }
        Before::Booster(BoosterKind::Electric) => {
            "Electric booster: bled by its pedal only where the maker allows it, in the state that the \
             maker names; else stop, the manual's method."
        }
        Before::ParkingBrakeOff(Some(ParkingBrake::Cable)) => {
            "Then the parking brake off, its cable slack."
        }
        Before::ParkingBrakeOff(Some(ParkingBrake::Electric)) => {
            "Then the electric parking brake off, as the maker says (it may want the ignition)."
        }
        Before::ParkingBrakeOff(None) => "Then the parking brake off.",
        Before::PumpMayWake => {
            "A pump may wake by a door or the pedal and press fluid out: ignition and battery as the maker says, hands off \
             what is open."
        }
        Before::NewBrakes {
            parts,
            has_calipers,
        } => return new_brakes(parts, *has_calipers),
        Before::SlavesInPlace(slaves) => {
            return format!(
                "{} bolted in place: pressed without, the piston comes out.",
                quoted(slaves)
            );
        }
        Before::BarTurned(cylinders) => {
            return format!(
                "Bar turned until the reservoir of {} stands level and the highest; held so.",
                quoted(cylinders)
            );
        }
        Before::BanjoFirst(cylinder) => {
            return format!(
                "First of all the banjo at `{cylinder}`, which has no screw, cracked like one: cloth \
                 around, goggles, lever held lightly, nipped up before it is let go."
            );
        }
        Before::Linked(linked) => {
            let linked = listed(linked, " and ", worked_text);
            return format!(
                "Linked brakes: {linked} brakes front and rear wheel. Nothing else pressed or pulled while \
                 a screw is open; done when both controls are firm."
            );
        }
        Before::ReverseLockSet(cylinder) => {
            return format!(
                "Reverse lock-out of `{cylinder}`, where fitted, set so that the wheels brake when the \
                 shaft goes in: shaft in, the wheels turned forwards hold."
            );
        }
        Before::BreakawayOff => "Breakaway cable off, hanging free.",
        Before::ShaftByLever(cylinder) => {
            return format!(
                "Shaft of `{cylinder}` pushed in by a bar as a lever, slowly, the bar borne by the \
                 drawbar itself so that the trailer cannot slide; no hand between."
            );
        }
        Before::PortsOpen(controls) => return ports_open(controls),
    };
    fixed.to_owned()
}

fn has_brakes(fed: Fed) -> bool {
    fed.has_discs || fed.has_drums
}

fn look_dry(fed: Fed) -> String {
    let mut places = vec!["cylinder, unions, hoses"];
    places.extend(has_brakes(fed).then_some("wheels"));
    places.extend(fed.has_drums.then_some("inside the drums"));
    places.extend(fed.has_clutch.then_some("clutch slave"));
    format!(
        "Look first; one \"no\": stop, mend, plan again. Dry everywhere: {}.",
        places.join(", ")
    )
}

fn freed_dry(fed: Fed) -> String {
    let mut what = Vec::new();
    what.extend(fed.has_discs.then_some("caliper pistons and slides"));
    what.extend(fed.has_drums.then_some("wheel-cylinder pistons, shoes"));
    what.extend(fed.has_clutch.then_some("clutch slave"));
    format!(
        "Stood long: {} moved by hand, its screw open into a jar (rust goes out, not up), shut before \
         it is let back. Stuck: freed or renewed now, before fluid is poured, never by pressing.",
        what.join(", ")
    )
}

fn standing_text(standing: Standing) -> &'static str {
    match standing {
        Standing::CarOnStands => {
            "Ignition off; wheels chocked; lifted level on stands, never a jack alone."
        }
        Standing::TrailerOnStands => {
            "Not coupled to any vehicle; load off, or lashed and balanced; drawbar and tail propped against tipping; wheels chocked; \
             lifted level on stands, never a jack or jockey wheel alone; rocked by hand before anybody \
             kneels."
        }
        Standing::MotorcycleOnStand => {
            "Ignition off; machine upright on a firm stand, so that it cannot fall."
        }
        Standing::WheelsOn => {
            "Ignition off; neutral, parking brake on, chocked; stands where somebody lies under it, \
             never a jack alone."
        }
    }
}

fn ports_open(controls: &[Control]) -> String {
    let back = listed(controls, ", ", |control| match control {
        Control::Pedal => "Pedal all the way up",
        Control::HandLever => "lever right out",
        Control::Coupler => "shaft drawn right out",
    });
    let text = format!("{back} and left alone: only then are the ports open.");
    capitalised(&text)
}

/// Where a unit's pipes are exchanged it lets go the wrong wheel, and nobody feels it under the foot.
fn joints_text(at: &[String], may_be_crossed: bool) -> String {
    let own = if may_be_crossed {
        "each pipe on its own port, by mark or manual; "
    } else {
        ""
    };
    format!(
        "Joints opened at {}: {own}made up, new washers where they have them, to the maker's torque, \
         wiped dry. Not opened again after the bleed.",
        quoted(at)
    )
}

fn level_held(take_offs: &[(String, Volume)]) -> String {
    let outlets: Vec<String> = take_offs
        .iter()
        .map(|(name, level)| format!("`{name}`: {:.0} ml", level.get::<milliliter>()))
        .collect();
    let outlets = if outlets.is_empty() {
        String::new()
    } else {
        format!(" (the clutch's in {})", outlets.join(", "))
    };
    format!(
        "No level fell to an outlet{outlets} while the system was open. It did: air is in the cylinder: \
         stop, plan again with that compartment run dry."
    )
}

fn new_brakes(parts: &[String], has_calipers: bool) -> String {
    let parts = quoted(parts);
    if has_calipers {
        format!(
            "New: {parts}: screw on top (left and right not exchanged), transit plugs out, new \
             washers, slides free, bolts as the maker says; hose not twisted, clear lock to lock and \
             at droop; no tape on threads; pads in, pistons pumped out gently, once bled, before any hard press."
        )
    } else {
        format!(
            "New: {parts}: transit plugs out, bolts as the maker says, no tape on threads; shoes and \
             drum on before anybody presses."
        )
    }
}

/// What to do when something goes otherwise.
pub(crate) fn otherwise_text(what: Otherwise) -> String {
    let fixed = match what {
        Otherwise::NeverClear => {
            "Bubbles stay: hose tight on the screw? Level, unions, thread, cups, a high point. Old \
             colour stays: dirt, not air. Not found: not driven."
        }
        Otherwise::ScrewStuck => {
            "Screw stuck: soak (linings, hoses shielded), six-point socket, light shocks; heat only by the manual and on a \
             drained part. Snapped, or the pipe turns with it: renew first. A screw never bled: not \
             ready to drive."
        }
        Otherwise::NothingComes => {
            "Nothing comes: shut. Pedal, lever, shaft fully back? Valve held open? Screw out and clean; a hose \
             swollen shut: renew. Never press harder."
        }
        Otherwise::RanDry {
            feeds_others: false,
        } => {
            "Ran dry: stop, not driven. Air is in the cylinder: new plan, that compartment run dry."
        }
        Otherwise::RanDry { feeds_others: true } => {
            "Ran dry: stop. Air is in every cylinder that it feeds, also those not bled here: not \
             driven; new plan, that compartment run dry."
        }
        Otherwise::WrongFluid(family) => {
            let drop = match family {
                Some(FluidFamily::Glycol) => ", a drop floats on water and does not mix",
                Some(FluidFamily::Silicone | FluidFamily::MineralOil) => {
                    ", a drop mixes with water"
                }
                None => "",
            };
            return format!(
                "Wrong fluid (layers, swollen seals{drop}): not pumped round, not driven; the maker \
                 says what must be renewed. This plan does not serve."
            );
        }
        Otherwise::Sinks => {
            "Sinks, all shut: a leak, or a seal inside (cylinder, unit). NOT to be driven."
        }
        Otherwise::StaysSoft {
            fed,
            has_unit,
            is_parked_by_motor,
        } => return soft_text(fed, has_unit, is_parked_by_motor),
        Otherwise::ClutchDrags => {
            "Clutch drags or does not come back: free play and the slave's travel first; then air: \
             screw on top? slave piston pushed back, watching the reservoir; then cylinder, slave, \
             the clutch itself. Creeps: a leak or a seal, not driven. Stays down while it is bled: pulled up by hand."
        }
    };
    fixed.to_owned()
}

fn soft_text(fed: Fed, has_unit: bool, is_parked_by_motor: bool) -> String {
    let looser = if fed.has_drums { "shoes" } else { "run-out" };
    let mut next = vec!["screw on top? Tap"];
    next.push("each screw again, the highest last");
    if !has_unit {
        next.push("a high point: its union a quarter turn, light foot, cloth, nipped up, torque");
    }
    if fed.has_discs {
        next.push("tilt with the pistons on a spacer");
        next.push(if is_parked_by_motor {
            "service mode on, then pistons pushed back, watching the reservoir"
        } else {
            "pistons pushed back, watching the reservoir"
        });
    }
    next.push("another method");
    next.extend(has_unit.then_some("then the unit"));
    format!(
        "Soft: higher when pumped: {looser}, clearance. Springy: {}. A night with it held down proves \
         nothing. No road test.",
        next.join("; ")
    )
}
