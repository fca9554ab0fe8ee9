//! Spanner and torque of the screws of one step.

use bleedwright_planner::StepScrew;

fn tool(screw: &StepScrew) -> String {
    let spanner = screw
        .spanner
        .as_ref()
        .map(|spanner| format!("spanner {spanner}"));
    let parts: Vec<String> = spanner.into_iter().chain(screw.torque.clone()).collect();
    parts.join(", ")
}

/// What all screws have in common is said once. Where they differ, or one has
/// none, each is named: the torque of one can shear the other.
pub(super) fn tools(screws: &[StepScrew]) -> String {
    let each: Vec<String> = screws.iter().map(tool).collect();
    if each.windows(2).all(|pair| pair[0] == pair[1]) {
        return each.into_iter().next().unwrap_or_default();
    }
    let named = |(screw, tool): (&StepScrew, &String)| {
        let torque = match (&screw.torque, tool.is_empty()) {
            (Some(_), _) => "",
            (None, true) => "maker's torque",
            (None, false) => ", maker's torque",
        };
        format!("{}: {tool}{torque}", screw.screw)
    };
    let named: Vec<String> = screws.iter().zip(&each).map(named).collect();
    named.join("; ")
}
