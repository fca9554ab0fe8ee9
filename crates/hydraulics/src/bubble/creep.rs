//! The slow rise of a long bubble just above the threshold.

use super::eotvos::{BRETHERTON_THRESHOLD, bond_of_radius};
use crate::fluid::Liquid;
use crate::range::{OutOfRange, between, positive};
use crate::root::halved;
use uom::si::f64::{Length, Velocity};
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The value of `rho g R^2 / sigma` up to which the law of the slow rise holds.
pub(super) const CREEP_END: f64 = 1.04;

/// So many leave nothing between the ends that a double could tell apart.
const HALVINGS: u32 = 200;

/// How fast a long bubble rises in an upright pipe just wider than the critical bore, in fluid at rest.
///
/// Formula: `B - 0.842 = 1.25 Ca^(2/9) + 2.24 Ca^(1/3)` with `B = rho g R^2 / sigma` and `Ca = mu U / sigma`, solved
/// for `U`.
///
/// Symbols: `U` speed (m/s); `mu` dynamic viscosity (Pa s); `sigma` surface tension (N/m); `rho` density (kg/m3);
/// `g` 9.80665 m/s2; `R` half of the bore (m).
///
/// Range: `0.842 <= B <= 1.04`, an error outside. The left side is right to 10 %; `U` follows it with a power of 3 to
/// 4.5, so it is an order of magnitude. Upright pipe.
///
/// Source: [Bretherton1961](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::creep::creep_speed, fluid::Liquid};
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
/// // B = 0.95
/// let speed = creep_speed(Length::new::<millimeter>(3.4896), &liquid)?;
/// assert!((speed.get::<millimeter_per_second>() - 0.007).abs() < 0.0005);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn creep_speed(bore: Length, liquid: &Liquid) -> Result<Velocity, OutOfRange> {
    positive("bore", bore.get::<meter>(), "m")?;
    let bond = bond_of_radius(bore, liquid.density(), liquid.surface_tension());
    between(
        "density x gravity x radius^2 / surface tension",
        bond,
        (BRETHERTON_THRESHOLD, CREEP_END),
        "",
    )?;
    let excess = bond - BRETHERTON_THRESHOLD;
    // In the ninth root of Ca both terms are powers.
    let [low, high] = halved([0.0, 1.0], HALVINGS, |x| {
        1.25 * x.powi(2) + 2.24 * x.powi(3) < excess
    });
    let ninth_root = f64::midpoint(low, high);
    let speed =
        ninth_root.powi(9) * liquid.surface_tension().value / liquid.dynamic_viscosity().value;
    Ok(Velocity::new::<meter_per_second>(speed))
}
