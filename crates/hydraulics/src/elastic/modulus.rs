//! The stiffness of fluid, vessel and air together.

use crate::range::{OutOfRange, between, positive};
use uom::si::f64::{Pressure, Ratio};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

/// The effective bulk modulus of fluid with air in a vessel that gives way.
///
/// Formula: `1 / K_e = 1 / K_l + 1 / K_c + s / (n p)`.
///
/// Symbols: `K_e`, `K_l`, `K_c` modulus of the whole, the fluid and the vessel (Pa); `s` share of the gas in the volume
/// **at this pressure** (dimensionless); `n` polytropic index (dimensionless); `p` absolute pressure (Pa).
///
/// Range: a small share of gas, small changes about `p`. A stiff vessel is left out with `None`. It is not for the
/// travel of a pedal, where the air is given at the pressure of the atmosphere: see [`crate::gas::absorbed_share`].
///
/// Source: [Merritt1967](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::elastic::modulus::effective_modulus;
/// use uom::si::f64::{Pressure, Ratio};
/// use uom::si::{pressure::{gigapascal, megapascal}, ratio::{percent, ratio}};
///
/// let whole = effective_modulus(
///     Pressure::new::<gigapascal>(1.8),
///     None,
///     Ratio::new::<percent>(1.0),
///     Ratio::new::<ratio>(1.0),
///     Pressure::new::<megapascal>(1.0),
/// )?;
/// assert!((whole.get::<megapascal>() - 94.74).abs() < 0.005);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
pub fn effective_modulus(
    liquid: Pressure,
    vessel: Option<Pressure>,
    gas_share: Ratio,
    polytropic_index: Ratio,
    pressure: Pressure,
) -> Result<Pressure, OutOfRange> {
    let liquid_pa = positive("bulk modulus of the fluid", liquid.get::<pascal>(), "Pa")?;
    let pressure_pa = positive("absolute pressure", pressure.get::<pascal>(), "Pa")?;
    let index = positive("polytropic index", polytropic_index.get::<ratio>(), "")?;
    let share = between("share of gas", gas_share.get::<ratio>(), (0.0, 1.0), "")?;
    let mut softness = liquid_pa.recip() + share / (index * pressure_pa);
    if let Some(vessel) = vessel {
        softness += positive("modulus of the vessel", vessel.get::<pascal>(), "Pa")?.recip();
    }
    Ok(Pressure::new::<pascal>(softness.recip()))
}

/// Fluid with free air in it, the share of which is known at the pressure of the atmosphere.
///
/// Formula: `K = (v_l + v_a) / (v_l / K_l + v_a / (n p))` with `v_l = (1 - s) exp(-(p - p0) / K_l)` and
/// `v_a = s (p0 / p)^(1/n)`.
///
/// Symbols: `K`, `K_l` modulus of the mixture and of the fluid (Pa); `v_l`, `v_a` volumes of fluid and air, relative to
/// the whole at `p0` (dimensionless); `s` share of air at `p0` (dimensionless); `p` absolute pressure and `p0` that of
/// the atmosphere (Pa); `n` polytropic index (dimensionless).
///
/// Range: `0 <= s <= 1`, `n` from 1 (slow) to 1.4 (fast), `p` from `p0` up; nothing dissolves.
///
/// Source: [Gholizadeh2011](crate#sources).
///
/// ```
/// use bleedwright_hydraulics::elastic::modulus::Mixture;
/// use bleedwright_hydraulics::gas::standard_atmosphere;
/// use uom::si::f64::{Pressure, Ratio};
/// use uom::si::{pressure::{bar, gigapascal}, ratio::{percent, ratio}};
///
/// let mixture = Mixture {
///     liquid_modulus: Pressure::new::<gigapascal>(1.8),
///     air_share: Ratio::new::<percent>(1.0),
///     polytropic_index: Ratio::new::<ratio>(1.4),
/// };
/// let stiffness = mixture.modulus(standard_atmosphere(), Pressure::new::<bar>(21.0))?;
/// assert!((stiffness.get::<gigapascal>() - 1.053_697).abs() < 5e-7);
/// # Ok::<(), bleedwright_hydraulics::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixture {
    /// Bulk modulus of the fluid without air.
    pub liquid_modulus: Pressure,
    /// Share of the volume that is air at the pressure of the atmosphere.
    pub air_share: Ratio,
    /// Polytropic index of the air.
    pub polytropic_index: Ratio,
}

impl Mixture {
    /// The modulus of the mixture at an absolute pressure, at or above that of the atmosphere.
    pub fn modulus(
        &self,
        atmosphere: Pressure,
        pressure: Pressure,
    ) -> Result<Pressure, OutOfRange> {
        let liquid_pa = positive(
            "bulk modulus of the fluid",
            self.liquid_modulus.get::<pascal>(),
            "Pa",
        )?;
        let index = positive("polytropic index", self.polytropic_index.get::<ratio>(), "")?;
        let share = between(
            "share of air",
            self.air_share.get::<ratio>(),
            (0.0, 1.0),
            "",
        )?;
        let start_pa = positive(
            "pressure of the atmosphere",
            atmosphere.get::<pascal>(),
            "Pa",
        )?;
        let pressure_pa = positive("absolute pressure", pressure.get::<pascal>(), "Pa")?;
        if pressure_pa < start_pa {
            return Err(OutOfRange::NotOrdered {
                smaller: "pressure of the atmosphere",
                larger: "absolute pressure",
                smaller_value: start_pa,
                larger_value: pressure_pa,
                unit: "Pa",
            });
        }
        let fluid = (1.0 - share) * (-(pressure_pa - start_pa) / liquid_pa).exp();
        let air = share * (start_pa / pressure_pa).powf(index.recip());
        let softness = fluid / liquid_pa + air / (index * pressure_pa);
        Ok(Pressure::new::<pascal>((fluid + air) / softness))
    }
}
