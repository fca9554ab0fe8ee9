//! Plans, findings, volumes and handover sheets as text for people, JSON for programs and pages for a printer.
//!
//! Invariant: a renderer only reads. What it prints was computed before; it
//! rounds, wraps and chooses words.
//!
//! Invariant: no control character of a layout file reaches a terminal.

mod card;
mod clean;
mod curve;
mod finding;
mod html;
pub mod json;
mod kept;
mod lesson;
mod lines;
mod markdown;
mod number;
mod record;
mod text;
mod travel;

pub use card::{Card, CardJar, CardSecond, CardStep, CardStop};
pub use clean::clean;
pub use curve::{curve_csv, curve_svg};
pub use finding::{findings_plain, findings_terminal};
pub use html::{card_html, lesson_html, readings_html};
pub use lesson::{LessonPedal, LessonSide};
pub use markdown::plan_markdown;
pub use record::record_of;
pub use text::{
    Paper, checks_text, comparison_text, fluid_text, order_text, orders_text, paragraph,
    pedal_text, plan_text, readings_text, simulation_text, volumes_text,
};
pub use travel::travel_svg;
