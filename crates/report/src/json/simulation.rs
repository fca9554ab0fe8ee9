//! A simulated bleed as JSON.

use super::{FindingJson, Range, SCHEMA_VERSION, each, ml, range_ml};
use crate::text::simulation::{looped_text, why_not_followed};
use bleedwright_network::Finding;
use bleedwright_simulation::{NotFollowed, Outcome, POCKET_RANGE_MM, StepOutcome, WhyNotFollowed};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::time::second;

/// A bleed followed stroke by stroke.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SimulationJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// `pedal`, `pressure`, `vacuum`, `gravity` or `reverse`.
    pub method: String,
    /// `renew`, `air` or `fill`.
    pub purpose: String,
    /// What the circuits hold, chambers included.
    pub contents_ml: f64,
    /// Air in them at the start.
    pub air_at_start_ml: f64,
    /// The joints that were opened; air was put into the line at each.
    pub pockets: Vec<PocketJson>,
    /// How far air reached into each of these lines, and how far it may.
    pub pocket_mm: Range,
    /// Air that left by gravity before the first step.
    pub air_by_gravity_ml: f64,
    /// The steps of the plan as they went.
    pub steps: Vec<SimulatedStepJson>,
    /// Air left at the end, without pressure.
    pub air_left_ml: f64,
    /// Whether that is the least, since places in `not_followed` may hold air.
    pub is_air_left_the_least: bool,
    /// The same as a share of the contents.
    pub air_left_fraction: f64,
    /// Where it is, most first.
    pub air_left_in: Vec<AirLeftJson>,
    /// What this vehicle holds in places that are not followed. None of it is
    /// in any other figure.
    pub not_followed: Vec<NotFollowedJson>,
    /// Old fluid left at the end; null when nothing old was renewed.
    pub old_left_ml: Option<f64>,
    /// The same as a share of the contents.
    pub old_left_fraction: Option<f64>,
    /// Travel at the pedal or lever that squeezing the air left takes.
    pub air_travel_mm: f64,
    /// Whether a piston meets the end of its stroke before that: the pedal goes to the floor, the lever to its stop.
    pub reaches_end_of_stroke: bool,
    /// How long it took, without the walks from wheel to wheel.
    pub time_s: f64,
    /// Air against strokes.
    pub curve: Vec<CurvePointJson>,
    /// What the sums of volumes do not close by.
    pub balance_residual_ml: f64,
    /// What the model cannot vouch for.
    pub warnings: Vec<String>,
    /// Everything found in the layout and the options.
    pub findings: Vec<FindingJson>,
}

/// One step as it went.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SimulatedStepJson {
    /// As in the plan.
    pub number: usize,
    /// Its screw; of two opened together the first.
    pub screw: String,
    /// All its screws.
    pub screws: Vec<String>,
    /// Strokes made; null for a steady flow.
    pub strokes: Option<u64>,
    /// What came out at the screws.
    pub out_ml: f64,
    /// What had come out besides and was sucked in again, where the screw stays open.
    pub sucked_back_ml: f64,
    /// How much of it was air.
    pub air_out_ml: f64,
    /// What had come out when the last air came.
    pub clear_after_ml: f64,
    /// Air left in all circuits.
    pub air_left_ml: f64,
    /// Old fluid left in all circuits; null when nothing old is renewed.
    pub old_left_ml: Option<f64>,
    /// Travel at the pedal or lever that squeezing the air of its circuits
    /// takes.
    pub air_travel_mm: f64,
    /// How long it took.
    pub time_s: f64,
}

/// Air left in one place.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AirLeftJson {
    /// A part, a line or a chamber.
    pub element: String,
    /// How much.
    pub air_ml: f64,
}

/// An opened joint with its air.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PocketJson {
    /// The line.
    pub line: String,
    /// What this end of it is at.
    pub at: String,
}

/// Air or old fluid in a place that is not followed.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NotFollowedJson {
    /// A part, or a chamber of one.
    pub part: String,
    /// How much.
    pub ml: Range,
    /// Whether it may be air.
    pub may_be_air: bool,
    /// `behind_valves`, `above_screw`, `perhaps_above_screw` or `high_point`.
    pub kind: &'static str,
    /// What it is, and why it is not followed.
    pub why: String,
}

impl NotFollowedJson {
    pub(super) fn list(not_followed: &[NotFollowed]) -> Vec<Self> {
        let one = |left: &NotFollowed| Self {
            part: left.part.clone(),
            ml: range_ml(left.volume),
            may_be_air: left.may_be_air,
            kind: match left.why {
                WhyNotFollowed::BehindValves(_) => "behind_valves",
                WhyNotFollowed::AboveScrew(_) => "above_screw",
                WhyNotFollowed::PerhapsAboveScrew(_) => "perhaps_above_screw",
                WhyNotFollowed::HighPoint => "high_point",
            },
            why: why_not_followed(&left.why),
        };
        each(not_followed, one)
    }
}

/// A point of the curve.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CurvePointJson {
    /// The step; 0 is before the first.
    pub step: usize,
    /// Strokes since the beginning; parts of a steady flow count too.
    pub strokes: u64,
    /// What came out since the beginning.
    pub out_ml: f64,
    /// Air in all circuits.
    pub air_ml: f64,
}

impl SimulationJson {
    /// The document of a simulated bleed.
    pub fn new(
        plan: &bleedwright_planner::Plan,
        outcome: &Outcome,
        findings: &[Finding],
        source: &str,
    ) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: plan.head.vehicle.clone(),
            method: plan.head.method.word().to_owned(),
            purpose: plan.head.purpose.word().to_owned(),
            contents_ml: ml(outcome.contents),
            air_at_start_ml: ml(outcome.air_at_start),
            pockets: each(&outcome.pockets, |pocket| PocketJson {
                line: pocket.line.clone(),
                at: pocket.at.clone(),
            }),
            pocket_mm: Range {
                low: POCKET_RANGE_MM[0],
                nominal: outcome.pocket.get::<millimeter>(),
                high: POCKET_RANGE_MM[1],
            },
            air_by_gravity_ml: ml(outcome.air_by_gravity),
            steps: each(&outcome.steps, step),
            air_left_ml: ml(outcome.air_left),
            is_air_left_the_least: outcome.is_air_left_the_least(),
            air_left_fraction: outcome.air_left_fraction().get::<ratio>(),
            air_left_in: each(&outcome.air_left_in, |left| AirLeftJson {
                element: left.element.clone(),
                air_ml: ml(left.volume),
            }),
            not_followed: NotFollowedJson::list(&outcome.not_followed),
            old_left_ml: outcome.old_left.map(ml),
            old_left_fraction: outcome.old_left_fraction.map(|old| old.get::<ratio>()),
            air_travel_mm: outcome.air_travel.get::<millimeter>(),
            reaches_end_of_stroke: outcome.is_to_the_end,
            time_s: outcome.time.get::<second>(),
            curve: each(&outcome.curve, |point| CurvePointJson {
                step: point.step,
                strokes: point.strokes,
                out_ml: ml(point.out),
                air_ml: ml(point.air),
            }),
            balance_residual_ml: ml(outcome.balance_residual),
            warnings: looped_text(outcome).into_iter().collect(),
            findings: FindingJson::list(findings, source),
        }
    }
}

fn step(step: &StepOutcome) -> SimulatedStepJson {
    SimulatedStepJson {
        number: step.number,
        screw: step.screws.first().cloned().unwrap_or_default(),
        screws: step.screws.clone(),
        strokes: step.strokes,
        out_ml: ml(step.out),
        sucked_back_ml: ml(step.sucked_back),
        air_out_ml: ml(step.air_out),
        clear_after_ml: ml(step.clear_after),
        air_left_ml: ml(step.air_left),
        old_left_ml: step.old_left.map(ml),
        air_travel_mm: step.air_travel.get::<millimeter>(),
        time_s: step.time.get::<second>(),
    }
}
