//! Whether a long bubble rises by itself, with all that is not known exactly.

use super::creep::CREEP_END;
use super::eotvos::{BRETHERTON_THRESHOLD, bond_of_radius};
use crate::known::Known;
use crate::range::{OutOfRange, positive};
use uom::si::f64::{Length, MassDensity, SurfaceTension};

/// What a long bubble does in fluid at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// It stays, whatever the uncertain figures are.
    Stuck,
    /// It may stay or creep; the figures are not known well enough, or it creeps too slowly to count on.
    Borderline,
    /// It rises, whatever the uncertain figures are.
    Climbs,
}

/// How a pipe stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Slope {
    /// Upright: the case for which the threshold is known.
    Upright,
    /// Sloping or not known. A bubble that would be stuck in an upright pipe counts as borderline.
    Sloping,
}

/// Whether a long bubble rises in fluid at rest.
///
/// Formula: with `B = rho g R^2 / sigma`: stuck if the largest `B` is at most 0.842; climbs if the smallest `B` is
/// above 1.04; borderline otherwise.
///
/// Symbols: `rho` density (kg/m3); `g` 9.80665 m/s2; `R` half of the bore (m); `sigma` surface tension (N/m). The
/// largest `B` takes the high density and bore and the low surface tension, the smallest the opposite.
///
/// Range: a long bubble in clean, round, wetted pipe. Viscosity plays no part: it sets how fast, not whether. Between
/// 0.842 and 1.04 a bubble creeps less than 0.1 mm/s in brake fluid, see [`super::creep`]. In a level pipe nothing
/// climbs, so "climbs" says nothing there.
///
/// ASSUMPTION: a bubble that climbs in an upright pipe also climbs in a sloping one. In wide pipe it is even faster,
/// [Zukoski1966](crate#sources); for thin pipe no figure is known here.
///
/// Source: [Bretherton1961](crate#sources); slope [Marcotte2024](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::bubble::{Slope, Verdict, verdict};
/// use bleedwright_hydraulics::{Known, Evidence};
/// use uom::si::f64::{Length, MassDensity, SurfaceTension};
/// use uom::si::{length::millimeter, mass_density::kilogram_per_cubic_meter};
/// use uom::si::surface_tension::millinewton_per_meter;
///
/// let known = |low, nominal, high| Known { low, nominal, high, standing: Evidence::Guess };
/// let density = known(1050.0, 1050.0, 1050.0).map(MassDensity::new::<kilogram_per_cubic_meter>);
/// let tension = known(30.0, 33.0, 36.0).map(SurfaceTension::new::<millinewton_per_meter>);
/// let judge = |bore: Known<f64>| {
///     verdict(bore.map(Length::new::<millimeter>), density, tension, Slope::Upright)
/// };
/// assert_eq!(judge(known(2.4, 2.5, 2.6))?, Verdict::Stuck);
/// assert_eq!(judge(known(3.2, 3.3, 3.4))?, Verdict::Borderline);
/// assert_eq!(judge(known(4.7, 4.8, 4.9))?, Verdict::Climbs);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn verdict(
    bore: Known<Length>,
    density: Known<MassDensity>,
    surface_tension: Known<SurfaceTension>,
    slope: Slope,
) -> Result<Verdict, OutOfRange> {
    for (what, low, high, unit) in [
        ("bore", bore.low.value, bore.high.value, "m"),
        ("density", density.low.value, density.high.value, "kg/m3"),
        (
            "surface tension",
            surface_tension.low.value,
            surface_tension.high.value,
            "N/m",
        ),
    ] {
        positive(what, low, unit)?;
        positive(what, high, unit)?;
        if low > high {
            return Err(OutOfRange::NotOrdered {
                smaller: "low bound",
                larger: "high bound",
                smaller_value: low,
                larger_value: high,
                unit,
            });
        }
    }
    let largest = bond_of_radius(bore.high, density.high, surface_tension.low);
    let smallest = bond_of_radius(bore.low, density.low, surface_tension.high);
    Ok(if smallest > CREEP_END {
        Verdict::Climbs
    } else if largest <= BRETHERTON_THRESHOLD && slope == Slope::Upright {
        Verdict::Stuck
    } else {
        Verdict::Borderline
    })
}
