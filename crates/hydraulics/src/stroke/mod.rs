//! A pedal stroke in time: pressures, pockets and flow in a network of nodes and branches.
//!
//! [`StrokeNetwork`] describes the pipework, [`StrokeNetwork::run`] follows it through a stroke, [`Trace`] says what
//! happened, and [`Trace::end_state`] is where the next stroke begins.
//!
//! Volumes are what this is for. Without inertance they are right to about 1 %, and pressures in time are not.

mod accuracy;
mod elimination;
mod error;
mod law;
mod motion;
mod network;
mod pocket;
mod push;
mod run;
mod state;
mod step;
mod tableau;
mod tolerances;
mod trace;

pub use error::StrokeError;
pub use law::BranchLaw;
pub use motion::{Motion, MotionPoint};
pub use network::{BranchId, NodeId, PistonId, StrokeNetwork};
pub use pocket::Pocket;
pub use state::StrokeState;
pub use tolerances::StrokeTolerances;
pub use trace::{StrokeSample, StrokeWarning, Trace};
