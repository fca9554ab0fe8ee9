//! The words of what new fluid is used for.

use bleedwright_planner::Use;

/// One part of what is bought.
pub(crate) fn use_text(what: Use) -> &'static str {
    match what {
        Use::Pushed => "pushed at most",
        Use::ByGravity => "filled by gravity first",
        Use::Tank => "left in the tank",
        Use::Reservoir => "reservoir rinsed and refilled",
        Use::EmptyReservoir => "empty reservoir filled",
        Use::SecondBleed => "second bleed at most",
        Use::Spilt => "spill margin",
    }
}
