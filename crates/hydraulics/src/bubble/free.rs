//! Small bubbles that do not touch the wall.

use super::GRAVITY_M_S2;
use crate::fluid::Liquid;
use crate::range::{OutOfRange, between, positive, rising_root};
use uom::si::f64::{KinematicViscosity, Length, Velocity};
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The largest Reynolds number of the drag law.
const LARGEST_REYNOLDS: f64 = 800.0;

/// How fast a small bubble rises in creeping flow.
///
/// Formula: `v = g d^2 / (18 nu)`.
///
/// Symbols: `v` speed (m/s); `g` 9.80665 m/s2; `d` diameter of the bubble (m); `nu` kinematic viscosity (m2/s).
///
/// Range: Reynolds number well below 1; a bubble whose skin is dirty and moves like a solid. A clean one is faster by
/// half (Hadamard and Rybczynski). Far from walls; near them it is slower.
///
/// Source: Stokes, in [White2006](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::free::stokes_speed;
/// use uom::si::f64::{KinematicViscosity, Length};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::{length::millimeter, velocity::millimeter_per_second};
///
/// let viscosity = KinematicViscosity::new::<square_millimeter_per_second>(15.0);
/// let speed = stokes_speed(Length::new::<millimeter>(0.2), viscosity);
/// assert!((speed.get::<millimeter_per_second>() - 1.453).abs() < 5e-4);
/// ```
pub fn stokes_speed(diameter: Length, viscosity: KinematicViscosity) -> Velocity {
    Velocity::new::<meter_per_second>(
        GRAVITY_M_S2 * diameter.value * diameter.value / (18.0 * viscosity.value),
    )
}

/// How fast a small bubble rises, inertia counted.
///
/// Formula: `v (1 + 0.15 Re^0.687) = g d^2 / (18 nu)` with `Re = v d / nu`, solved for `v`.
///
/// Symbols: as for [`stokes_speed`]; `Re` Reynolds number of the bubble (dimensionless).
///
/// Range: `Re` up to 800, an error above; a round bubble with a dirty skin, far from walls. Bubbles of more than about
/// 2 mm are flattened and do not follow it.
///
/// Source: Schiller and Naumann, in [Clift1978](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::free::free_speed, fluid::Liquid};
/// use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::mass_density::kilogram_per_cubic_meter;
/// use uom::si::{length::millimeter, surface_tension::millinewton_per_meter, velocity::millimeter_per_second};
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(33.0),
/// )?;
/// let speed = free_speed(Length::new::<millimeter>(1.0), &liquid)?;
/// assert!((speed.get::<millimeter_per_second>() - 29.3).abs() < 0.05);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn free_speed(diameter: Length, liquid: &Liquid) -> Result<Velocity, OutOfRange> {
    let diameter_m = positive("diameter", diameter.get::<meter>(), "m")?;
    let viscosity = liquid.kinematic_viscosity();
    let creeping = stokes_speed(diameter, viscosity).get::<meter_per_second>();
    let reynolds = |speed: f64| speed * diameter_m / viscosity.value;
    let speed = rising_root(0.0, creeping, |speed| {
        speed * (1.0 + 0.15 * reynolds(speed).powf(0.687)) - creeping
    });
    between(
        "Reynolds number of the bubble",
        reynolds(speed),
        (0.0, LARGEST_REYNOLDS),
        "",
    )?;
    Ok(Velocity::new::<meter_per_second>(speed))
}
