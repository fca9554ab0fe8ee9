//! What holds a long bubble to a wall that is not clean.

use crate::range::{OutOfRange, between, positive};
use uom::si::angle::radian;
use uom::si::f64::{Angle, Length, Pressure, SurfaceTension};
use uom::si::length::meter;
use uom::si::pressure::pascal;

/// The pressure difference that a pinned bubble withstands before it moves.
///
/// Formula: `dp = (2 sigma / R) (cos r - cos a)`.
///
/// Symbols: `dp` pressure difference (Pa); `sigma` surface tension (N/m); `R` half of the bore (m); `r` receding and
/// `a` advancing contact angle (rad).
///
/// Range: `0 <= r <= a <= 180 degrees`, an error outside; a bubble with dry ends. A wall with a film of fluid (both
/// angles zero) pins nothing. The angles of brake fluid on pipe are not known here; in 3.3 mm pipe the largest
/// possible value is about 80 Pa for each bubble, so ten bubbles matter when bleeding by gravity (3 kPa) and none does
/// under the pedal.
///
/// Source: Young and Laplace, from memory in [Gennes2004](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::pinning::pinning_pressure;
/// use uom::si::angle::degree;
/// use uom::si::f64::{Angle, Length, SurfaceTension};
/// use uom::si::{length::millimeter, pressure::pascal, surface_tension::millinewton_per_meter};
///
/// let held = pinning_pressure(
///     SurfaceTension::new::<millinewton_per_meter>(33.0),
///     Length::new::<millimeter>(3.3),
///     Angle::new::<degree>(0.0),
///     Angle::new::<degree>(180.0),
/// )?;
/// assert!((held.get::<pascal>() - 80.0).abs() < 1e-9);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn pinning_pressure(
    surface_tension: SurfaceTension,
    bore: Length,
    receding: Angle,
    advancing: Angle,
) -> Result<Pressure, OutOfRange> {
    let tension_n_m = positive("surface tension", surface_tension.value, "N/m")?;
    let bore_m = positive("bore", bore.get::<meter>(), "m")?;
    let (receding, advancing) = (receding.get::<radian>(), advancing.get::<radian>());
    let half_turn = std::f64::consts::PI;
    between(
        "advancing contact angle",
        advancing,
        (0.0, half_turn),
        "rad",
    )?;
    between("receding contact angle", receding, (0.0, half_turn), "rad")?;
    if receding > advancing {
        return Err(OutOfRange::NotOrdered {
            smaller: "receding contact angle",
            larger: "advancing contact angle",
            smaller_value: receding,
            larger_value: advancing,
            unit: "rad",
        });
    }
    Ok(Pressure::new::<pascal>(
        4.0 * tension_n_m / bore_m * (receding.cos() - advancing.cos()),
    ))
}
