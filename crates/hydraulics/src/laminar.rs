//! One pipe full of old fluid, washed by laminar flow: everything depends on one ratio.
//!
//! In laminar flow the fluid on the axis runs twice as fast as the mean and the fluid at the wall not at all. New
//! fluid therefore arrives at the outlet after half of the contents has been pushed, while a film of old fluid
//! stays near the wall for a long time. Nothing mixes across the pipe while a brake is being bled: at the outlet
//! of thin pipe under pedal or bottle pressure, diffusion across the bore takes hours. By gravity the flow is so
//! slow that the outgoing fraction can be up to 1.6 times the one given here.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// The old fraction of what leaves a pipe that held only old fluid.
///
/// Formula: `c = 1` for `theta < 1/2`, else `c = (1 / (2 theta))^2`.
///
/// Symbols: `c` old fraction of the outflow (flux-weighted, dimensionless); `theta` pushed volume divided by the
/// contents of the pipe (dimensionless).
///
/// Range: laminar flow with a parabolic profile, no diffusion across the bore
/// (`D t / R^2` below about 1e-3, with `D` the molecular diffusivity in m2/s, `t` the mean time of stay in s and
/// `R` the bore's radius in m), pipe long against its entry length. A change of bore along the way does not
/// matter, because streamlines keep their order; mixing at a joint does, see [`crate::mixing`].
///
/// Source: [Danckwerts1953](crate#sources), [Levenspiel1999](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::laminar_old_fraction_out;
/// use uom::si::{f64::Ratio, ratio::ratio};
///
/// let out = laminar_old_fraction_out(Ratio::new::<ratio>(2.0));
/// assert_eq!(out.get::<ratio>(), 0.0625);
/// ```
pub fn laminar_old_fraction_out(theta: Ratio) -> Ratio {
    let theta = theta.get::<ratio>();
    // Written so that a ratio that is not a number counts as nothing pushed.
    let fraction = if theta > 0.5 {
        (0.5 / theta).powi(2)
    } else {
        1.0
    };
    Ratio::new::<ratio>(fraction)
}

/// The old share of what is still inside the pipe: what stays on the wall while the outflow already looks new.
///
/// Formula: `m = 1 - theta` for `theta < 1/2`, else `m = 1 / (4 theta)`.
///
/// Symbols: `m` old volume inside divided by the contents (dimensionless); `theta` pushed volume divided by the
/// contents (dimensionless).
///
/// Range: as for [`laminar_old_fraction_out`]. The formula is the integral of that one, since what is inside and
/// what has left add up.
///
/// Source: [Danckwerts1953](crate#sources), integrated.
///
/// ```
/// use bleedwright_hydraulics::{laminar_old_left_inside, laminar_theta_for};
/// use uom::si::{f64::Ratio, ratio::{percent, ratio}};
///
/// // Five per cent going out leaves eleven per cent inside.
/// let theta = laminar_theta_for(Ratio::new::<percent>(5.0));
/// assert!((laminar_old_left_inside(theta).get::<ratio>() - 0.111_803).abs() < 1e-6);
/// ```
pub fn laminar_old_left_inside(theta: Ratio) -> Ratio {
    let theta = theta.get::<ratio>();
    let share = if theta > 0.5 {
        0.25 / theta
    } else {
        1.0 - theta.max(0.0)
    };
    Ratio::new::<ratio>(share)
}

/// The ratio of pushed volume to contents at which the outflow's old fraction has fallen to a given value.
///
/// Formula: `theta = 1 / (2 sqrt(c))`.
///
/// Symbols: `theta` pushed volume divided by the contents (dimensionless); `c` old fraction of the outflow
/// (dimensionless).
///
/// Range: `0 < c <= 1`, otherwise as for [`laminar_old_fraction_out`]. At and below `c = 0` the ratio is infinite,
/// above 1 it is zero.
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

    fn out(theta: f64) -> f64 {
        laminar_old_fraction_out(Ratio::new::<ratio>(theta)).get::<ratio>()
    }

    fn inside(theta: f64) -> f64 {
        laminar_old_left_inside(Ratio::new::<ratio>(theta)).get::<ratio>()
    }

    /// [Levenspiel1999] gives `F = 1 - 1/(4 theta^2)`; the ratios below follow from it by hand.
    #[test]
    fn outgoing_fractions_of_ten_five_two_and_one_per_cent() {
        for (fraction, theta) in [
            (0.10, 1.581_139),
            (0.05, 2.236_068),
            (0.02, 3.535_534),
            (0.01, 5.0),
        ] {
            let found = laminar_theta_for(Ratio::new::<ratio>(fraction)).get::<ratio>();
            assert!((found - theta).abs() < 5e-7, "{fraction}: {found}");
            assert!((out(found) - fraction).abs() < 1e-12);
        }
    }

    #[test]
    fn what_left_and_what_stays_add_up() {
        // Simpson's rule on each side of the corner at one half.
        for theta in [0.2, 0.5, 0.9, 2.0, 7.0] {
            let left = if theta <= 0.5 {
                theta
            } else {
                let intervals = 4000;
                let width = (theta - 0.5) / f64::from(intervals);
                let sum: f64 = (0..=intervals)
                    .map(|i| {
                        let weight = match i {
                            0 => 1.0,
                            i if i == intervals => 1.0,
                            i if i % 2 == 1 => 4.0,
                            _ => 2.0,
                        };
                        weight * out(0.5 + f64::from(i) * width)
                    })
                    .sum();
                0.5 + sum * width / 3.0
            };
            assert!((left + inside(theta) - 1.0).abs() < 1e-9, "theta {theta}");
        }
    }

    #[test]
    fn numbers_outside_the_range_stay_conservative() {
        assert!((out(f64::NAN) - 1.0).abs() < f64::EPSILON);
        assert!((out(-1.0) - 1.0).abs() < f64::EPSILON);
        assert!((inside(-1.0) - 1.0).abs() < f64::EPSILON);
        assert!(out(f64::INFINITY).abs() < f64::EPSILON);
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
