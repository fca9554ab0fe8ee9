//! Whether the order is certain, and what is worth measuring, as JSON.

use super::{Range, each, ml, range};
use crate::measure::{measurement_text, undecided_text};
use bleedwright_planner as planner;
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::length::meter;

/// Whether lengths within their tolerances could change the order.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OrderCertaintyJson {
    /// `certain`, `uncertain`, `given` or `undecided`.
    pub verdict: String,
    /// Whether no choice of lengths gives another order; false also where it
    /// was not worked out.
    pub is_certain: bool,
    /// Why it was not worked out.
    pub why: Option<String>,
    /// How many neighbours some choice of lengths turns round.
    pub uncertain_count: usize,
    /// The first of these neighbours.
    pub uncertain: Vec<UncertainPairJson>,
}

/// Two screws, or two circuits, that some choice of lengths turns round.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UncertainPairJson {
    /// The screw that is opened earlier.
    pub first: String,
    /// The screw that is opened later.
    pub then: String,
    /// The two circuits whose places are open; null for two screws of one.
    pub circuits: Option<[String; 2]>,
    /// Length of the first run minus that of the other.
    pub difference_m: Range,
    /// The lines that decide, the least certain first.
    pub lines: Vec<DecidingLineJson>,
    /// The fewest lines whose lengths settle which run is the longer one, once
    /// they are measured and found nominal. Empty where three do not, and
    /// where there is no doubt: then both were tied with a third run.
    pub measure: Vec<String>,
}

/// A line on one of two runs.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DecidingLineJson {
    /// The line.
    pub line: String,
    /// How much of the range of the difference comes from it.
    pub range_m: f64,
}

/// A figure that is worth measuring.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MeasurementJson {
    /// What to do.
    pub text: String,
    /// Whether the layout is silent about it; else it has a tolerance.
    pub is_assumed: bool,
    /// By how much the fluid to buy is narrowed, before rounding to bottles,
    /// if the figure is measured and found nominal.
    pub gain_ml: f64,
    /// Pairs of screws whose order it settles by itself.
    pub settles: Vec<[String; 2]>,
}

impl OrderCertaintyJson {
    pub(super) fn new(certainty: &planner::OrderCertainty) -> Self {
        use planner::Certainty::{Certain, Given, Undecided};
        let (verdict, why) = match &certainty.verdict {
            Certain => ("certain", None),
            Given => ("given", None),
            Undecided(why) => ("undecided", Some(undecided_text(why).to_string())),
            _ => ("uncertain", None),
        };
        Self {
            verdict: verdict.to_owned(),
            is_certain: certainty.is_certain(),
            why,
            uncertain_count: certainty.uncertain_count,
            uncertain: each(&certainty.uncertain, pair),
        }
    }
}

fn pair(pair: &planner::UncertainPair) -> UncertainPairJson {
    UncertainPairJson {
        first: pair.first.clone(),
        then: pair.then.clone(),
        circuits: pair.circuits.clone(),
        difference_m: range(pair.difference, |length| length.get::<meter>()),
        lines: each(&pair.lines, |line| DecidingLineJson {
            line: line.line.clone(),
            range_m: line.range.get::<meter>(),
        }),
        measure: pair.measure.clone(),
    }
}

pub(super) fn measurement(measurement: &planner::Measurement) -> MeasurementJson {
    MeasurementJson {
        text: measurement_text(measurement),
        is_assumed: measurement.is_assumed,
        gain_ml: ml(measurement.gain),
        settles: measurement.settles.clone(),
    }
}
