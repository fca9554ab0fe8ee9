//! A pedal stroke in time: pressures, pockets and flow in a network of nodes and branches.
//!
//! [`StrokeNetwork`] describes the pipework, [`StrokeNetwork::run`] follows it through a stroke, and [`StrokeState`] says
//! what it came to.
//!
//! Volumes are what this is for. The mass of the fluid is left out: they are right to about 1 %, and pressures in time are
//! not.

mod accuracy;
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

pub use error::StrokeError;
pub use law::BranchLaw;
pub use motion::Motion;
pub use network::{BranchId, NodeId, StrokeNetwork};
pub use pocket::Pocket;
pub use state::StrokeState;
