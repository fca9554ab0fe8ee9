//! The words of what an opened system asks for before the first screw.

use super::filled::whole_ml;
use super::instruction::{Instruction, line};
use crate::said::{Said, name, names, say};
use uom::si::f64::Volume;

/// Where a unit's pipes are exchanged it lets go the wrong wheel, and nobody feels it under the foot.
pub(super) fn joints_text(at: &[String], may_be_crossed: bool) -> Instruction {
    let own = if may_be_crossed {
        ", each pipe on its own port"
    } else {
        ""
    };
    let by = if may_be_crossed {
        "Ports by mark or manual. "
    } else {
        ""
    };
    line!(
        say!("Joints at {} made up{}, new washers, torque, wiped dry", names(at), own);
        say!("{}Washers where they have them, the maker's torque. Not opened again after the bleed.", by)
    )
}

pub(super) fn level_held(take_offs: &[(String, Volume)]) -> Instruction {
    let outlets =
        (take_offs.iter()).map(|(outlet, level)| say!("{}: {}", name(outlet), whole_ml(*level)));
    let outlets = if take_offs.is_empty() {
        Said::default()
    } else {
        say!(" (the clutch's in {})", Said::joined(outlets, ", "))
    };
    line!(
        say!("No level fell to an outlet{} while it was open; else plan \"ran dry\"", outlets);
        "It did: air is in the cylinder: stop, plan again with that compartment run dry."
    )
}

pub(super) fn new_brakes(parts: &[String], has_calipers: bool) -> Instruction {
    let parts = names(parts);
    if has_calipers {
        line!(
            say!("New {}: screw on top, plugs out, new washers, hose not twisted, pads in", parts);
            "Left and right not exchanged; transit plugs out; slides free; bolts as the maker says; hose clear lock to \
             lock and at droop; no tape on threads; pistons pumped out gently, once bled, before any hard press."
        )
    } else {
        line!(
            say!("New {}: plugs out, shoes and drum on before anybody presses", parts);
            "Transit plugs; bolts as the maker says; no tape on threads."
        )
    }
}
