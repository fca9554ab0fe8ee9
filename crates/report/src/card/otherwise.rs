//! The words of what to do when something goes otherwise.

use crate::said::{Said, say};
use bleedwright_network::FluidFamily;
use bleedwright_planner::{Fed, Otherwise};

/// What to do when something goes otherwise.
pub(crate) fn otherwise_text(what: Otherwise) -> Said {
    match what {
        Otherwise::NeverClear => say!(
            "Bubbles stay: hose tight on the screw? Level, unions, thread, cups, a high point. Old \
             colour stays: dirt, not air. Not found: not driven."
        ),
        Otherwise::ScrewStuck => say!(
            "Screw stuck: soak (linings, hoses shielded), six-point socket, light shocks; heat only by the manual and on a \
             drained part. Snapped, or the pipe turns with it: renew first. A screw never bled: not \
             ready to drive."
        ),
        Otherwise::NothingComes => say!(
            "Nothing comes: shut. Pedal, lever, shaft fully back? Valve held open? Screw out and clean; a hose \
             swollen shut: renew. Never press harder."
        ),
        Otherwise::RanDry {
            feeds_others: false,
        } => say!(
            "Ran dry: stop, not driven. Air is in the cylinder: new plan, that compartment run dry."
        ),
        Otherwise::RanDry { feeds_others: true } => say!(
            "Ran dry: stop. Air is in every cylinder that it feeds, also those not bled here: not \
             driven; new plan, that compartment run dry."
        ),
        Otherwise::WrongFluid(family) => {
            let drop = match family {
                Some(FluidFamily::Glycol) => ", a drop floats on water and does not mix",
                Some(FluidFamily::Silicone | FluidFamily::MineralOil) => {
                    ", a drop mixes with water"
                }
                None => "",
            };
            say!(
                "Wrong fluid (layers, swollen seals{}): not pumped round, not driven; the maker \
                 says what must be renewed. This plan does not serve.",
                drop
            )
        }
        Otherwise::Sinks => {
            say!("Sinks, all shut: a leak, or a seal inside (cylinder, unit). NOT to be driven.")
        }
        Otherwise::StaysSoft {
            fed,
            has_unit,
            is_parked_by_motor,
        } => soft_text(fed, has_unit, is_parked_by_motor),
        Otherwise::ClutchDrags => say!(
            "Clutch drags or does not come back: free play and the slave's travel first; then air: \
             screw on top? slave piston pushed back, watching the reservoir; then cylinder, slave, \
             the clutch itself. Creeps: a leak or a seal, not driven. Stays down while it is bled: pulled up by hand."
        ),
    }
}

fn soft_text(fed: Fed, has_unit: bool, is_parked_by_motor: bool) -> Said {
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
    say!(
        "Soft: higher when pumped: {}, clearance. Springy: {}. A night with it held down proves \
         nothing. No road test.",
        looser,
        Said::joined(next.into_iter().map(Said::from), "; ")
    )
}
