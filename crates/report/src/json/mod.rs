//! JSON for other programs. Every document carries `schema_version`; its
//! schema is in docs/schema.

mod certainty;
mod comparison;
mod finding;
mod fluid;
mod height;
mod level;
mod pedal;
mod plan;
mod readings;
mod remains;
mod rinsing;
mod simulation;
mod step;
mod volumes;

pub use certainty::{DecidingLineJson, MeasurementJson, OrderCertaintyJson, UncertainPairJson};
pub use comparison::{ComparisonJson, OrdersJson};
pub use finding::{CheckJson, FindingJson};
pub use fluid::FluidJson;
pub use pedal::PedalJson;
pub use plan::PlanJson;
pub use readings::{ReadingCheckJson, ReadingsJson, StateCountsJson};
pub use simulation::SimulationJson;
pub use volumes::VolumesJson;

use bleedwright_network::Bounds;
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::f64::{Length, Pressure, Volume};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

/// The version of these documents. It grows when a field changes its meaning
/// or goes; new fields do not change it.
pub const SCHEMA_VERSION: u32 = 1;

/// A value with the corners its tolerances allow.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct Range {
    /// The lowest value.
    pub low: f64,
    /// The value to work with.
    pub nominal: f64,
    /// The highest value.
    pub high: f64,
}

fn range_ml(bounds: Bounds<Volume>) -> Range {
    Range {
        low: ml(bounds.low),
        nominal: ml(bounds.nominal),
        high: ml(bounds.high),
    }
}

fn range_m(bounds: Bounds<Length>) -> Range {
    Range {
        low: bounds.low.get::<meter>() + 0.0,
        nominal: bounds.nominal.get::<meter>() + 0.0,
        high: bounds.high.get::<meter>() + 0.0,
    }
}

fn range_mm(bounds: Bounds<Length>) -> Range {
    Range {
        low: bounds.low.get::<millimeter>(),
        nominal: bounds.nominal.get::<millimeter>(),
        high: bounds.high.get::<millimeter>(),
    }
}

fn range_bar(bounds: Bounds<Pressure>) -> Range {
    Range {
        low: bounds.low.get::<bar>(),
        nominal: bounds.nominal.get::<bar>(),
        high: bounds.high.get::<bar>(),
    }
}

/// Adding zero turns the negative zero of an empty sum into a plain one.
fn ml(volume: Volume) -> f64 {
    volume.get::<milliliter>() + 0.0
}

/// The JSON Schema of a document, as text.
pub fn schema<T: JsonSchema>() -> String {
    let schema = schemars::schema_for!(T);
    pretty(&schema)
}

/// A document as indented JSON with a final line feed.
pub fn pretty<T: Serialize>(document: &T) -> String {
    let mut text = serde_json::to_string_pretty(document)
        .expect("these documents hold only strings, finite numbers and lists of them");
    text.push('\n');
    text
}
