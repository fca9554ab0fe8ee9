//! Weight against surface tension.

use super::GRAVITY_M_S2;
use uom::si::f64::{Length, MassDensity, Ratio, SurfaceTension};
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

/// A quarter of the Eotvos number: `rho g R^2 / sigma`, as the threshold is written.
pub(super) fn bond_of_radius(
    bore: Length,
    density: MassDensity,
    surface_tension: SurfaceTension,
) -> f64 {
    0.25 * eotvos_number(bore, density, surface_tension).get::<ratio>()
}
