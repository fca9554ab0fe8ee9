//! A bleed followed stroke by stroke: where the air and the old fluid are, what comes out, how the pedal feels.
//!
//! [`simulate`] takes a plan and does what it says, with parameters of its own: nominal sizes instead of the plan's
//! bounds, and a person's technique in seconds. What is left at the end is a check on the plan, not a part of it: the planner
//! knows nothing of it.
//!
//! Air moves in slugs through lines and gathers at the top of cavities. Every stroke is followed by
//! [`bleedwright_hydraulics::stroke`]: the pockets in shut branches take up a part of it and give it back. Old fluid is
//! followed by laminar streamlines in lines and by stirring in cavities. The equations stand in docs/model.md.
//!
//! Invariant: nothing here keeps state between two calls; volumes balance, and the outcome says by how much they do not.
//!
//! # Map
//!
//! - `bleed`, `other_ways`: the steps of a plan, one after the other: by strokes; by gravity and back into syringe and hose
//! - `done`: what a step came to, and when it is finished
//! - `stroke`, `travel`: what one stroke delivers; what air that is left takes of the pedal's travel
//! - `system`, `vessel`, `slug`: what every element holds, and what passing fluid does to it
//! - `rise`, `old`: air that climbs in lines; old fluid
//! - `parameters`, `outcome`: technique and assumptions; the result
//! - `not_followed`: what this vehicle holds that no figure counts
//! - `scene`: what every element holds between the steps
//! - `comparison`, `difference`, `orders`, `permutations`: two plans side by side and what is not the same; every admissible order, as far as a limited work goes

mod bleed;
mod comparison;
mod difference;
mod done;
mod not_followed;
mod old;
mod orders;
mod other_ways;
mod outcome;
mod parameters;
mod permutations;
mod rise;
mod scene;
mod slug;
mod stroke;
mod system;
mod travel;
mod vessel;

pub use bleed::simulate;
pub use comparison::{Side, changes};
pub use difference::{Difference, WhyAmount};
pub use orders::{OrderOutcome, Orders, Part, every_order};
pub use outcome::{AirLeft, CurvePoint, NotFollowed, Outcome, Pocket, StepOutcome, WhyNotFollowed};
pub use parameters::{POCKET_RANGE_MM, Parameters, ScrewHandling};
pub use scene::{Held, Scene, watch};
pub use stroke::SimulationError;
