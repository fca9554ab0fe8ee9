//! What a branch asks for its flow.

use crate::range::{OutOfRange, positive, zero_or_more};
use crate::resistance::HydraulicResistance;
use uom::si::f64::{Pressure, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// The pressure that a branch takes for a flow.
///
/// Formula: `dp = a Q + b Q |Q|`, so `Q = 2 dp / (a + sqrt(a^2 + 4 b |dp|))`.
///
/// Symbols: `dp` pressure difference (Pa); `Q` flow (m3/s); `a` linear coefficient, for laminar pipe
/// `128 mu L / (pi D^4)` (Pa s/m3); `b` quadratic coefficient, for a short drilling the loss of its entry and its jet
/// (Pa s2/m6).
///
/// Range: quasi-steady flow; `a > 0`, `b >= 0`.
///
/// Source: [White2011](crate#sources); the root [Bronshtein2007](crate#sources), in the form that loses no digits at small
/// pressures.
///
/// ```
/// use bleedwright_hydraulics::stroke::BranchLaw;
///
/// let screw = BranchLaw { linear_pa_s_per_m3: 1e9, quadratic_pa_s2_per_m6: 4e14 };
/// // 2e-6 m3/s take 2000 Pa by the linear and 1600 Pa by the quadratic part.
/// assert!((screw.flow_m3_per_s(3600.0) - 2e-6).abs() < 1e-18);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BranchLaw {
    /// `a`, in Pa s/m3.
    pub linear_pa_s_per_m3: f64,
    /// `b`, in Pa s2/m6.
    pub quadratic_pa_s2_per_m6: f64,
}

impl BranchLaw {
    /// The pressure difference that a flow needs; it has the sign of the flow.
    pub fn pressure(&self, flow: VolumeRate) -> Pressure {
        let flow_m3_s = flow.get::<cubic_meter_per_second>();
        HydraulicResistance::new(self.linear_pa_s_per_m3).pressure(flow)
            + Pressure::new::<pascal>(self.quadratic_pa_s2_per_m6 * flow_m3_s * flow_m3_s.abs())
    }

    /// The flow that a pressure difference drives through this and a resistance before it.
    pub fn flow_behind(&self, pipework: HydraulicResistance, pressure: Pressure) -> VolumeRate {
        let both = Self {
            linear_pa_s_per_m3: self.linear_pa_s_per_m3 + pipework.pascal_seconds_per_cubic_metre(),
            ..*self
        };
        VolumeRate::new::<cubic_meter_per_second>(both.flow_m3_per_s(pressure.get::<pascal>()))
    }

    /// The steady flow under a pressure difference, with its sign.
    pub fn flow_m3_per_s(&self, difference_pa: f64) -> f64 {
        2.0 * difference_pa / (self.linear_pa_s_per_m3 + self.slope_pa_s_per_m3(difference_pa))
    }

    /// The change of the pressure difference with the flow where the flow is steady: `sqrt(a^2 + 4 b |dp|)`.
    pub(super) fn slope_pa_s_per_m3(&self, difference_pa: f64) -> f64 {
        if self.quadratic_pa_s2_per_m6 > 0.0 {
            let squared = self.linear_pa_s_per_m3 * self.linear_pa_s_per_m3
                + 4.0 * self.quadratic_pa_s2_per_m6 * difference_pa.abs();
            squared.sqrt()
        } else {
            self.linear_pa_s_per_m3
        }
    }

    /// The law, if a branch can have it.
    pub(super) fn checked(self) -> Result<Self, OutOfRange> {
        positive("linear resistance", self.linear_pa_s_per_m3, "Pa s/m3")?;
        zero_or_more(
            "quadratic resistance",
            self.quadratic_pa_s2_per_m6,
            "Pa s2/m6",
        )?;
        Ok(self)
    }
}
