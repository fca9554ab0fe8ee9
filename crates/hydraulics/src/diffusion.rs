//! Diffusion across the bore while fluid flows along it: what it does to the outflow of a laminar tube.
//!
//! The equation, for a tube full of old fluid washed with new fluid:
//!
//! ```text
//! dc/dtheta + u dc/dx = tau (1/r) d(r dc/dr)/dr,   u = 2 (1 - r^2)
//! tau = D t / R^2 = pi D L / Q
//! ```
//!
//! Symbols: `c` old fraction; `theta` pushed volume divided by the contents; `x`, `r` places along and across the tube
//! divided by its length and radius; `D` diffusivity (m2/s); `t` mean time of stay (s); `R` radius (m); `L` length (m);
//! `Q` mean flow, pauses included (m3/s). The bore cancels out of `tau`.
//!
//! Old fluid on the wall bleeds into the stream: the outflow takes longer to become clean, and less stays behind. The
//! push for a residual is **not** a rising function of `tau`: for 5 % it is 2.236 contents without diffusion, 2.778 at
//! `tau = 5e-3` and less again above. Where `tau` is known by its bounds only, the outflow is bounded point by point
//! ([`Diffusion::at_most`], [`Diffusion::at_least`]); stirred cavities behind the tube keep such an order.
//!
//! Range: the table holds `tau` from 2e-5 to 0.2 and `theta` up to 16. Below, the exact curve without diffusion is
//! mixed in; above 0.2 the curve of 0.2 is used, which asks for more at residuals below a third.
//!
//! Source: the equation [Levenspiel1999](crate#sources), its solution computed apart from this crate by
//! `tests/reference/diffusion`, whose numbers the table holds.

mod table;

use crate::curve::Curve;
use crate::known::{Evidence, Known};
use table::{LEAST_TAU, PER_DECADE, ROOTS, TAUS, THETA, THETAS};
use uom::si::diffusion_coefficient::square_meter_per_second;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    DiffusionCoefficient, DynamicViscosity, Length, Ratio, ThermodynamicTemperature, VolumeRate,
};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// How far diffusion across the bore goes while fluid passes a whole run: `tau`, or bounds of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diffusion {
    low: f64,
    high: f64,
    side: Side,
}

/// Which bound of the outflow is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Most,
    Least,
}

impl Diffusion {
    /// None: streamlines keep their fluid.
    pub const NONE: Self = Self {
        low: 0.0,
        high: 0.0,
        side: Side::Most,
    };

    /// One `tau`. What is not a number counts as none, and so does anything negative.
    pub fn of(tau: Ratio) -> Self {
        Self::at_most(tau, tau)
    }

    /// The most that can leave for any `tau` between two.
    pub fn at_most(low: Ratio, high: Ratio) -> Self {
        let low = low.get::<ratio>().max(0.0);
        Self {
            low,
            high: high.get::<ratio>().max(low),
            side: Side::Most,
        }
    }

    /// The least that can leave for any `tau` between two.
    pub fn at_least(low: Ratio, high: Ratio) -> Self {
        Self {
            side: Side::Least,
            ..Self::at_most(low, high)
        }
    }

    /// Whether there is none.
    pub fn is_none(&self) -> bool {
        self.high <= 0.0
    }

    /// Whether there is some, and it says how much may leave and not how little.
    pub(crate) fn is_upper_bound(&self) -> bool {
        !self.is_none() && self.side == Side::Most
    }

    /// The bits of its numbers, for finding equal ones.
    pub fn bits(&self) -> [u64; 3] {
        [
            self.low.to_bits(),
            self.high.to_bits(),
            u64::from(self.side == Side::Most),
        ]
    }

    /// The same for a share of the run.
    pub(crate) fn share(self, share: f64) -> Self {
        Self {
            low: self.low * share,
            high: self.high * share,
            ..self
        }
    }

    /// The most that can leave for any `tau` from none to the largest.
    pub(crate) fn or_less(self) -> Self {
        Self {
            low: 0.0,
            side: Side::Most,
            ..self
        }
    }

    /// What leaves a fresh tube, over `theta`.
    pub(crate) fn curve(self) -> Curve {
        let mut roots = row(self.low);
        if self.high > self.low {
            let mut take = |other: &[f64; THETAS]| {
                for (root, other) in roots.iter_mut().zip(other) {
                    *root = match self.side {
                        Side::Most => root.min(*other),
                        Side::Least => root.max(*other),
                    };
                }
            };
            take(&row(self.high));
            let above = position(self.low).map_or(0, |position| position.floor() as usize + 1);
            let below = position(self.high).map_or(0, |position| position.ceil() as usize);
            for between in ROOTS.iter().take(below.min(TAUS)).skip(above) {
                take(between);
            }
        }
        Curve::new(THETA.to_vec(), roots.to_vec())
    }
}

/// Where a `tau` stands among the rows of the table; none below the first.
fn position(tau: f64) -> Option<f64> {
    let position = (tau / LEAST_TAU).log10() * PER_DECADE;
    (position >= 0.0).then(|| position.min((TAUS - 1) as f64))
}

/// `1 / sqrt(c)` at every place of the table: cubic in the logarithm of `tau`, straight in `tau` below the table.
fn row(tau: f64) -> [f64; THETAS] {
    let Some(position) = position(tau) else {
        let share = tau / LEAST_TAU;
        return std::array::from_fn(|j| {
            let none = 2.0 * THETA[j];
            none + share * (ROOTS[0][j] - none)
        });
    };
    let first = (position.floor() as usize).min(TAUS - 2);
    let share = position - first as f64;
    let before = &ROOTS[first.saturating_sub(1)];
    let (here, next) = (&ROOTS[first], &ROOTS[first + 1]);
    let after = &ROOTS[(first + 2).min(TAUS - 1)];
    let mut least = 1.0_f64;
    std::array::from_fn(|j| {
        let (a, b, c, d) = (before[j], here[j], next[j], after[j]);
        let curved = 2.0 * a - 5.0 * b + 4.0 * c - d + share * (3.0 * (b - c) + d - a);
        let cubic = b + 0.5 * share * (c - a + share * curved);
        // Neither below one nor falling along the row.
        least = least.max(cubic);
        least
    })
}

/// How far diffusion across the bore goes while fluid passes a run.
///
/// Formula: `tau = pi D L / Q`.
///
/// Symbols: `D` diffusivity (m2/s); `L` length of the pipes of the run (m); `Q` mean flow, pauses between strokes
/// included (m3/s); `tau = D t / R^2` with `t` the mean time of stay and `R` the radius, whose bore cancels
/// (dimensionless).
///
/// Range: round bores in series. Without flow it is infinite, without length nothing.
///
/// Source: derived from `t = pi R^2 L / Q`.
///
/// ```
/// use bleedwright_hydraulics::diffusion::radial_time;
/// use uom::si::f64::{DiffusionCoefficient, Length, VolumeRate};
/// use uom::si::{diffusion_coefficient::square_meter_per_second, length::meter, ratio::ratio};
/// use uom::si::volume_rate::cubic_meter_per_second;
///
/// // 6.61 m of pipe, 3.07 ml in seven seconds.
/// let tau = radial_time(
///     DiffusionCoefficient::new::<square_meter_per_second>(0.6e-10),
///     Length::new::<meter>(6.61),
///     VolumeRate::new::<cubic_meter_per_second>(3.07e-6 / 7.0),
/// );
/// assert!((tau.get::<ratio>() - 2.84e-3).abs() < 5e-6);
/// ```
pub fn radial_time(
    diffusivity: DiffusionCoefficient,
    length: Length,
    mean_flow: VolumeRate,
) -> Ratio {
    let tau = std::f64::consts::PI * diffusivity.value * length.value / mean_flow.value;
    Ratio::new::<ratio>(if tau.is_nan() { 0.0 } else { tau.max(0.0) })
}

/// Diffusivity of old in new glycol ether fluid at 20 degrees Celsius and the viscosity that it has there, in m2/s.
///
/// ASSUMPTION: 0.6e-10 (0.2e-10 to 1.0e-10). By the equation of Stokes and Einstein a molecule of 0.34 nm gives 0.40e-10
/// where fluid sticks to it and 0.60e-10 where it slips, one of 0.6 nm 0.23e-10; by that of Wilke and Chang 0.75e-10. No
/// measurement is known.
pub const DIFFUSIVITY_20_M2_PER_S: [f64; 3] = [0.2e-10, 0.6e-10, 1.0e-10];

/// The viscosity that the diffusivities belong to, in Pa s.
const VISCOSITY_20_PA_S: f64 = 15.75e-3;

/// 20 degrees Celsius.
const TEMPERATURE_20_K: f64 = 293.15;

/// The diffusivity of old brake fluid in new at a temperature and a viscosity.
///
/// Formula: `D = D20 (T / T20) (mu20 / mu)`.
///
/// Symbols: `D` diffusivity (m2/s); `D20` that at 20 degrees Celsius (m2/s, an assumption with bounds); `T`
/// temperature (K); `mu` dynamic viscosity (Pa s), `mu20` 15.75 mPa s.
///
/// Range: an estimate for glycol ethers, taken for the other fluids too.
///
/// Source: Stokes and Einstein's equation, from memory; the figure at 20 degrees is an assumption.
///
/// ```
/// use bleedwright_hydraulics::diffusion::diffusivity;
/// use uom::si::f64::{DynamicViscosity, ThermodynamicTemperature};
/// use uom::si::diffusion_coefficient::square_meter_per_second;
/// use uom::si::dynamic_viscosity::millipascal_second;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let warm = diffusivity(
///     ThermodynamicTemperature::new::<degree_celsius>(20.0),
///     DynamicViscosity::new::<millipascal_second>(15.75),
/// );
/// assert!((warm.nominal.get::<square_meter_per_second>() - 0.6e-10).abs() < 1e-16);
/// ```
pub fn diffusivity(
    temperature: ThermodynamicTemperature,
    viscosity: DynamicViscosity,
) -> Known<DiffusionCoefficient> {
    let factor = temperature.get::<kelvin>() / TEMPERATURE_20_K * VISCOSITY_20_PA_S
        / viscosity.get::<pascal_second>();
    let [low, nominal, high] = DIFFUSIVITY_20_M2_PER_S
        .map(|at_20| DiffusionCoefficient::new::<square_meter_per_second>(at_20 * factor));
    Known {
        low,
        nominal,
        high,
        standing: Evidence::Guess,
    }
}
