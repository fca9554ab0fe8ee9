//! Steady flow through a network of pipes, screws and joints.
//!
//! - [`FlowNetwork`]: what is connected to what, at which height, and where a pressure is given;
//! - [`BranchLaw`]: the pressure that a branch takes for its flow;
//! - [`Flows`]: what flows where, and the pressure at every joint.
//!
//! The solution is sought in the flows. They balance at every joint from the first step on, by the way they are
//! computed, and Newton's method drives what is left over around each loop to zero. A network with linear
//! branches alone takes one step and one more that shows it, one with screws a few.

mod elimination;
mod error;
mod flows;
mod graph;
mod joined;
mod law;
mod network;
mod newton;
mod tree;

pub use error::FlowError;
pub use flows::Flows;
pub use law::BranchLaw;
pub use network::{BranchId, FlowNetwork, NodeId};
