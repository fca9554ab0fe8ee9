//! Spanner and torque of the screws of one step.

use crate::said::{Said, bare, say};
use bleedwright_planner::StepScrew;

fn tool(screw: &StepScrew) -> Said {
    let spanner = screw.spanner.as_deref();
    let spanner = spanner.map(|spanner| say!("spanner {}", bare(spanner)));
    let torque = screw.torque.as_deref().map(bare);
    Said::joined(spanner.into_iter().chain(torque), ", ")
}

/// What all screws have in common is said once. Where they differ, or one has
/// none, each is named: the torque of one can shear the other.
pub(super) fn tools(screws: &[StepScrew]) -> Said {
    let each: Vec<Said> = screws.iter().map(tool).collect();
    if each.windows(2).all(|pair| pair[0] == pair[1]) {
        return each.into_iter().next().unwrap_or_default();
    }
    let named = |(screw, tool): (&StepScrew, &Said)| {
        let torque = match (&screw.torque, tool.is_empty()) {
            (Some(_), _) => "",
            (None, true) => "maker's torque",
            (None, false) => ", maker's torque",
        };
        say!("{}: {}{}", bare(&screw.screw), tool.clone(), torque)
    };
    Said::joined(screws.iter().zip(&each).map(named), "; ")
}
