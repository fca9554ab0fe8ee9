//! From a hydraulic network and the user's options to a bleed plan.
//!
//! [`plan`] gives the plan as plain data: scope, preparations, the screws in
//! their order with a reason for every place, amounts with bounds, strokes,
//! top-ups, shopping, checks and cautions, and the findings that the
//! options raise.
//!
//! Invariant: every screw in scope stands in exactly one step of a derived
//! order, and no derived order breaks a constraint.
//!
//! # Map
//!
//! What is asked:
//!
//! - `options`, `request`: what the user asks for; the same with names looked up
//! - `examine`: findings that depend on the options; `reservoir` for what compartments hold and what is poured in
//! - `start`: the state of the pipework when the job begins
//! - `scope`: which circuits and screws are bled, and why
//!
//! The order:
//!
//! - `order`: `sequence` derives it from each `constraint` and `preference`; `given` for those of maker and user; `reason` for
//!   every place. `certainty` compares two runs for all lengths at once (`contest`), `evidence` says what that turns on,
//!   `standing` what places a circuit
//! - `certainty`: whether tolerances can change the order, as plain data
//!
//! The amounts:
//!
//! - `amount`: how much each screw pushes: `renewal` by the purge `model` and the `history` of each line, `refill` for air;
//!   `end` follows one end of the bounds, `known` holds pushes worked out before, `radial` how far old fluid diffuses
//! - `joint`: the joints that were opened, and the least that each screw pushes because of them
//! - `drained`: what ran out
//! - `kept_full`: whether plugs and a propped pedal could keep anything full
//! - `bubble`: whether a long bubble in a line leaves with the fluid
//! - `heights`: high points on the way, gravity over them, screws above what feeds them
//! - `volumes`, `spread`: contents, and where their spread comes from
//! - `figure`, `measurable`, `worth`: the figures that may have a range; their names; what measuring one narrows
//! - `corner`: at which of its three values a figure is taken
//! - `threads`: two jobs at once
//!
//! The work:
//!
//! - `drive`: the `pressure` of each method, the `flow` through one screw, the `technique` of the people
//! - `stroke`, `travel`: what a stroke displaces, how many it takes, how far the pedal goes
//! - `level`, `reservoir`: when to top up; how old fluid is drawn off
//! - `shopping`: what to buy
//! - `sheet`: what stands around the steps, one file for each subject
//!
//! The plan:
//!
//! - `loaded`: from a loaded layout to its plan, findings merged
//! - `build`: puts it together. `needs` asks for every visit, nominal first and then the two ends of its bounds; `visited` is
//!   one of them, `step` what is counted from one to the next; `second` plans the bleed after the routine of anti-lock units
//! - `plan`: the plan as plain data: each `step`, what comes `before` and `after`, each `change` and how it is `made`, who `call`s
//!   what, each `caution` and `reason`, what is `assumed` and `left`, the `second` bleed, the `jar` for old fluid

mod amount;
mod bubble;
mod build;
mod certainty;
mod corner;
mod drained;
mod drive;
mod examine;
mod figure;
mod heights;
mod joint;
mod kept_full;
mod level;
mod loaded;
mod measurable;
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
pub use build::{Planned, derived_order, order_certainty, plan};
pub use certainty::{
    Certainty, DecidingLine, MOST_PAIRS, MOST_STEPS, OrderCertainty, UncertainPair, Undecided,
};
pub use drive::{fluid_state, line_resistance, liquid, screw_loss};
pub use loaded::plan_loaded;
pub use measurable::{Dimension, Measurable};
pub use options::{Begin, Method, Options, Purpose, TEMPERATURES_DEGC, usual_stroke};
pub use plan::*;
pub use sheet::pressure_stores;
pub use spread::{Contribution, Spread};
pub use start::{empty_at_start, opened_joints};
pub use stroke::{nothing_to_speak_of, shut_circuits};
pub use volumes::*;
pub use worth::{MOST_PASSED, MOST_WORK, worth_measuring};
