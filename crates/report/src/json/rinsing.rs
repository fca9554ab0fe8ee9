//! How often a reservoir is rinsed, as JSON.

use super::{each, ml};
use bleedwright_planner as planner;
use schemars::JsonSchema;
use serde::Serialize;

/// How often a compartment is rinsed, with what each number that keeps the wanted old share takes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RinsingJson {
    /// The compartment.
    pub compartment: String,
    /// How often.
    pub rinses: u32,
    /// The numbers that were weighed; empty in a large system.
    pub choices: Vec<RinseChoiceJson>,
}

/// What one number of rinses takes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RinseChoiceJson {
    /// How often.
    pub rinses: u32,
    /// New fluid at most: rinses, filling, and what the screws take.
    pub takes_ml: f64,
}

pub(super) fn rinsing(rinsing: &planner::Rinsing) -> RinsingJson {
    RinsingJson {
        compartment: rinsing.compartment.clone(),
        rinses: rinsing.rinses,
        choices: each(&rinsing.choices, |choice| RinseChoiceJson {
            rinses: choice.rinses,
            takes_ml: ml(choice.takes),
        }),
    }
}
