//! How often a reservoir is rinsed, and what other numbers of rinses would take.

use crate::number::ml_mark;
use bleedwright_planner::Plan;

/// One line for each compartment of which more than one number was weighed.
pub(super) fn rinsing(plan: &Plan) -> Vec<String> {
    plan.rinsing
        .iter()
        .filter(|rinsing| rinsing.choices.len() > 1)
        .map(|rinsing| {
            let choices: Vec<String> = rinsing
                .choices
                .iter()
                .map(|choice| format!("{} x {} ml", choice.rinses, ml_mark(choice.takes)))
                .collect();
            format!(
                "Rinses of `{}`: {} x takes least in all ({}).",
                rinsing.compartment,
                rinsing.rinses,
                choices.join(", ")
            )
        })
        .collect()
}
