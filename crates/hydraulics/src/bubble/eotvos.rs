//! Weight against surface tension.

use super::GRAVITY_M_S2;
use crate::range::{OutOfRange, positive};
use uom::si::f64::{Length, MassDensity, Ratio, SurfaceTension};
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// The value of `rho g R^2 / sigma` up to which a long bubble does not rise.
pub(super) const BRETHERTON_THRESHOLD: f64 = 0.842;

/// The Eotvos number of a bore: the weight of the liquid against its surface tension.
///
/// Formula: `Eo = rho g D^2 / sigma`.
///
/// Symbols: `Eo` Eotvos number (dimensionless); `rho` density of the liquid (kg/m3); `g` 9.80665 m/s2; `D` bore (m);
/// `sigma` surface tension (N/m).
///
/// Range: any; the density of the gas is left out.
///
/// Source: [Bretherton1961](crate#sources); gravity [ISO2533](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::eotvos::eotvos_number;
/// use uom::si::f64::{Length, MassDensity, SurfaceTension};
/// use uom::si::{length::millimeter, mass_density::kilogram_per_cubic_meter, ratio::ratio};
/// use uom::si::surface_tension::millinewton_per_meter;
///
/// let number = eotvos_number(
///     Length::new::<millimeter>(3.3),
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// );
/// assert!((number.get::<ratio>() - 3.204).abs() < 5e-4);
/// ```
pub fn eotvos_number(bore: Length, density: MassDensity, surface_tension: SurfaceTension) -> Ratio {
    Ratio::new::<ratio>(
        density.value * GRAVITY_M_S2 * bore.value * bore.value / surface_tension.value,
    )
}

/// The bore up to which a long bubble does not rise in an upright pipe that is closed at the top.
///
/// Formula: `D = 2 sqrt(0.842 sigma / (rho g))`, which is `Eo = 3.368`.
///
/// Symbols: `D` bore (m); `sigma` surface tension (N/m); `rho` density (kg/m3); `g` 9.80665 m/s2.
///
/// Range: an upright, clean, round pipe with a wetted wall. In a sloping pipe the threshold is another one, and no
/// figure for it is known here.
///
/// Source: [Bretherton1961](crate#sources); slope [Marcotte2024](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::eotvos::critical_bore;
/// use uom::si::f64::{MassDensity, SurfaceTension};
/// use uom::si::{length::millimeter, mass_density::kilogram_per_cubic_meter};
/// use uom::si::surface_tension::millinewton_per_meter;
///
/// let bore = critical_bore(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// assert!((bore.get::<millimeter>() - 3.383).abs() < 5e-4);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn critical_bore(
    density: MassDensity,
    surface_tension: SurfaceTension,
) -> Result<Length, OutOfRange> {
    let density_kg_m3 = positive("density", density.value, "kg/m3")?;
    let tension_n_m = positive("surface tension", surface_tension.value, "N/m")?;
    let radius_m = (BRETHERTON_THRESHOLD * tension_n_m / (density_kg_m3 * GRAVITY_M_S2)).sqrt();
    Ok(Length::new::<meter>(2.0 * radius_m))
}

/// A quarter of the Eotvos number: `rho g R^2 / sigma`, as the threshold is written.
pub(super) fn bond_of_radius(
    bore: Length,
    density: MassDensity,
    surface_tension: SurfaceTension,
) -> f64 {
    0.25 * eotvos_number(bore, density, surface_tension).get::<ratio>()
}
