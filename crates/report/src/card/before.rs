//! The words of what comes before the first screw, and of what to do when something goes otherwise.

use bleedwright_network::ParkingBrake;
use bleedwright_planner::{Before, Otherwise, Preparation};

/// What to do before the first screw.
pub(crate) fn before_text(preparation: &Preparation) -> String {
    preparation
        .fact
        .as_ref()
        .map_or_else(|| preparation.text.clone(), fact_text)
}

fn fact_text(fact: &Before) -> String {
    let fixed = match fact {
        Before::LookDry { has_drums: true } => {
            "Look first; one \"no\": stop, mend, plan again. Dry everywhere: cylinder, unions, hoses, \
             wheels, inside the drums."
        }
        Before::LookDry { .. } => {
            "Look first; one \"no\": stop, mend, plan again. Dry everywhere: cylinder, unions, hoses, \
             wheels."
        }
        Before::LookSound => "Hoses, pipes, linings sound; pistons and slides free.",
        Before::LookFluid => "Old fluid: one colour, no layers; cap seal not swollen.",
        Before::LookScrews => "Every screw cracked and shut again, nothing drawn off yet.",
        Before::ParkingBrakeOff(Some(ParkingBrake::Cable)) => {
            "Then the parking brake off, its cable slack."
        }
        Before::ParkingBrakeOff(Some(ParkingBrake::Electric)) => {
            "Then the electric parking brake off, as the maker says."
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
    };
    fixed.to_owned()
}

fn new_brakes(parts: &[String], has_calipers: bool) -> String {
    let parts: Vec<String> = parts.iter().map(|part| format!("`{part}`")).collect();
    let parts = parts.join(", ");
    if has_calipers {
        format!(
            "New: {parts}: screw on top (left and right not exchanged), transit plugs out, new \
             washers, slides free, bolts as the maker says; hose not twisted, clear lock to lock and \
             at droop; no tape on threads; pads in, pistons pumped out gently before any hard press."
        )
    } else {
        format!(
            "New: {parts}: transit plugs out, bolts as the maker says, no tape on threads; shoes and \
             drum on before anybody presses."
        )
    }
}

/// What to do when something goes otherwise.
pub(crate) fn otherwise_text(what: Otherwise) -> &'static str {
    match what {
        Otherwise::ScrewStuck => {
            "Screw stuck: soak, six-point socket, light shocks; heat only by the manual and on a \
             drained part. Snapped, or the pipe turns with it: renew first. A screw never bled: not \
             ready to drive."
        }
        Otherwise::NothingComes => {
            "Nothing comes: shut. Right up? Screw or hose blocked? Never press harder."
        }
        Otherwise::RanDry => {
            "Ran dry: stop. Air is in the cylinder: new plan, that compartment run dry."
        }
        Otherwise::WrongFluid => {
            "Wrong fluid (layers, swollen seals, a drop clouds or sinks in water): not pumped round, \
             not driven; the maker says what must be renewed. This plan does not serve."
        }
        Otherwise::Sinks => "Sinks, all shut: a leak, or the cylinder. NOT to be driven.",
        Otherwise::StaysSoft => {
            "Soft: higher when pumped: shoes, clearance. Springy: screw on top? Tap; tilt with the \
             pistons on a spacer; pistons pushed back, watching the reservoir; another method; then \
             the unit. Held down overnight it proves nothing. No road test."
        }
    }
}
