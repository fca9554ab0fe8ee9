//! The handover sheet as JSON.

use super::{SCHEMA_VERSION, each};
use crate::kept::remark;
use crate::readings::{self, CAUTIONS, assumptions, check_name, sheet_verdict};
use bleedwright_inspection::readings::{Kept, Sample};
use bleedwright_inspection::{HandoverSheet, State};
use schemars::JsonSchema;
use serde::Serialize;

/// A record of readings, judged.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadingsJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// What tells it from its like; null when it is not given.
    pub registration: Option<String>,
    /// The day as ISO 8601 writes it; null when it is not given.
    pub date: Option<String>,
    /// Who did the work; null when it is not given.
    pub done_by: Option<String>,
    /// Who checked it; null when it is not given.
    pub checked_by: Option<String>,
    /// The writer's remark; null when there is none.
    pub notes: Option<String>,
    /// Whether the work followed a card with amounts that are worked out otherwise today.
    pub made_from_older_plan: bool,
    /// The worst state of all checks: `within`, `look_again`, `not_checked` or `fails`.
    pub state: String,
    /// The verdict in words.
    pub verdict: String,
    /// The work that the owner did not want done; null where there is none.
    pub work_refused: Option<String>,
    /// What is kept beside the checks.
    pub kept: KeptJson,
    /// The steps and tasks that are not finished.
    pub unfinished: Vec<String>,
    /// How many checks came out how.
    pub counts: StateCountsJson,
    /// Every check.
    pub checks: Vec<ReadingCheckJson>,
    /// What is assumed.
    pub assumptions: Vec<String>,
    /// What can hurt, and what governs.
    pub cautions: Vec<String>,
}

/// What is kept beside the checks, as it was written.
#[derive(Debug, Serialize, JsonSchema)]
pub struct KeptJson {
    /// Parts and lines that are new, by the plan.
    pub replaced: Vec<String>,
    /// Compartments that ran dry, by the plan.
    pub ran_dry: Vec<String>,
    /// Screws that were finished before this plan.
    pub bled_earlier: Vec<String>,
    /// What went through each screw.
    pub pushed: Vec<PushedJson>,
    /// The fluid before the work.
    pub fluid_before: SampleJson,
    /// The fluid after it.
    pub fluid_after: SampleJson,
    /// What tells the bottle from its like.
    pub bottle: Option<String>,
    /// The day on which it was opened.
    pub bottle_opened: Option<String>,
    /// Parts that were fitted.
    pub parts_fitted: Option<String>,
    /// By what the torques were set.
    pub torque_tool: Option<String>,
    /// The day on which the fluid is due again.
    pub next_due: Option<String>,
}

/// What went through one screw.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PushedJson {
    /// The screw.
    pub screw: String,
    /// What each step pushed that says so.
    pub amounts: Vec<String>,
}

/// What a tester showed of the fluid; null where it was not measured or not said.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SampleJson {
    /// Water in it.
    pub moisture: Option<String>,
    /// Its boiling point.
    pub boiling_point: Option<String>,
    /// Where the sample was taken.
    pub place: Option<String>,
}

impl KeptJson {
    fn new(kept: &Kept) -> Self {
        let sample = |sample: &Sample| SampleJson {
            moisture: given(&sample.moisture),
            boiling_point: given(&sample.boiling_point),
            place: given(&sample.place),
        };
        Self {
            replaced: kept.replaced.clone(),
            ran_dry: kept.ran_dry.clone(),
            bled_earlier: kept.bled_earlier.clone(),
            pushed: each(&kept.pushed, |pushed| PushedJson {
                screw: pushed.screw.clone(),
                amounts: pushed.amounts.clone(),
            }),
            fluid_before: sample(&kept.before),
            fluid_after: sample(&kept.after),
            bottle: given(&kept.bottle),
            bottle_opened: given(&kept.bottle_opened),
            parts_fitted: given(&kept.parts_fitted),
            torque_tool: given(&kept.torque_tool),
            next_due: given(&kept.next_due),
        }
    }
}

/// How many checks are in each state.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StateCountsJson {
    /// Measured and within the limit.
    pub within: usize,
    /// To be looked at again.
    pub look_again: usize,
    /// Not measured, or not against any limit.
    pub not_checked: usize,
    /// Beyond the limit.
    pub fails: usize,
}

/// One check.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadingCheckJson {
    /// What it belongs to, such as `Brakes`.
    pub group: String,
    /// The wheel, screw or compartment; null where the vehicle has one of it.
    pub subject: Option<String>,
    /// What was looked at.
    pub what: String,
    /// What was found, as written; null when nobody looked.
    pub found: Option<String>,
    /// What it was held against; null when no limit is known.
    pub limit: Option<String>,
    /// Where the limit stands, and how well that was known.
    pub source: String,
    /// `within`, `look_again`, `not_checked` or `fails`.
    pub state: String,
    /// What to know about it or to do.
    pub remark: Option<String>,
}

impl ReadingsJson {
    /// The document of one sheet.
    pub fn new(sheet: &HandoverSheet) -> Self {
        let texts = |texts: &[&str]| each(texts, |text| (*text).to_owned());
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: sheet.vehicle.clone(),
            registration: given(&sheet.registration),
            date: given(&sheet.date),
            done_by: given(&sheet.done_by),
            checked_by: given(&sheet.checked_by),
            notes: given(&sheet.notes),
            made_from_older_plan: sheet.is_of_older_plan,
            state: sheet.state().word().to_owned(),
            verdict: sheet_verdict(sheet),
            work_refused: sheet.kept.refused_work().map(str::to_owned),
            kept: KeptJson::new(&sheet.kept),
            unfinished: texts(&readings::unfinished(sheet)),
            counts: StateCountsJson {
                within: sheet.count(State::Within),
                look_again: sheet.count(State::LookAgain),
                not_checked: sheet.count(State::NotChecked),
                fails: sheet.count(State::Fails),
            },
            checks: each(&sheet.checks, |check| ReadingCheckJson {
                group: readings::group(check.group).to_owned(),
                subject: given(&check.subject),
                what: check_name(check.what).to_owned(),
                found: given(&readings::found(&check.found).to_string()),
                limit: given(&readings::wanted(&check.limit).to_string()),
                source: readings::source(check.source),
                state: check.state.word().to_owned(),
                remark: given(&remark(check)),
            }),
            assumptions: each(&assumptions(), ToString::to_string),
            cautions: texts(&CAUTIONS),
        }
    }
}

fn given(text: &str) -> Option<String> {
    (!text.trim().is_empty()).then(|| text.to_owned())
}
