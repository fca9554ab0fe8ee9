//! The judgement of a fluid as JSON.

use super::{Range, SCHEMA_VERSION, each, range};
use crate::fluid;
use crate::said::Said;
use bleedwright_inspection::fluid::{
    BottleJudgement, FluidJudgement, FluidReading, Limit, LimitValue, Subject,
};
use bleedwright_network::{Bounds, Fluid};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::year;

/// Whether a fluid is fit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FluidJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The layout's vehicle, if one was given.
    pub vehicle: Option<String>,
    /// The grade it is judged as, in the words of layout files: of a mixture the lowest.
    pub grade: Option<String>,
    /// The grade that the layout asks for, if one was given.
    pub required_grade: Option<String>,
    /// Other grades that were added.
    pub mixed_with: Vec<String>,
    /// The fluid in the car: `not_checked`, `no_reason_found`, `renew_soon`, `renew_now` or `unsafe`.
    pub verdict: String,
    /// The same for people; `measure again` where nothing but a contradiction was found.
    pub verdict_text: String,
    /// Why moisture and boiling point cannot both be true; null where they can.
    pub contradiction: Option<String>,
    /// The moisture read, by mass.
    pub moisture_percent: Option<Range>,
    /// The boiling point by the moisture, `nominal` being a cautious one: it lies below a fluid that just meets the minima
    /// of its class. Null without a reading or beyond 8 %.
    pub boiling_degc: Option<Range>,
    /// Whether that moisture lies beyond the water of the wet minimum; null without an estimate.
    pub is_extrapolated: Option<bool>,
    /// What each figure that is known says of this moisture by itself.
    pub boiling_sources: Vec<BoilingSourceJson>,
    /// The boiling point measured.
    pub measured_boiling_degc: Option<Range>,
    /// What the verdict rests on.
    pub reasons: Vec<String>,
    /// Everything that was looked at, and what was not.
    pub items: Vec<FluidItemJson>,
    /// What was not checked, in the words of `subject`.
    pub not_checked: Vec<String>,
    /// The new bottle; null where nothing was said of one.
    pub bottle: Option<BottleJson>,
    /// The limits of the grade and the rules of the trade.
    pub limits: Vec<FluidLimitJson>,
    /// What was assumed.
    pub assumptions: Vec<String>,
    /// What can hurt or mislead.
    pub cautions: Vec<String>,
}

/// What one source says.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BoilingSourceJson {
    /// The source, in words.
    pub source: String,
    /// Its boiling point; null where it says nothing of this moisture.
    pub boiling_degc: Option<f64>,
    /// How surely its points are known: `read`, `quoted`, `second_hand` or `from_memory`.
    pub certainty: String,
}

/// One thing that was looked at.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FluidItemJson {
    /// `grade`, `mixture`, `look`, `moisture`, `boiling_point`, `age`; of a bottle `bottle_grade`, `bottle_moisture`, `opened_for`,
    /// `label_dry`, `label_wet`.
    pub subject: String,
    /// What it says by itself.
    pub verdict: String,
    /// Why.
    pub reason: String,
}

/// The new bottle.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BottleJson {
    /// The grade it is judged as.
    pub grade: Option<String>,
    /// `not_checked`, `no_reason_found`, `doubtful`, `only_if_allowed` or `do_not_use`.
    pub verdict: String,
    /// The same for people.
    pub verdict_text: String,
    /// What the verdict rests on.
    pub reasons: Vec<String>,
    /// Everything that was looked at.
    pub items: Vec<FluidItemJson>,
}

/// One limit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FluidLimitJson {
    /// What it is about.
    pub property: String,
    /// The least value allowed.
    pub at_least: Option<f64>,
    /// The greatest value allowed.
    pub at_most: Option<f64>,
    /// The value that must not be reached.
    pub below: Option<f64>,
    /// The unit of these: `degC`, `mm2/s`, `pH`, `%` or `years`.
    pub unit: Option<String>,
    /// A colour, where the limit is one.
    pub colour: Option<String>,
    /// Law or standard with its clause; null for a rule of the trade.
    pub clause: Option<String>,
    /// `read`, `quoted`, `second_hand`, `from_memory`, `common_practice` or `assumption`.
    pub certainty: String,
}

impl FluidJson {
    /// The document of a judgement. `vehicle` is the layout's name, if there is one.
    pub fn new(vehicle: Option<&str>, reading: &FluidReading, judgement: &FluidJudgement) -> Self {
        let word = |grade: Fluid| grade.word().to_owned();
        let estimate = judgement.boiling.as_ref();
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: vehicle.map(str::to_owned),
            grade: judgement.grade.map(word),
            required_grade: reading.required.map(word),
            mixed_with: reading.mixed_with.iter().copied().map(word).collect(),
            verdict: judgement.verdict.word().to_owned(),
            verdict_text: fluid::judgement(judgement).to_owned(),
            contradiction: judgement
                .contradiction
                .as_ref()
                .map(|why| fluid::contradiction(why).to_string()),
            moisture_percent: reading.moisture.map(share),
            boiling_degc: estimate.map(|estimate| celsius(estimate.boiling)),
            is_extrapolated: estimate.map(|estimate| estimate.is_extrapolated),
            boiling_sources: estimate
                .into_iter()
                .flat_map(|estimate| &estimate.sources)
                .map(|source| BoilingSourceJson {
                    source: fluid::estimate_source(source.source).to_owned(),
                    boiling_degc: source.boiling.map(degc),
                    certainty: source.certainty.word().to_owned(),
                })
                .collect(),
            measured_boiling_degc: reading.boiling.map(celsius),
            reasons: judgement
                .reasons()
                .map(|one| reason(one.subject, &fluid::reason(one)))
                .collect(),
            items: each(&judgement.items, |one| FluidItemJson {
                subject: one.subject.word().to_owned(),
                verdict: one.verdict.word().to_owned(),
                reason: fluid::reason(one).to_string(),
            }),
            not_checked: judgement
                .not_checked()
                .map(|subject| subject.word().to_owned())
                .collect(),
            bottle: judgement.bottle.as_ref().map(bottle),
            limits: each(&judgement.limits, limit),
            assumptions: each(&judgement.assumptions, |one| {
                fluid::assumption(*one).to_string()
            }),
            cautions: each(&judgement.cautions, |one| fluid::caution(*one).to_owned()),
        }
    }
}

fn bottle(judged: &BottleJudgement) -> BottleJson {
    BottleJson {
        grade: judged.grade.map(|grade| grade.word().to_owned()),
        verdict: judged.verdict.word().to_owned(),
        verdict_text: fluid::bottle_verdict(judged.verdict).to_owned(),
        reasons: judged
            .items
            .iter()
            .filter(|item| item.verdict == judged.verdict)
            .map(|one| reason(one.subject, &fluid::bottle_reason(one.reason)))
            .collect(),
        items: each(&judged.items, |one| FluidItemJson {
            subject: one.subject.word().to_owned(),
            verdict: one.verdict.word().to_owned(),
            reason: fluid::bottle_reason(one.reason).to_string(),
        }),
    }
}

fn reason(subject: Subject, why: &Said) -> String {
    format!("{subject}: {why}")
}

fn limit(limit: &Limit) -> FluidLimitJson {
    let mut document = FluidLimitJson {
        property: limit.property.word().to_owned(),
        at_least: None,
        at_most: None,
        below: None,
        unit: None,
        colour: None,
        clause: limit.clause.map(str::to_owned),
        certainty: limit.certainty.word().to_owned(),
    };
    let mut unit = |name: &str| document.unit = Some(name.to_owned());
    match limit.value {
        LimitValue::TemperatureAtLeast(least) => {
            unit("degC");
            document.at_least = Some(degc(least));
        }
        LimitValue::ViscosityAtMost(most) => {
            unit("mm2/s");
            document.at_most = Some(rounded(most.get::<square_millimeter_per_second>()));
        }
        LimitValue::ViscosityAtLeast(least) => {
            unit("mm2/s");
            document.at_least = Some(rounded(least.get::<square_millimeter_per_second>()));
        }
        LimitValue::AcidityWithin { low_ph, high_ph } => {
            unit("pH");
            document.at_least = Some(low_ph);
            document.at_most = Some(high_ph);
        }
        LimitValue::ShareBelow(share) => {
            unit("%");
            document.below = Some(rounded(share.get::<percent>()));
        }
        LimitValue::TimeAtMost(time) => {
            unit("years");
            document.at_most = Some(rounded(time.get::<year>()));
        }
        LimitValue::Colour(colour) => document.colour = Some(fluid::colour(colour).to_owned()),
    }
    document
}

fn celsius(bounds: Bounds<ThermodynamicTemperature>) -> Range {
    range(bounds, degc)
}

fn share(bounds: Bounds<Ratio>) -> Range {
    range(bounds, |share| rounded(share.get::<percent>()))
}

fn degc(point: ThermodynamicTemperature) -> f64 {
    rounded(point.get::<degree_celsius>())
}

/// Without the digits that converting a unit leaves.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6 + 0.0
}
