//! What is known about brake fluids: density, viscosity, surface tension, stiffness, each with its bounds.
//!
//! - [`Grade`]: the grades and the figures behind them;
//! - [`Walther`]: viscosity over temperature through two points;
//! - [`Properties`] and [`State`]: everything at one temperature, with bounds;
//! - [`Liquid`]: one definite liquid, as the equations of flow and of bubbles take it.

mod figures;
mod grade;
mod liquid;
mod properties;
mod walther;

pub use grade::Grade;
pub use liquid::Liquid;
pub use properties::{Properties, State, ViscosityPoint};
pub use walther::Walther;
