//! One perfectly stirred cavity: a caliper, a wheel cylinder, a reservoir.

use crate::error::{PurgeError, checked_fraction, checked_m3};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;

/// A cavity in which whatever flows in is mixed at once with all that is there.
///
/// ASSUMPTION: a real cavity has corners that the flow passes by; the model has none. The inflow's jet and the
/// piston's recess make full mixing the usual reading, but no published measurement for brake cavities is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    volume: Volume,
    old_fraction: Ratio,
}

impl Tank {
    /// A cavity of this volume, this share of which is old fluid.
    pub fn new(volume: Volume, old_fraction: Ratio) -> Result<Self, PurgeError> {
        checked_m3(volume)?;
        checked_fraction(old_fraction)?;
        Ok(Self {
            volume,
            old_fraction,
        })
    }

    /// A cavity that holds nothing but old fluid.
    pub fn full_of_old(volume: Volume) -> Result<Self, PurgeError> {
        Self::new(volume, Ratio::new::<ratio>(1.0))
    }

    /// What the cavity holds.
    pub fn volume(&self) -> Volume {
        self.volume
    }

    /// The old share of what the cavity holds.
    pub fn old_fraction(&self) -> Ratio {
        self.old_fraction
    }
}

/// The share of a stirred cavity's first contents that is still there after a push.
///
/// Formula: `c = exp(-v / V)`.
///
/// Symbols: `c` share left, equal to the outflow's share (dimensionless); `v` pushed volume (m3); `V` volume of the
/// cavity (m3).
///
/// Range: perfect mixing, `v >= 0` (a negative push counts as none). A cavity without volume keeps everything at
/// `v = 0` and nothing after it.
///
/// Source: [Danckwerts1953](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::tank::washout_share;
/// use uom::si::{f64::Volume, ratio::ratio, volume::milliliter};
///
/// let left = washout_share(Volume::new::<milliliter>(15.0), Volume::new::<milliliter>(45.0));
/// assert!((left.get::<ratio>() - 0.049_787).abs() < 1e-6);
/// ```
pub fn washout_share(volume: Volume, pushed: Volume) -> Ratio {
    let (volume, pushed) = (volume.value.max(0.0), pushed.value.max(0.0));
    let share = if pushed <= 0.0 {
        1.0
    } else {
        (-pushed / volume).exp()
    };
    // Infinity through infinity is the only quotient without a value; nothing can be claimed about it.
    Ratio::new::<ratio>(if share.is_nan() { 1.0 } else { share })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::volume::milliliter;

    fn ml(volume_ml: f64) -> Volume {
        Volume::new::<milliliter>(volume_ml)
    }

    /// [Danckwerts1953]: the exponential washout; 5 % at 3.00 volumes and 1 % at 4.61 volumes.
    #[test]
    fn five_and_one_per_cent() {
        for (share, volumes) in [(0.05, 3.00), (0.01, 4.61)] {
            let left = washout_share(ml(1.0), ml(volumes)).get::<ratio>();
            // The volumes are printed to a hundredth.
            assert!((left / share - 1.0).abs() < 0.005, "{left}");
        }
    }

    #[test]
    fn edges_have_values() {
        let one = Ratio::new::<ratio>(1.0);
        assert_eq!(washout_share(ml(0.0), ml(0.0)), one);
        assert_eq!(washout_share(ml(0.0), ml(1.0)), Ratio::new::<ratio>(0.0));
        assert_eq!(washout_share(ml(5.0), ml(-1.0)), one);
    }

    #[test]
    fn bad_numbers_are_refused() {
        for volume_ml in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(Tank::full_of_old(ml(volume_ml)).is_err());
        }
        for fraction in [-0.1, 1.1, f64::NAN] {
            assert!(Tank::new(ml(1.0), Ratio::new::<ratio>(fraction)).is_err());
        }
    }
}
