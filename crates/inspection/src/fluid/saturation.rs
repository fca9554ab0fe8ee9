//! The pressure at which water boils.

use super::error::FluidError;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::megapascal;
use uom::si::thermodynamic_temperature::kelvin;

/// The ends of the saturation line in kelvin: the freezing point and the critical point.
const RANGE_K: (f64, f64) = (273.15, 647.096);

/// Coefficients of the saturation line, `n1` to `n10`.
const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// The vapour pressure of water.
///
/// Formula: `p = (2 C / (-B + sqrt(B^2 - 4 A C)))^4` with `A = s^2 + n1 s + n2`, `B = n3 s^2 + n4 s + n5`,
/// `C = n6 s^2 + n7 s + n8`, `s = T + n9 / (T - n10)`.
///
/// Symbols: `p` pressure in megapascals, `T` temperature (K), `n1` to `n10` coefficients.
///
/// Range: 273.15 to 647.096 K, an error outside.
///
/// Source: [IAPWS97](crate#sources), the equation of region 4.
///
/// ```
/// use bleedwright_inspection::fluid::water_saturation_pressure;
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::{pressure::kilopascal, thermodynamic_temperature::degree_celsius};
///
/// let pressure = water_saturation_pressure(ThermodynamicTemperature::new::<degree_celsius>(100.0))?;
/// assert!((pressure.get::<kilopascal>() - 101.42).abs() < 0.01);
/// # Ok::<(), bleedwright_inspection::fluid::FluidError>(())
/// ```
pub fn water_saturation_pressure(
    temperature: ThermodynamicTemperature,
) -> Result<Pressure, FluidError> {
    let t_k = temperature.get::<kelvin>();
    if !(RANGE_K.0..=RANGE_K.1).contains(&t_k) {
        return Err(FluidError::WaterTemperature {
            found_k: t_k,
            low_k: RANGE_K.0,
            high_k: RANGE_K.1,
        });
    }
    Ok(Pressure::new::<megapascal>(saturation_mpa(t_k)))
}

/// The same in plain numbers. The caller keeps to the range.
pub(super) fn saturation_mpa(t_k: f64) -> f64 {
    let s = t_k + N[8] / (t_k - N[9]);
    let quadratic = |first: f64, second: f64, third: f64| (first * s + second) * s + third;
    let a = quadratic(1.0, N[0], N[1]);
    let b = quadratic(N[2], N[3], N[4]);
    let c = quadratic(N[5], N[6], N[7]);
    (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)
}
