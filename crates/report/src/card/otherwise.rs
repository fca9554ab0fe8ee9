//! The words of what to do when something goes otherwise.

use super::instruction::{Instruction, line};
use crate::said::{Said, say};
use bleedwright_network::FluidFamily;
use bleedwright_planner::{Fed, Otherwise};

/// What happens, and what to do then.
#[derive(Clone, Debug)]
pub struct CardIf {
    /// What happens, in so few words that it is found.
    pub what: &'static str,
    /// What to do.
    pub then: Instruction,
}

impl CardIf {
    /// What happens, and all of what to do.
    pub fn whole(&self) -> Said {
        say!("{}: {}", self.what, self.then.whole())
    }
}

/// What to do when something goes otherwise.
pub(crate) fn otherwise_text(what: Otherwise) -> CardIf {
    let (what, then) = match what {
        Otherwise::NeverClear => (
            "bubbles come",
            line!(
                "Hose, level right? Go on; at the STOP mark find the air leak";
                "Hose tight on the screw, level, unions, thread, cups, a high point. Old colour that stays is dirt, not air. Not found: not driven."
            ),
        ),
        Otherwise::ScrewStuck => (
            "screw sticks",
            line!(
                "Soak, no force. Snapped: renew. Not bled: NOT to be driven";
                "Linings and hoses shielded; six-point socket; light shocks; heat only by the manual and on a drained part. Snapped, or the \
                 pipe turns with it: renewed first. A screw never bled: not ready to drive."
            ),
        ),
        Otherwise::NothingComes => (
            "nothing comes",
            line!(
                "Shut. Pedal, lever right back? Screw clean? No harder press";
                "Pedal, lever, shaft fully back? A valve held open? Screw out and clean; a hose swollen shut: renewed."
            ),
        ),
        Otherwise::RanDry { feeds_others } => (
            "it ran dry",
            line!(
                "Stop, not driven. Air is in the cylinder: plan \"ran dry\"";
                if feeds_others {
                    "In every cylinder that it feeds, also those not bled here: that compartment run dry."
                } else {
                    "That compartment run dry."
                }
            ),
        ),
        Otherwise::WrongFluid(family) => {
            let drop = match family {
                Some(FluidFamily::Glycol) => "A drop floats on water and does not mix.",
                Some(FluidFamily::Silicone | FluidFamily::MineralOil) => "A drop mixes with water.",
                None => "",
            };
            (
                "wrong fluid",
                line!(
                    "Not pumped round, not driven: the maker says what to renew";
                    say!("Layers, swollen seals. {} This plan does not serve.", drop)
                ),
            )
        }
        Otherwise::Sinks => (
            "it sinks",
            line!("With all shut: a leak, or a seal inside. NOT to be driven"; "A seal of the cylinder or of a unit."),
        ),
        Otherwise::StaysSoft {
            fed,
            has_unit,
            is_parked_by_motor,
        } => ("it is soft", soft_text(fed, has_unit, is_parked_by_motor)),
        Otherwise::ClutchDrags => (
            "clutch drags",
            line!(
                "Free play? Slave travel? Air: screw on top? Cylinder, slave";
                "Or it does not come back; then the clutch itself. Slave piston pushed back, watching the reservoir. Creeps: a leak or a seal, not \
                 driven. Stays down while it is bled: pulled up by hand."
            ),
        ),
    };
    CardIf { what, then }
}

fn soft_text(fed: Fed, has_unit: bool, is_parked_by_motor: bool) -> Instruction {
    let looser = if fed.has_drums { "shoes" } else { "pads, disc" };
    let mut next = Vec::new();
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
    line!(
        say!(
            "Higher when pumped: {} loose. Springy: screw on top? Tap it, bleed again, highest last. Still: no road test, page 2",
            looser
        );
        say!(
            "Clearance too. Then {}. A night with it held down proves nothing.",
            Said::joined(next.into_iter().map(Said::from), "; ")
        )
    )
}
