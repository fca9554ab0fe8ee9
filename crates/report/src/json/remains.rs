//! What bleeding does not reach, as JSON.

use super::{Range, range_ml};
use crate::card::{air_text, unit_text};
use crate::said::Said;
use bleedwright_planner as planner;
use schemars::JsonSchema;
use serde::Serialize;

/// Fluid that no screw reaches.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RemainsJson {
    /// Where.
    pub part: String,
    /// How much.
    pub volume_ml: Range,
    /// What an anti-lock unit keeps: `air`, `air or old fluid` or `old fluid`;
    /// null elsewhere.
    pub kept: Option<String>,
    /// Why, and what to do.
    pub text: Said,
}

/// Units and all else that no screw reaches, by name.
pub(super) fn remains(plan: &planner::Plan) -> Vec<RemainsJson> {
    let units = plan.units().map(|unit| RemainsJson {
        part: unit.part.clone(),
        volume_ml: range_ml(unit.volume),
        kept: Some(unit.kept.word().to_owned()),
        text: unit_text(unit),
    });
    let elsewhere = plan.remains.iter().map(|remains| RemainsJson {
        part: remains.part.clone(),
        volume_ml: range_ml(remains.volume),
        kept: None,
        text: air_text(&remains.why),
    });
    let mut all: Vec<RemainsJson> = units.chain(elsewhere).collect();
    all.sort_by(|a, b| a.part.cmp(&b.part));
    all
}
