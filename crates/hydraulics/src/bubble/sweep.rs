//! Which small bubbles a downward flow takes with it.

use super::GRAVITY_M_S2;
use crate::pipe::Pipe;
use crate::range::{OutOfRange, positive};
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::pressure::pascal;

/// The largest free bubble that a flow carries down an upright pipe.
///
/// Formula: `d = D min(1, sqrt(0.5625 i))` with `i = dp / (rho g L)`.
///
/// Symbols: `d` diameter of the bubble (m); `D` bore (m); `dp` pressure lost by friction along the pipe (Pa); `rho`
/// density (kg/m3); `g` 9.80665 m/s2; `L` length (m).
///
/// Range: laminar flow, the mean velocity against the rise of [`super::free::stokes_speed`]. Both go with one over the
/// viscosity, so **viscosity drops out**: cold fluid carries the same bubbles, only later. Inertia and the wall slow a
/// bubble and the axis runs faster than the mean, so the true limit is wider. Bubbles that fill the bore: see
/// [`super::film`]. `dp` above zero.
///
/// Source: derived here: `U / v = (dp D^2 / (32 mu L)) (18 nu / (g d^2)) = (18 / 32) i (D / d)^2`, from
/// [White2006](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::sweep::largest_swept_bubble, pipe::Pipe};
/// use uom::si::f64::{Length, MassDensity, Pressure};
/// use uom::si::length::{meter, millimeter};
/// use uom::si::{mass_density::kilogram_per_cubic_meter, pressure::bar};
///
/// let pipe = Pipe::new(Length::new::<millimeter>(3.3), Length::new::<meter>(5.0))?;
/// let density = MassDensity::new::<kilogram_per_cubic_meter>(1050.0);
/// let all = largest_swept_bubble(&pipe, Pressure::new::<bar>(1.0), density)?;
/// assert_eq!(all, pipe.bore());
/// let few = largest_swept_bubble(&pipe, Pressure::new::<bar>(0.05), density)?;
/// assert!((few.get::<millimeter>() - 0.77).abs() < 0.005);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn largest_swept_bubble(
    pipe: &Pipe,
    pressure: Pressure,
    density: MassDensity,
) -> Result<Length, OutOfRange> {
    let pressure_pa = positive("pressure", pressure.get::<pascal>(), "Pa")?;
    let density_kg_m3 = positive("density", density.value, "kg/m3")?;
    let gradient = pressure_pa / (density_kg_m3 * GRAVITY_M_S2 * pipe.length().value);
    Ok(pipe.bore() * (0.5625 * gradient).sqrt().min(1.0))
}

/// Whether a flow carries a free bubble down an upright pipe.
///
/// Formula, symbols, range, source: [`largest_swept_bubble`].
///
/// ```
/// use bleedwright_hydraulics::{bubble::sweep::is_swept_down, pipe::Pipe};
/// use uom::si::f64::{Length, MassDensity, Pressure};
/// use uom::si::length::{meter, millimeter};
/// use uom::si::{mass_density::kilogram_per_cubic_meter, pressure::bar};
///
/// let pipe = Pipe::new(Length::new::<millimeter>(3.3), Length::new::<meter>(5.0))?;
/// let density = MassDensity::new::<kilogram_per_cubic_meter>(1050.0);
/// let bubble = Length::new::<millimeter>(1.0);
/// assert!(is_swept_down(bubble, &pipe, Pressure::new::<bar>(1.0), density)?);
/// assert!(!is_swept_down(bubble, &pipe, Pressure::new::<bar>(0.05), density)?);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn is_swept_down(
    bubble: Length,
    pipe: &Pipe,
    pressure: Pressure,
    density: MassDensity,
) -> Result<bool, OutOfRange> {
    positive("diameter of the bubble", bubble.value, "m")?;
    Ok(bubble < largest_swept_bubble(pipe, pressure, density)?)
}
