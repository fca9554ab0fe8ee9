//! A pedal as JSON.

use super::next::NextJson;
use super::{Range, SCHEMA_VERSION, each, ml, range_bar, range_ml, range_mm, range_of};
use crate::pedal::{cause_and_check, caution_text, premise_texts, usual_texts};
use bleedwright_pedal::{AirBounds, Assessment, Capacity, Feel, OnStop, Sized, Trial, TrialPlace};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::f64::Length;
use uom::si::force::newton;
use uom::si::length::millimeter;
use uom::si::ratio::ratio;

/// Travel, pressures and air of a pedal.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PedalJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// The pedal or lever.
    pub control: String,
    /// `none`, `running` or `exhausted`.
    pub booster: &'static str,
    /// The pedal under the force asked for.
    #[serde(flatten)]
    pub feel: FeelJson,
    /// The pedal under usual forces.
    pub forces: Vec<FeelJson>,
    /// The pedal at the 50 lbf of 49 CFR 570.55(c), where at most 0.8 of the stroke may be used; a booster helps. Null for a
    /// hand lever or a coupler.
    pub reserve: Option<FeelJson>,
    /// The force asked for, with each circuit lost in turn.
    pub lost: Vec<LostJson>,
    /// Air that the readings imply; null without readings, and where they do not fit.
    pub air_ml: Option<AirJson>,
    /// The same if all of it is in one circuit; empty without readings, and where they do not fit.
    pub air_in: Vec<AirInJson>,
    /// Whether a piston stands at the end of its stroke or near it, or may: then how much air there is cannot be told, and the
    /// vehicle is not to be driven. Null without readings, and where they do not fit.
    pub is_at_end_of_stroke: Option<bool>,
    /// Whether the readings fit the layout with any air; null without readings.
    pub readings_fit: Option<bool>,
    /// Places to shut: hoses by how likely air stays behind them, whole circuits last; none where the readings do not fit.
    pub trials: Vec<TrialJson>,
    /// The force for the trials; null without trials.
    pub trials_force_n: Option<f64>,
    /// What to do next; null where other sizes are compared.
    pub next: Option<NextJson>,
    /// What the symptom points to, most likely first.
    pub causes: Vec<CauseJson>,
    /// Other sizes.
    pub sizes: Vec<SizedJson>,
    /// The rule on reservoirs, compartment by compartment.
    pub reservoirs: Vec<CapacityJson>,
    /// What was assumed.
    pub assumptions: Vec<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
}

/// A pressed pedal.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FeelJson {
    /// The force on it.
    pub force_n: f64,
    /// Its travel from rest.
    pub travel_mm: Range,
    /// The share of its whole travel.
    pub stroke_share: Range,
    /// Whether a piston is at the end of its stroke: `never`, `perhaps`, `yes`.
    pub on_stop: &'static str,
    /// The circuits.
    pub pressure_bar: Vec<CircuitPressureJson>,
    /// What takes up the fluid.
    pub contributions: Vec<ContributionJson>,
}

/// The pressure in one circuit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CircuitPressureJson {
    /// The circuit.
    pub circuit: String,
    /// In its chamber.
    pub chamber: Range,
    /// The share of its piston's own stroke.
    pub stroke_share: Range,
    /// At its brakes.
    pub parts: Vec<PartPressureJson>,
}

/// The pressure at one brake.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PartPressureJson {
    /// The brake.
    pub part: String,
    /// Behind its pistons.
    pub pressure_bar: Range,
}

/// Something that takes up fluid.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ContributionJson {
    /// The circuit.
    pub circuit: String,
    /// `cut_off`, `clearance`, `brakes`, `hoses`, `pipes`, `fluid` or `air`.
    pub what: &'static str,
    /// What it takes up.
    pub ml: Range,
}

/// A lost circuit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LostJson {
    /// The circuit that is lost.
    pub circuit: String,
    /// Whether the other circuit runs out of stroke: `never`, `perhaps`, `yes`.
    pub other_on_stop: &'static str,
    /// The pedal.
    #[serde(flatten)]
    pub feel: FeelJson,
}

/// An amount of air at atmospheric pressure.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AirJson {
    /// The least.
    pub low: f64,
    /// What explains the readings best.
    pub nominal: f64,
    /// The most; null where more would not show.
    pub high: Option<f64>,
}

/// Air in one circuit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AirInJson {
    /// The circuit.
    pub circuit: String,
    /// The amount if all of it is here; null where that cannot be.
    pub air_ml: Option<AirJson>,
}

/// A place to shut.
#[derive(Debug, Serialize, JsonSchema)]
pub struct TrialJson {
    /// `outlet` or `hose`.
    pub kind: &'static str,
    /// The circuit or the hose.
    pub place: String,
    /// The circuit.
    pub circuit: String,
    /// The brakes behind it.
    pub behind: Vec<String>,
    /// How much higher the pedal stands if the air is behind it.
    pub rise_if_behind_mm: f64,
    /// How much higher if not.
    pub rise_if_not_mm: f64,
}

/// A cause.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CauseJson {
    /// What may be wrong.
    pub cause: String,
    /// How to tell.
    pub check: String,
}

/// A candidate.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SizedJson {
    /// Bores of the cylinders.
    pub bores_mm: Vec<f64>,
    /// The lever's ratio; null where it was left.
    pub pedal_ratio: Option<f64>,
    /// The first cylinder's share of the force; null where it was left.
    pub bar_share: Option<f64>,
    /// Both circuits whole.
    #[serde(flatten)]
    pub feel: FeelJson,
    /// Each circuit lost in turn.
    pub lost: Vec<LostJson>,
}

/// The rule on one compartment of a reservoir.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CapacityJson {
    /// The reservoir.
    pub reservoir: String,
    /// The compartment.
    pub compartment: String,
    /// What the pistons that it feeds displace from new to worn linings.
    pub needed_ml: Range,
    /// What it holds at its maximum mark.
    pub holds_ml: Range,
    /// Whether a clutch or a hydraulic booster draws on it too.
    pub is_shared: bool,
    /// `pass`, `fail`, `open` or `not_shown`.
    pub verdict: &'static str,
    /// What was assumed.
    pub assumptions: Vec<String>,
}

impl PedalJson {
    /// The document of an assessment.
    pub fn new(pedal: &Assessment) -> Self {
        let force_n = pedal.force.get::<newton>();
        let fitting = || pedal.estimate.as_ref().filter(|it| !it.is_contradiction);
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: pedal.vehicle.clone(),
            control: pedal.control.clone(),
            booster: match (pedal.has_booster, pedal.is_boosted) {
                (false, _) => "none",
                (true, true) => "running",
                (true, false) => "exhausted",
            },
            feel: FeelJson::new(force_n, &pedal.feel),
            forces: each(&pedal.forces, |(force, feel)| {
                FeelJson::new(force.get::<newton>(), feel)
            }),
            reserve: pedal
                .reserve
                .as_ref()
                .map(|(force, feel)| FeelJson::new(force.get::<newton>(), feel)),
            lost: lost(force_n, &pedal.lost),
            air_ml: fitting().map(|it| AirJson::new(&it.air)),
            air_in: fitting()
                .into_iter()
                .flat_map(|estimate| &estimate.circuits)
                .map(|(circuit, air)| AirInJson {
                    circuit: circuit.clone(),
                    air_ml: air.as_ref().map(AirJson::new),
                })
                .collect(),
            is_at_end_of_stroke: fitting().map(|it| it.is_at_end),
            readings_fit: pedal.estimate.as_ref().map(|it| !it.is_contradiction),
            trials_force_n: pedal.trials_force.map(|force| force.get::<newton>()),
            trials: each(&pedal.trials, TrialJson::new),
            next: pedal.next.map(NextJson::new),
            causes: each(&pedal.causes, |cause| {
                let [cause, check] = cause_and_check(*cause).map(|said| said.to_string());
                CauseJson { cause, check }
            }),
            sizes: each(&pedal.sized, |sized| SizedJson::new(force_n, sized)),
            reservoirs: each(&pedal.capacities, CapacityJson::new),
            assumptions: premise_texts(&pedal.assumptions),
            cautions: each(&pedal.cautions, |it| caution_text(*it).to_owned()),
        }
    }
}

impl FeelJson {
    fn new(force_n: f64, feel: &Feel) -> Self {
        Self {
            force_n,
            travel_mm: range_mm(feel.travel),
            stroke_share: range_of(feel.stroke_share),
            on_stop: stop_word(feel.on_stop),
            pressure_bar: each(&feel.circuits, |circuit| CircuitPressureJson {
                circuit: circuit.name.clone(),
                chamber: range_bar(circuit.pressure),
                stroke_share: range_of(circuit.stroke_share),
                parts: each(&circuit.brakes, |brake| PartPressureJson {
                    part: brake.name.clone(),
                    pressure_bar: range_bar(brake.pressure),
                }),
            }),
            contributions: each(&feel.contributions, |contribution| ContributionJson {
                circuit: contribution.circuit.clone(),
                what: contribution.what.word(),
                ml: range_ml(contribution.volume),
            }),
        }
    }
}

impl AirJson {
    fn new(air: &AirBounds) -> Self {
        Self {
            low: ml(air.low),
            nominal: ml(air.nominal),
            high: air.high.map(ml),
        }
    }
}

impl TrialJson {
    fn new(trial: &Trial) -> Self {
        let (kind, place) = match &trial.place {
            TrialPlace::Outlet(circuit) => ("outlet", circuit),
            TrialPlace::Hose(hose) => ("hose", hose),
        };
        Self {
            kind,
            place: place.clone(),
            circuit: trial.circuit.clone(),
            behind: trial.behind.clone(),
            rise_if_behind_mm: trial.rise_if_behind.get::<millimeter>(),
            rise_if_not_mm: trial.rise_if_not.get::<millimeter>(),
        }
    }
}

impl SizedJson {
    fn new(force_n: f64, sized: &Sized) -> Self {
        Self {
            bores_mm: each(&sized.candidate.bores, Length::get::<millimeter>),
            pedal_ratio: sized.candidate.pedal_ratio.map(|it| it.get::<ratio>()),
            bar_share: sized.candidate.bar_share.map(|it| it.get::<ratio>()),
            feel: FeelJson::new(force_n, &sized.whole),
            lost: lost(force_n, &sized.lost),
        }
    }
}

impl CapacityJson {
    fn new(capacity: &Capacity) -> Self {
        Self {
            reservoir: capacity.reservoir.clone(),
            compartment: capacity.compartment.clone(),
            needed_ml: range_ml(capacity.needed),
            holds_ml: range_ml(capacity.holds),
            is_shared: capacity.is_shared,
            verdict: capacity.verdict.word(),
            assumptions: usual_texts(&capacity.assumptions).into_iter().collect(),
        }
    }
}

fn lost(force_n: f64, all: &[(String, Feel)]) -> Vec<LostJson> {
    each(all, |(circuit, feel)| LostJson {
        circuit: circuit.clone(),
        other_on_stop: stop_word(feel.survivors_on_stop()),
        feel: FeelJson::new(force_n, feel),
    })
}

fn stop_word(stop: OnStop) -> &'static str {
    match stop {
        OnStop::Never => "never",
        OnStop::Perhaps => "perhaps",
        OnStop::Yes => "yes",
    }
}
