//! What can be wrong with the numbers given to the purge model.

use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::{cubic_meter, milliliter};

/// Why the purge model gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PurgeError {
    /// A volume is negative, infinite or not a number, or the volumes of a run add up to more than can be held.
    #[error("a volume must be finite and zero or more, found {volume_ml} ml")]
    VolumeOutOfRange {
        /// The volume found, in millilitres.
        volume_ml: f64,
    },
    /// An old fraction lies outside 0 to 1.
    #[error("an old fraction must lie between 0 and 1, found {fraction}")]
    FractionOutOfRange {
        /// The fraction found.
        fraction: f64,
    },
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
pub(crate) fn checked_m3(volume: Volume) -> Result<f64, PurgeError> {
    let volume_m3 = volume.get::<cubic_meter>();
    if volume_m3.is_finite() && volume_m3 >= 0.0 {
        // An empty sum is a negative zero, which must not turn a quotient into negative infinity.
        Ok(volume_m3 + 0.0)
    } else {
        Err(PurgeError::VolumeOutOfRange {
            volume_ml: volume.get::<milliliter>(),
        })
    }
}

/// The fraction as a plain number, if it lies between nothing and everything.
pub(crate) fn checked_fraction(fraction: Ratio) -> Result<f64, PurgeError> {
    let fraction = fraction.get::<ratio>();
    if (0.0..=1.0).contains(&fraction) {
        Ok(fraction)
    } else {
        Err(PurgeError::FractionOutOfRange { fraction })
    }
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
