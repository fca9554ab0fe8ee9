//! Whether brake fluid is fit: the limits of its grade, what a moisture reading means for its boiling point, and a
//! verdict for the fluid in the car and for the new bottle.
//!
//! - [`judge`]: from a [`FluidReading`] to a [`FluidJudgement`];
//! - [`limits_of`]: the limits of a grade, each with its clause and with how surely it is known;
//! - [`BoilingEstimate`]: the boiling point that a share of water leaves, by a cautious curve and with bounds;
//! - [`WaterCurve`]: the equation behind it.
//!
//! ```
//! use bleedwright_inspection::fluid::{FluidReading, Verdict, judge};
//! use bleedwright_network::{Bounds, Fluid};
//! use uom::si::{f64::Ratio, ratio::percent};
//!
//! let reading = FluidReading {
//!     grade: Some(Fluid::Dot4),
//!     moisture: Some(Bounds::exact(Ratio::new::<percent>(2.5))),
//!     ..FluidReading::default()
//! };
//! assert_eq!(judge(&reading)?.verdict, Verdict::RenewSoon);
//! // Nothing measured is not checked, never fit.
//! let nothing = FluidReading { moisture: None, ..reading };
//! assert_eq!(judge(&nothing)?.verdict, Verdict::NotChecked);
//! # Ok::<(), bleedwright_inspection::fluid::FluidError>(())
//! ```

mod advice;
mod boiling_lines;
mod bottle;
mod car;
mod contradiction;
mod curve;
mod error;
mod estimate;
mod judgement;
mod limits;
mod mixture;
mod printed;
mod reading;
mod saturation;
mod trade;

pub use curve::WaterCurve;
pub use error::FluidError;
pub use estimate::{BoilingEstimate, SourceEstimate};
pub use judgement::{
    BottleJudgement, BottleVerdict, FluidJudgement, Item, Subject, Verdict, judge,
};
pub(crate) use limits::least_wet;
pub use limits::{Certainty, Limit, LimitValue, Property, limits_of};
pub use reading::{BottleReading, FluidReading, Label, Look};
pub use saturation::water_saturation_pressure;
pub(crate) use trade::RENEWAL_YEARS;
