//! Resistance to laminar flow.

use std::iter::Sum;
use std::ops::Add;
use uom::si::f64::{Pressure, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// Pressure for each unit of flow. There is no named unit for it, hence a type of its own.
///
/// Formula: `dp = R Q`; resistances in series add.
///
/// Symbols: `dp` pressure difference (Pa); `R` resistance (Pa s/m3); `Q` flow (m3/s).
///
/// Range: laminar flow.
///
/// Source: see [`crate::pipe::Pipe::resistance`].
///
/// ```
/// use bleedwright_hydraulics::HydraulicResistance;
/// use uom::si::{f64::Pressure, pressure::bar, volume_rate::milliliter_per_second};
///
/// let both = HydraulicResistance::new(1.5e10) + HydraulicResistance::new(0.5e10);
/// let flow = both.flow(Pressure::new::<bar>(1.0));
/// assert!((flow.get::<milliliter_per_second>() - 5.0).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct HydraulicResistance {
    pascal_seconds_per_cubic_metre: f64,
}

impl HydraulicResistance {
    /// A resistance in Pa s/m3.
    pub const fn new(pascal_seconds_per_cubic_metre: f64) -> Self {
        Self {
            pascal_seconds_per_cubic_metre,
        }
    }

    /// The resistance in Pa s/m3.
    pub const fn pascal_seconds_per_cubic_metre(self) -> f64 {
        self.pascal_seconds_per_cubic_metre
    }

    /// The flow that a pressure difference drives, in the direction of the fall. A resistance of nothing lets
    /// anything through: the flow is then infinite, or nothing without a difference.
    pub fn flow(self, pressure: Pressure) -> VolumeRate {
        let pressure_pa = pressure.get::<pascal>();
        let flow_m3_s = if pressure_pa == 0.0 {
            0.0
        } else {
            pressure_pa / self.pascal_seconds_per_cubic_metre
        };
        VolumeRate::new::<cubic_meter_per_second>(flow_m3_s)
    }

    /// The pressure difference that a flow needs.
    pub fn pressure(self, flow: VolumeRate) -> Pressure {
        Pressure::new::<pascal>(
            self.pascal_seconds_per_cubic_metre * flow.get::<cubic_meter_per_second>(),
        )
    }
}

impl Add for HydraulicResistance {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.pascal_seconds_per_cubic_metre + other.pascal_seconds_per_cubic_metre)
    }
}

impl Sum for HydraulicResistance {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::default(), Add::add)
    }
}
