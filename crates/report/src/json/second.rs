//! The second bleed as JSON.

use super::change::change_name;
use super::fact::FactJson;
use super::step::{StepJson, step};
use super::{Range, each, range_ml};
use crate::card::CardSecond;
use bleedwright_planner::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// The bleed after the routine of anti-lock units that keep air, or may. The job is not finished before.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SecondBleedJson {
    /// The units.
    pub units: Vec<String>,
    /// Changes to the vehicle that it wants again, in the words of the preparation.
    pub again: Vec<String>,
    /// What is pushed in all.
    pub push_ml: Range,
    /// Its steps, numbered on from those of the first bleed. A joint that asks for a least amount is one of the unit's, which
    /// nobody opened: the air comes out of the unit.
    pub steps: Vec<StepJson>,
}

/// None where none is needed; `words` are those of the card.
pub(super) fn second_bleed(plan: &Plan, words: Option<&CardSecond>) -> Option<SecondBleedJson> {
    let second = plan.second.as_ref()?;
    let whys = words.map(|words| &words.steps).into_iter().flatten();
    let steps = second.steps.iter().zip(whys).map(|(it, words)| StepJson {
        reasons: vec![words.why.clone()],
        reason_facts: vec![FactJson::new("behind_unit", &words.why)],
        ..step(it, plan.head.method)
    });
    Some(SecondBleedJson {
        units: second.units.clone(),
        again: each(&second.again, change_name),
        push_ml: range_ml(second.push()),
        steps: steps.collect(),
    })
}
