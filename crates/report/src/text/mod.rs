//! Text for a terminal or a sheet of paper.

mod certainty;
mod comparison;
mod fluid;
mod paper;
mod pedal;
mod plan;
mod readings;
pub(crate) mod simulation;
mod step;
mod volumes;
mod why;

pub use certainty::order_text;
pub(crate) use comparison::letter;
pub use comparison::{comparison_text, orders_text};
pub use fluid::fluid_text;
pub use paper::{Paper, paragraph};
pub use pedal::pedal_text;
pub(crate) use pedal::{help_words, lost_words, next_text};
pub use plan::{Pages, plan_text};
pub use readings::{checks_text, readings_text};
pub use simulation::simulation_text;
pub use volumes::volumes_text;
