//! When to see to the reservoir, as JSON.

use super::ml;
use bleedwright_planner::{self as planner, LevelAction, Progress, Rhythm};
use schemars::JsonSchema;
use serde::Serialize;

/// A stop for the level in the reservoir.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LevelStopJson {
    /// The compartment.
    pub compartment: String,
    /// Strokes of this step after which it is due; zero before the first.
    pub after_strokes: Option<u64>,
    /// Millilitres of this step after which it is due, where none are counted.
    pub after_ml: Option<f64>,
}

/// How often a compartment is seen to in a step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LevelRuleJson {
    /// The compartment.
    pub compartment: String,
    /// `top up` or `draw off`.
    pub action: &'static str,
    /// Whether it is done before the step begins.
    pub is_before_start: bool,
    /// Every so many strokes to the block; null where the step ends before
    /// that, or no strokes are counted.
    pub every_strokes: Option<u64>,
    /// Every so many whole strokes without the block; null where one of them
    /// is too much.
    pub every_strokes_without_block: Option<u64>,
    /// Every so many millilitres, where no strokes are counted.
    pub every_ml: Option<f64>,
}

pub(super) fn level_rule(rule: &planner::LevelRule) -> LevelRuleJson {
    let (mut every_strokes, mut every_strokes_without_block, mut every_ml) = (None, None, None);
    match rule.every {
        Some(Rhythm::Strokes {
            every,
            without_block,
        }) => {
            every_strokes = Some(every);
            every_strokes_without_block = without_block;
        }
        Some(Rhythm::Volume(volume)) => every_ml = Some(ml(volume)),
        None => {}
    }
    LevelRuleJson {
        compartment: rule.compartment.clone(),
        action: match rule.action {
            LevelAction::TopUp => "top up",
            LevelAction::DrawOff => "draw off",
        },
        is_before_start: rule.is_before_start,
        every_strokes,
        every_strokes_without_block,
        every_ml,
    }
}

pub(super) fn level_stops(step: &planner::Step, action: LevelAction) -> Vec<LevelStopJson> {
    step.level_stops
        .iter()
        .filter(|stop| stop.action == action)
        .map(|stop| LevelStopJson {
            compartment: stop.compartment.clone(),
            after_strokes: strokes_of(stop.after),
            after_ml: ml_of(stop.after),
        })
        .collect()
}

pub(super) fn strokes_of(progress: Progress) -> Option<u64> {
    match progress {
        Progress::Strokes(strokes) => Some(strokes),
        Progress::Volume(_) => None,
    }
}

pub(super) fn ml_of(progress: Progress) -> Option<f64> {
    match progress {
        Progress::Strokes(_) => None,
        Progress::Volume(volume) => Some(ml(volume)),
    }
}
