//! Spanner and torque of the screws of one step.

use crate::said::{Said, bare, bares, say};
use bleedwright_planner::StepScrew;

/// Those of one screw: the torque of another can shear it.
pub(super) fn tools(screw: &StepScrew) -> Said {
    let spanner = screw.spanner.as_deref().map_or("____".into(), bare);
    let torque = screw
        .torque
        .as_deref()
        .map_or("maker's torque".into(), bare);
    say!("spanner {}  [ ] {}", spanner, torque)
}

/// The spanners of a job, each once, in the order of its steps; nothing where the layout names none.
pub(super) fn spanners<'s>(screws: impl Iterator<Item = &'s StepScrew>) -> Option<Said> {
    let mut all: Vec<&str> = Vec::new();
    for spanner in screws.filter_map(|screw| screw.spanner.as_deref()) {
        if !all.contains(&spanner) {
            all.push(spanner);
        }
    }
    (!all.is_empty()).then(|| say!("spanners {}", bares(&all)))
}
