//! The rise of a long bubble in fluid at rest, from stuck to wide bores.

use super::GRAVITY_M_S2;
use super::creep::{CREEP_END, creep_speed};
use super::eotvos::{BRETHERTON_THRESHOLD, bond_of_radius, eotvos_number};
use crate::fluid::Liquid;
use crate::range::{OutOfRange, positive};
use uom::si::f64::{Length, Velocity};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// How a long bubble rises, and which law says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rise {
    /// It does not rise: the bore is at or below the critical one.
    Stuck,
    /// It creeps; an order of magnitude, by [`creep_speed`].
    Creeps(Velocity),
    /// It drifts at a speed fitted to measurements in wider bores.
    Drifts(Velocity),
}

/// How fast a long bubble rises in an upright pipe with fluid at rest.
///
/// Formula: with `B = rho g R^2 / sigma`: nothing up to 0.842, [`creep_speed`] up to 1.04, and above it
/// `Fr = A / (1 + (Rg / P)^C)^G`, `U = Fr sqrt(g D)`, `Rg = sqrt(D^3 g) / nu`, where `A`, `P`, `C` have the form
/// `a / (1 + (Eo / b)^c)^d` with `a, b, c, d` = 0.34, 14.793, -3.06, 0.58 for `A`; 31.08, 29.868, -1.96, -0.49 for
/// `P`; -1.45, 24.867, -9.93, -0.094 for `C`; and `G = -1.0295 / C`.
///
/// Symbols: `U` speed (m/s); `g` 9.80665 m/s2; `D` bore (m), `R` half of it; `rho` density (kg/m3); `nu` kinematic
/// viscosity (m2/s); `sigma` surface tension (N/m); `Eo = rho g D^2 / sigma`; `Fr`, `Rg`, `A`, `P`, `C`, `G`
/// dimensionless.
///
/// Range: upright round pipe. The fit has no zero: it would let a bubble in 3.3 mm pipe rise at half a millimetre a
/// second, hence the cut-off first. Where the laws meet the speed jumps from a tenth of a millimetre to some
/// millimetres a second; between them, up to about twice the critical bore, expect no more than the right order.
///
/// Source: [Viana2003](crate#sources); cut-off and slow rise [Bretherton1961](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::{bubble::drift::{Rise, rise}, fluid::Liquid};
/// use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension};
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::mass_density::kilogram_per_cubic_meter;
/// use uom::si::{length::millimeter, surface_tension::millinewton_per_meter, velocity::millimeter_per_second};
///
/// let liquid = Liquid::new(
///     MassDensity::new::<kilogram_per_cubic_meter>(1050.0),
///     KinematicViscosity::new::<square_millimeter_per_second>(15.0),
///     SurfaceTension::new::<millinewton_per_meter>(35.0),
/// )?;
/// assert_eq!(rise(Length::new::<millimeter>(3.3), &liquid)?, Rise::Stuck);
/// let drift_mm_s = match rise(Length::new::<millimeter>(20.6), &liquid)? {
///     Rise::Drifts(speed) => speed.get::<millimeter_per_second>(),
///     Rise::Stuck | Rise::Creeps(_) => 0.0,
/// };
/// assert!((drift_mm_s - 151.0).abs() < 0.5);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn rise(bore: Length, liquid: &Liquid) -> Result<Rise, OutOfRange> {
    let bore_m = positive("bore", bore.get::<meter>(), "m")?;
    let bond = bond_of_radius(bore, liquid.density(), liquid.surface_tension());
    if bond <= BRETHERTON_THRESHOLD {
        return Ok(Rise::Stuck);
    }
    if bond <= CREEP_END {
        return Ok(Rise::Creeps(creep_speed(bore, liquid)?));
    }
    let eotvos = eotvos_number(bore, liquid.density(), liquid.surface_tension()).get::<ratio>();
    let buoyancy = (bore_m.powi(3) * GRAVITY_M_S2).sqrt() / liquid.kinematic_viscosity().value;
    let speed = froude_number(eotvos, buoyancy) * (GRAVITY_M_S2 * bore_m).sqrt();
    Ok(Rise::Drifts(Velocity::new::<meter_per_second>(speed)))
}

fn froude_number(eotvos: f64, buoyancy: f64) -> f64 {
    let level = |[a, b, c, d]: [f64; 4]| a / (1.0 + (eotvos / b).powf(c)).powf(d);
    let plateau = level([0.34, 14.793, -3.06, 0.58]);
    let place = level([31.08, 29.868, -1.96, -0.49]);
    let steepness = level([-1.45, 24.867, -9.93, -0.094]);
    plateau / (1.0 + (buoyancy / place).powf(steepness)).powf(-1.0295 / steepness)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The source's own limit for thin liquids, `0.34 / (1 + 3805 / Eo^3.06)^0.58` for `Rg` above 200, against the
    /// universal form at a very large `Rg` [Viana2003].
    #[test]
    fn thin_liquids_follow_the_simple_form() {
        for eotvos in [6.0_f64, 10.0, 30.0, 100.0, 1000.0] {
            let simple = 0.34 / (1.0 + 3805.0 / eotvos.powf(3.06)).powf(0.58);
            let found = froude_number(eotvos, 1e9);
            // 3805 is printed with four digits, 14.793^3.06 is 3804.9.
            assert!(
                (found / simple - 1.0).abs() < 1e-4,
                "{eotvos}: {found} {simple}"
            );
        }
    }

    /// The source's limit for thick liquids (`Rg` below 10), which its universal form meets to 4 %.
    #[test]
    fn thick_liquids_follow_the_simple_form() {
        for eotvos in [20.0_f64, 50.0, 200.0, 1000.0] {
            let buoyancy = 3.0_f64;
            let simple =
                9.494e-3 * buoyancy.powf(1.026) / (1.0 + 6197.0 / eotvos.powf(2.561)).powf(0.5793);
            let found = froude_number(eotvos, buoyancy);
            assert!(
                (found / simple - 1.0).abs() < 0.05,
                "{eotvos}: {found} {simple}"
            );
        }
    }
}
