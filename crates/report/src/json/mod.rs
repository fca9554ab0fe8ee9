//! JSON for other programs. Every document carries `schema_version`; its
//! schema is in docs/schema.

mod certainty;
mod change;
mod comparison;
mod fact;
mod finding;
mod fluid;
mod height;
mod level;
mod next;
mod pedal;
mod plan;
mod readings;
mod remains;
mod rinsing;
mod second;
mod simulation;
mod step;
mod volumes;

pub use certainty::{DecidingLineJson, MeasurementJson, OrderCertaintyJson, UncertainPairJson};
pub use comparison::{ComparisonJson, OrdersJson};
pub use fact::FactJson;
pub use finding::{CheckJson, FindingJson};
pub use fluid::FluidJson;
pub use pedal::PedalJson;
pub use plan::PlanJson;
pub use readings::{ReadingCheckJson, ReadingsJson, StateCountsJson};
pub use simulation::SimulationJson;
pub use volumes::VolumesJson;

use bleedwright_network::{Bounds, is_invisible, json_escape};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::f64::{Length, Pressure, Ratio, Volume};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::bar;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// The version of these documents. It grows when a field changes its meaning
/// or goes; new fields do not change it.
pub const SCHEMA_VERSION: u32 = 2;

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

/// Bounds as figures of one unit.
fn range<Q: Copy>(bounds: Bounds<Q>, figure: impl Fn(Q) -> f64) -> Range {
    let Bounds { low, nominal, high } = bounds.map(figure);
    Range { low, nominal, high }
}

fn range_ml(bounds: Bounds<Volume>) -> Range {
    range(bounds, ml)
}

fn range_m(bounds: Bounds<Length>) -> Range {
    range(bounds, |length| length.get::<meter>() + 0.0)
}

fn range_mm(bounds: Bounds<Length>) -> Range {
    range(bounds, |length| length.get::<millimeter>())
}

fn range_bar(bounds: Bounds<Pressure>) -> Range {
    range(bounds, |pressure| pressure.get::<bar>())
}

fn range_of(shares: Bounds<Ratio>) -> Range {
    range(shares, |share| share.get::<ratio>())
}

/// What `one` makes of each.
fn each<T, J>(all: &[T], one: impl Fn(&T) -> J) -> Vec<J> {
    all.iter().map(one).collect()
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

/// A document as indented JSON with a final line feed. What cannot be seen is escaped: it stands in strings alone.
pub fn pretty<T: Serialize>(document: &T) -> String {
    let text = serde_json::to_string_pretty(document)
        .expect("these documents hold only strings, finite numbers and lists of them");
    let mut escaped = String::with_capacity(text.len() + 1);
    for character in text.chars() {
        if is_invisible(character) && character != '\n' {
            escaped.push_str(&json_escape(character));
        } else {
            escaped.push(character);
        }
    }
    escaped.push('\n');
    escaped
}

#[cfg(test)]
mod tests {
    use super::pretty;

    #[test]
    fn what_cannot_be_seen_is_escaped() {
        let text =
            "a\u{7f}\u{85}\u{202e}\u{2066}\u{200b}\u{200f}\u{61c}\u{feff}\u{e0001}\n\u{1b} µm";
        let written = pretty(&text);
        assert_eq!(
            written,
            "\"a\\u007f\\u0085\\u202e\\u2066\\u200b\\u200f\\u061c\\ufeff\\udb40\\udc01\\n\\u001b µm\"\n"
        );
        let read: String = serde_json::from_str(&written).expect("it is JSON");
        assert_eq!(read, text);
    }
}
