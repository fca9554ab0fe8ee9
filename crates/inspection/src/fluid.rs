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
mod assumption;
mod boiling_lines;
mod bottle;
mod bottle_reason;
mod car;
mod caution;
mod contradiction;
mod curve;
mod error;
mod estimate;
mod judgement;
mod limits;
mod mixture;
mod reading;
mod reason;
mod saturation;
mod subject;
mod trade;
mod verdict;

pub use assumption::FluidAssumption;
pub use boiling_lines::{BoilingLines, lowest_wet};
pub use bottle_reason::{BottleReason, Opened};
pub use caution::FluidCaution;
pub use curve::WaterCurve;
pub use error::{FluidError, instead_of_moisture};
pub use estimate::{
    ABOVE_CLASS_K, BoilingEstimate, EstimateSource, LOOSEST_FACTOR, SourceEstimate,
    TIGHTEST_OF_CLASS, WET_PERCENT,
};
pub use judgement::{BottleJudgement, Contradiction, FluidJudgement, Item};
pub(crate) use limits::least_wet;
pub use limits::{Certainty, Colour, Limit, LimitValue, Property, limits_of};
pub use reading::{BottleReading, FluidReading, Label, Look};
pub use reason::{
    AgeReason, BoilingReason, Due, EstimateSays, EstimatedBoiling, GradeReason, MixtureReason,
    MoistureReason, Reason,
};
pub use saturation::water_saturation_pressure;
pub use subject::Subject;
pub use trade::{
    NEW_PERCENT, OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, OVERDUE_YEARS, RENEW_NOW_PERCENT,
    RENEW_SOON_PERCENT, RENEWAL_YEARS, UNSAFE_PERCENT,
};
pub use verdict::{BottleVerdict, Verdict};

use bleedwright_network::FluidFamily;

/// Judges the fluid in a car and the bottle beside it.
///
/// The verdict is the worst that any item says. Nothing measured is [not checked](Verdict::NotChecked); a tolerance counts
/// at its worse end. The rules of the trade and their standing are in [`FluidJudgement::limits`].
///
/// Errors: a moisture reading of fluid that takes up no water, and readings that no fluid can have.
///
/// Source: limits [FMVSS116](crate#sources), [ISO4925](crate#sources); the rules of the trade have none.
pub fn judge(reading: &FluidReading) -> Result<FluidJudgement, FluidError> {
    reading.check()?;
    let car = car::Car::new(reading)?;
    let items = car.items();
    let boiling = car.estimate();
    let bottle = match &reading.bottle {
        Some(bottle) => Some(bottle::judge(bottle, &car)?),
        None => None,
    };
    let mut limits = car.grade.map(limits_of).unwrap_or_default();
    if car
        .grade
        .is_none_or(|grade| grade.family() == FluidFamily::Glycol)
    {
        limits.extend(trade::rules());
    }
    Ok(FluidJudgement {
        grade: car.grade,
        verdict: overall(&items),
        contradiction: car.contradiction(),
        assumptions: advice::assumptions(reading, &car, boiling.as_ref()),
        cautions: advice::cautions(&car, overall(&items), boiling.as_ref()),
        boiling,
        bottle,
        limits,
        items,
    })
}

/// The worst verdict; nothing is found against it only by a measurement.
fn overall(items: &[Item<Verdict, Reason>]) -> Verdict {
    let worst = items.iter().map(|item| item.verdict).max();
    let is_measured = items.iter().any(|item| {
        matches!(item.subject, Subject::Moisture | Subject::Boiling)
            && item.verdict != Verdict::NotChecked
    });
    let is_told = |worst: &Verdict| *worst != Verdict::Fit || is_measured;
    worst.filter(is_told).unwrap_or(Verdict::NotChecked)
}
