//! The words of what an opened system asks for before the first screw.

use super::filled::whole_ml;
use crate::said::{Said, name, names, say};
use uom::si::f64::Volume;

/// Where a unit's pipes are exchanged it lets go the wrong wheel, and nobody feels it under the foot.
pub(super) fn joints_text(at: &[String], may_be_crossed: bool) -> Said {
    let own = if may_be_crossed {
        "each pipe on its own port, by mark or manual; "
    } else {
        ""
    };
    say!(
        "Joints opened at {}: {}made up, new washers where they have them, to the maker's torque, \
         wiped dry. Not opened again after the bleed.",
        names(at),
        own
    )
}

pub(super) fn level_held(take_offs: &[(String, Volume)]) -> Said {
    let outlets =
        (take_offs.iter()).map(|(outlet, level)| say!("{}: {}", name(outlet), whole_ml(*level)));
    let outlets = if take_offs.is_empty() {
        Said::default()
    } else {
        say!(" (the clutch's in {})", Said::joined(outlets, ", "))
    };
    say!(
        "No level fell to an outlet{} while the system was open. It did: air is in the cylinder: \
         stop, plan again with that compartment run dry.",
        outlets
    )
}

pub(super) fn new_brakes(parts: &[String], has_calipers: bool) -> Said {
    let parts = names(parts);
    if has_calipers {
        say!(
            "New: {}: screw on top (left and right not exchanged), transit plugs out, new \
             washers, slides free, bolts as the maker says; hose not twisted, clear lock to lock and \
             at droop; no tape on threads; pads in, pistons pumped out gently, once bled, before any hard press.",
            parts
        )
    } else {
        say!(
            "New: {}: transit plugs out, bolts as the maker says, no tape on threads; shoes and \
             drum on before anybody presses.",
            parts
        )
    }
}
