//! The table behind the grades: what each figure is at its reference temperature, and how well it stands.

use super::grade::Grade;
use crate::known::{Evidence, Known};

/// The figures of one grade. Density, surface tension and bulk modulus hold at 20 degC.
pub(super) struct Figures {
    pub(super) density_kg_m3: Known<f64>,
    /// Change of density; negative.
    pub(super) density_slope_kg_m3_k: Known<f64>,
    /// Kinematic viscosity at -40 degC.
    pub(super) cold_mm2_s: Known<f64>,
    /// Kinematic viscosity at 100 degC.
    pub(super) hot_mm2_s: Known<f64>,
    pub(super) surface_tension_n_m: Known<f64>,
    /// Change of surface tension; negative.
    pub(super) surface_tension_slope_n_m_k: Known<f64>,
    pub(super) bulk_modulus_pa: Known<f64>,
    /// Relative fall of the bulk modulus for one kelvin; positive.
    pub(super) bulk_modulus_fall_per_k: Known<f64>,
}

const fn known(low: f64, nominal: f64, high: f64, standing: Evidence) -> Known<f64> {
    Known {
        low,
        nominal,
        high,
        standing,
    }
}

const fn guess(low: f64, nominal: f64, high: f64) -> Known<f64> {
    known(low, nominal, high, Evidence::Guess)
}

/// Viscosity bounds. A law limits the cold end from above and the hot end from below, and says nothing about the
/// other two. The limits of the grade are taken where they exist: [FMVSS116] 1500, 1800, 900 mm2/s at -40 degC and
/// 1.5 mm2/s at 100 degC, [ISO4925] class 6 750 mm2/s at -40 degC.
///
/// ASSUMPTION: the other two bounds are the nominal value divided and multiplied by 1.5. Mineral oil has wider bounds
/// of its own.
impl Figures {
    pub(super) fn of(grade: Grade) -> Self {
        match grade {
            // ASSUMPTION: nothing of a DOT 3 fluid was read; the nominal points are those of DOT 4, which
            // its limits admit, and the density is from memory.
            Grade::Dot3 => Self::glycol(
                guess(1000.0, 1040.0, 1080.0),
                guess(800.0, 1200.0, 1500.0),
                guess(1.5, 2.5, 3.75),
            ),
            // Typical of DOT 4, points and range of density (from memory, no source); the nominal density is the
            // middle of that range.
            Grade::Dot4 => Self::glycol(
                known(1050.0, 1075.0, 1100.0, Evidence::Typical),
                known(800.0, 1200.0, 1800.0, Evidence::Typical),
                known(1.5, 2.5, 3.75, Evidence::Typical),
            ),
            // ASSUMPTION: a fluid a little better than the limit in the cold; density as for DOT 4.
            Grade::Dot4LowViscosity => Self::glycol(
                guess(1050.0, 1075.0, 1100.0),
                guess(467.0, 700.0, 750.0),
                guess(1.5, 2.0, 3.0),
            ),
            // ASSUMPTION: the same nominal points, under the wider limit of this grade.
            Grade::Dot5_1 => Self::glycol(
                guess(1030.0, 1060.0, 1100.0),
                guess(467.0, 700.0, 900.0),
                guess(1.5, 2.0, 3.0),
            ),
            // ASSUMPTION: every figure of silicone fluid is from memory; only the cold limit is the law's.
            Grade::Dot5 => Self {
                density_kg_m3: guess(930.0, 960.0, 990.0),
                density_slope_kg_m3_k: guess(-1.1, -0.9, -0.7),
                cold_mm2_s: guess(400.0, 600.0, 900.0),
                hot_mm2_s: guess(10.0, 15.0, 22.5),
                surface_tension_n_m: guess(0.020, 0.021, 0.022),
                surface_tension_slope_n_m_k: guess(-9e-5, -7e-5, -5e-5),
                bulk_modulus_pa: guess(0.9e9, 1.0e9, 1.4e9),
                bulk_modulus_fall_per_k: guess(0.004, 0.007, 0.009),
            },
            // ASSUMPTION: hydraulic mineral oils differ widely; every figure is from memory and its bounds are wide.
            Grade::Mineral => Self {
                density_kg_m3: guess(820.0, 870.0, 900.0),
                density_slope_kg_m3_k: guess(-0.8, -0.65, -0.5),
                cold_mm2_s: guess(400.0, 1000.0, 2000.0),
                hot_mm2_s: guess(4.0, 6.0, 9.0),
                surface_tension_n_m: guess(0.026, 0.030, 0.034),
                surface_tension_slope_n_m_k: guess(-1.1e-4, -8e-5, -6e-5),
                bulk_modulus_pa: guess(1.2e9, 1.5e9, 1.8e9),
                bulk_modulus_fall_per_k: guess(0.004, 0.007, 0.009),
            },
        }
    }

    /// What the glycol grades share.
    ///
    /// ASSUMPTION: 33 mN/m, give or take 3. No figure of a brake fluid was found; its chemical neighbours lie at 32.2
    /// to 32.7 (triethylene glycol dimethyl ether, diethylene glycol monomethyl ether, 20 degC). Slopes, bulk modulus
    /// and its fall with temperature are from memory.
    fn glycol(density: Known<f64>, cold: Known<f64>, hot: Known<f64>) -> Self {
        Self {
            density_kg_m3: density,
            density_slope_kg_m3_k: guess(-1.1, -0.9, -0.7),
            cold_mm2_s: cold,
            hot_mm2_s: hot,
            surface_tension_n_m: guess(0.030, 0.033, 0.036),
            surface_tension_slope_n_m_k: guess(-1.2e-4, -9e-5, -6e-5),
            bulk_modulus_pa: guess(1.7e9, 1.8e9, 2.0e9),
            bulk_modulus_fall_per_k: guess(0.004, 0.007, 0.009),
        }
    }
}
