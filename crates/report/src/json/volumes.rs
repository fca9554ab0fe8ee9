//! Volumes as JSON.

use super::plan::SpreadJson;
use super::{Range, SCHEMA_VERSION, each, ml, range_m, range_ml};
use bleedwright_planner as planner;
use schemars::JsonSchema;
use serde::Serialize;

/// What a system holds.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VolumesJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// Lines in the order of the file.
    pub lines: Vec<LineJson>,
    /// Chambers, passages and cavities in the order of the file.
    pub parts: Vec<PartJson>,
    /// Runs, screw by screw.
    pub runs: Vec<RunJson>,
    /// Circuits, cylinder chambers included.
    pub circuits: Vec<CircuitJson>,
    /// Pipes and hoses by size.
    pub sizes: Vec<SizeJson>,
    /// Reservoir compartments at their marks; not part of the total.
    pub compartments: Vec<CompartmentJson>,
    /// All circuits together, without the reservoirs.
    pub total_ml: Range,
    /// Where the spread comes from.
    pub spread: SpreadJson,
    /// What renewing the fluid takes; null where it cannot be planned.
    pub renewal: Option<RenewalJson>,
}

/// One line.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LineJson {
    /// Its name.
    pub id: String,
    /// What it is.
    pub kind: String,
    /// Its circuit.
    pub circuit: Option<String>,
    /// Its length.
    pub length_m: Range,
    /// Its contents.
    pub contents_ml: Range,
}

/// One chamber, passage or cavity.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PartJson {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// Its circuit.
    pub circuit: Option<String>,
    /// Its wheel.
    pub wheel: Option<String>,
    /// Its contents.
    pub contents_ml: Range,
}

/// One run.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RunJson {
    /// The screw.
    pub screw: String,
    /// Its circuit.
    pub circuit: String,
    /// Its length.
    pub length_m: Range,
    /// Its contents, without the cylinder chamber.
    pub contents_ml: Range,
}

/// One circuit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CircuitJson {
    /// Its name.
    pub name: String,
    /// The cylinder chamber.
    pub chamber_ml: Range,
    /// Pipes, hoses and passages.
    pub lines_ml: Range,
    /// Brake cavities.
    pub cavities_ml: Range,
    /// All of it.
    pub total_ml: Range,
}

/// Lines of one size.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SizeJson {
    /// The size.
    pub size: String,
    /// How many lines.
    pub count: usize,
    /// Their length.
    pub length_m: Range,
    /// Their contents.
    pub contents_ml: Range,
}

/// A reservoir compartment.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CompartmentJson {
    /// Its name.
    pub name: String,
    /// At the maximum mark.
    pub max_ml: Range,
    /// At the minimum mark.
    pub min_ml: Option<Range>,
}

/// What renewal takes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RenewalJson {
    /// New fluid drawn, at most.
    pub needed_ml: f64,
    /// Of it what stays in the system.
    pub stays_ml: f64,
    /// What goes to waste, at most.
    pub wasted_ml: f64,
}

impl VolumesJson {
    /// The document for one layout.
    pub fn new(volumes: &planner::Volumes) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: volumes.vehicle.clone(),
            lines: each(&volumes.lines, |line| LineJson {
                id: line.id.clone(),
                kind: line.kind.clone(),
                circuit: line.circuit.clone(),
                length_m: range_m(line.length),
                contents_ml: range_ml(line.contents),
            }),
            parts: each(&volumes.parts, |part| PartJson {
                name: part.name.clone(),
                kind: part.kind.to_owned(),
                circuit: part.circuit.clone(),
                wheel: part.wheel.map(|wheel| wheel.word().to_owned()),
                contents_ml: range_ml(part.contents),
            }),
            runs: each(&volumes.runs, |run| RunJson {
                screw: run.screw.clone(),
                circuit: run.circuit.clone(),
                length_m: range_m(run.length),
                contents_ml: range_ml(run.contents),
            }),
            circuits: each(&volumes.circuits, |circuit| CircuitJson {
                name: circuit.name.clone(),
                chamber_ml: range_ml(circuit.chamber),
                lines_ml: range_ml(circuit.lines),
                cavities_ml: range_ml(circuit.cavities),
                total_ml: range_ml(circuit.total),
            }),
            sizes: each(&volumes.sizes, |size| SizeJson {
                size: size.size.clone(),
                count: size.count,
                length_m: range_m(size.length),
                contents_ml: range_ml(size.contents),
            }),
            compartments: each(&volumes.compartments, |compartment| CompartmentJson {
                name: compartment.name.clone(),
                max_ml: range_ml(compartment.max),
                min_ml: compartment.min.map(range_ml),
            }),
            total_ml: range_ml(volumes.total),
            spread: SpreadJson::new(&volumes.spread),
            renewal: volumes.renewal.map(|renewal| RenewalJson {
                needed_ml: ml(renewal.needed),
                stays_ml: ml(renewal.stays),
                wasted_ml: ml(renewal.wasted),
            }),
        }
    }
}
