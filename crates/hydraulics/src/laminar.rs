//! One pipe full of old fluid, washed by laminar flow: everything depends on one ratio.
//!
//! In laminar flow the fluid on the axis runs twice as fast as the mean and the fluid at the wall not at all. New
//! fluid therefore arrives at the outlet after half of the contents has been pushed, while a film of old fluid
//! stays near the wall for a long time. Nothing mixes across the pipe while a brake is being bled: at the outlet
//! of thin pipe under pedal or bottle pressure, diffusion across the bore takes hours. By gravity the flow is so
//! slow that the outgoing fraction can be up to 1.6 times the one given here.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// The ratio of pushed volume to contents at which the outflow's old fraction has fallen to a given value.
///
/// Formula: `theta = 1 / (2 sqrt(c))`, from `c = 1` for `theta < 1/2`, else `c = (1 / (2 theta))^2`.
///
/// Symbols: `theta` pushed volume divided by the contents (dimensionless); `c` old fraction of the outflow
/// (dimensionless).
///
/// Range: `0 < c <= 1`; at and below `c = 0` the ratio is infinite, above 1 it is zero. Laminar flow with a parabolic
/// profile, no diffusion across the bore (`D t / R^2` below about 1e-3, with `D` the molecular diffusivity in m2/s, `t` the
/// mean time of stay in s and `R` the bore's radius in m), pipe long against its entry length. A change of bore along the
/// way does not matter, because streamlines keep their order; mixing at a joint does, see [`crate::mixing`].
///
/// Source: [Danckwerts1953](crate#sources), [Levenspiel1999](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::laminar_theta_for;
/// use uom::si::{f64::Ratio, ratio::{percent, ratio}};
///
/// assert!((laminar_theta_for(Ratio::new::<percent>(5.0)).get::<ratio>() - 2.236_068).abs() < 1e-6);
/// ```
pub fn laminar_theta_for(old_fraction_out: Ratio) -> Ratio {
    let fraction = old_fraction_out.get::<ratio>();
    let theta = if fraction > 1.0 {
        0.0
    } else {
        0.5 / fraction.max(0.0).sqrt()
    };
    Ratio::new::<ratio>(theta)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_outside_the_range_stay_conservative() {
        assert!(
            laminar_theta_for(Ratio::new::<ratio>(0.0))
                .get::<ratio>()
                .is_infinite()
        );
        assert!(
            laminar_theta_for(Ratio::new::<ratio>(2.0))
                .get::<ratio>()
                .abs()
                < f64::EPSILON
        );
    }
}
