//! From a hydraulic network and the user's options to a bleed plan.
//!
//! [`plan`] gives the plan as plain data: scope, preparations, the screws in
//! their order with a reason for every place, amounts with bounds, strokes,
//! top-ups, shopping, checks and cautions. [`check_options`] gives the
//! findings that options raise without planning.
//!
//! Invariant: every screw in scope stands in exactly one step of a derived
//! order, and no derived order breaks a constraint.
//!
//! Invariant: nothing depends on the order of parts in the file.

mod amount;
mod bubble;
mod build;
mod certainty;
mod drained;
mod drive;
mod examine;
mod figure;
mod heights;
mod joint;
mod kept_full;
mod level;
mod options;
mod order;
mod plan;
mod request;
mod reservoir;
mod scope;
mod sheet;
mod shopping;
mod spread;
mod start;
mod stroke;
mod threads;
mod travel;
mod volumes;
mod worth;

pub use bleedwright_hydraulics::bubble::Verdict;
pub use build::{Planned, check_options, derived_order, order_certainty, plan};
pub use certainty::{Certainty, DecidingLine, MOST_PAIRS, OrderCertainty, UncertainPair};
pub use drive::{fluid_state, line_resistance, liquid, screw_loss};
pub use options::{Begin, Method, Options, Purpose, TEMPERATURES_DEGC, usual_stroke};
pub use plan::*;
pub use sheet::pressure_stores;
pub use spread::{Source, Spread};
pub use start::{empty_at_start, opened_joints};
pub use stroke::{nothing_to_speak_of, shut_circuits};
pub use volumes::*;
pub use worth::{MOST_PASSED, MOST_WORK, Measurement, Worth, worth_measuring};
