//! What can be wrong with the numbers given to the purge model.

use crate::range::{OutOfRange, between, zero_or_more};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// Why the purge model gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PurgeError {
    /// A volume or an old fraction cannot be, or the volumes of a run add up to more than can be held.
    #[error(transparent)]
    Number(#[from] OutOfRange),
    /// The residual asked for is not a share above nothing and below everything.
    #[error("the residual must lie above 0 and below 1, found {residual}")]
    ResidualOutOfRange {
        /// The residual found.
        residual: f64,
    },
    /// What flows into the run already holds at least as much old fluid as may leave it.
    #[error(
        "a residual of {residual} cannot be reached while the inflow holds {inlet_old_fraction} old fluid"
    )]
    ResidualBelowInlet {
        /// The residual asked for.
        residual: f64,
        /// The old fraction of what flows in.
        inlet_old_fraction: f64,
    },
    /// The integration used all of its steps before the outgoing fraction had settled.
    #[error("the outgoing fraction has not settled after {steps} steps")]
    NotSettled {
        /// The number of steps made.
        steps: usize,
    },
}

/// The volume in cubic metres, if it can be the contents of something.
pub(crate) fn checked_m3(volume: Volume) -> Result<f64, OutOfRange> {
    // An empty sum is a negative zero, which must not turn a quotient into negative infinity.
    zero_or_more("volume", volume.get::<cubic_meter>() + 0.0, "m3")
}

/// The fraction as a plain number, if it lies between nothing and everything.
pub(crate) fn checked_fraction(fraction: Ratio) -> Result<f64, OutOfRange> {
    between("old fraction", fraction.get::<ratio>(), (0.0, 1.0), "")
}

/// The residual as a plain number, if it is one that a push can aim at.
pub(crate) fn checked_residual(residual: Ratio) -> Result<f64, PurgeError> {
    let residual = residual.get::<ratio>();
    if residual > 0.0 && residual < 1.0 {
        Ok(residual)
    } else {
        Err(PurgeError::ResidualOutOfRange { residual })
    }
}
