//! Pedal travel, and the air that a measured travel implies.

mod air;
mod diagnosis;
mod document;
mod hand;
mod inversion;
mod properties;
mod readings;
mod remaining;
mod stint;
mod vehicles;
mod wide;
mod words;

pub(crate) use stint::{Stint, bar_of};

use crate::command_line::{self, printed, unwrapped};
use serde_json::Value;

fn document(options: &str) -> Value {
    command_line::document(&format!("pedal --format json {options}"))
}

/// What is printed, in one line.
fn words(options: &str) -> String {
    unwrapped(&printed(&format!("pedal {options}")))
}
