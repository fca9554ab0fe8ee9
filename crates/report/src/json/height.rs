//! What heights mean at a step, as JSON.

use super::{Range, range_bar, range_mm};
use bleedwright_planner::{self as planner, StepHeight};
use schemars::JsonSchema;
use serde::Serialize;

/// What a height means at a step.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum HeightJson {
    /// The way to the screw leads over a point that is higher than known points on both sides of it.
    HighPoint {
        /// The part, or the line that it lies in.
        place: String,
        /// How far it rises above the higher of the two dips beside it.
        rise_mm: Range,
        /// Whether air was let into its circuit, or may have been.
        holds_air: bool,
        /// `stuck`, `borderline` or `climbs` in the lines there, where the fluid rests; null where no line is there.
        bubble: Option<&'static str>,
        /// Whether its air may be let out first at a union there.
        may_be_loosened: bool,
    },
    /// The screw stands higher than what feeds it.
    Above {
        /// The screw.
        screw: String,
        /// The reservoir or the cylinder that stands lower.
        lower: String,
        /// How much lower.
        by_mm: Range,
        /// What a column of fluid of that height weighs.
        head_bar: Range,
        /// Whether an open screw may draw air.
        may_draw_air: bool,
        /// The residual valve on the way; null where there is none.
        residual_valve: Option<String>,
        /// What it holds; null where the layout does not say.
        residual_bar: Option<Range>,
    },
}

pub(super) fn height(height: &planner::StepHeight) -> HeightJson {
    match height {
        StepHeight::Over(high) => HeightJson::HighPoint {
            place: high.name.clone(),
            rise_mm: range_mm(high.rise),
            holds_air: high.holds_air,
            bubble: high.bubble.map(verdict),
            may_be_loosened: high.may_be_loosened,
        },
        StepHeight::Above(above) => HeightJson::Above {
            screw: above.screw.clone(),
            lower: above.lower.clone(),
            by_mm: range_mm(above.by),
            head_bar: range_bar(above.head),
            may_draw_air: above.may_draw_air,
            residual_valve: above.residual.as_ref().map(|held| held.valve.clone()),
            residual_bar: (above.residual.as_ref())
                .and_then(|held| held.holds)
                .map(range_bar),
        },
    }
}

pub(super) fn verdict(verdict: planner::Verdict) -> &'static str {
    match verdict {
        planner::Verdict::Stuck => "stuck",
        planner::Verdict::Borderline => "borderline",
        planner::Verdict::Climbs => "climbs",
    }
}
