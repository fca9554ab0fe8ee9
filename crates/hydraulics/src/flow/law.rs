//! How much pressure a branch takes for the flow it passes.

/// The pressure that a branch takes for the flow through it: a pipe, a hose, a screw, or several in series.
///
/// Formula: `dp = a Q + b Q |Q|`.
///
/// Symbols: `dp` fall of `p + rho g z` along the branch (Pa); `Q` flow (m3/s); `a` linear coefficient, for
/// laminar flow in a pipe `128 mu L / (pi D^4)` (Pa s/m3); `b` quadratic coefficient, for a loss of `K` velocity
/// heads `K rho / (2 A^2)` (Pa s2/m6).
///
/// Range: both coefficients zero or more and finite, or [`BranchLaw::closed`]. With both at zero the branch is a
/// direct joint. The law does not know where laminar flow ends; whoever chose the coefficients must look at the
/// flow that comes out.
///
/// Source: the linear part [White2011](crate#sources), the quadratic part is the definition of a loss coefficient
/// in the same place.
///
/// ```
/// use bleedwright_hydraulics::BranchLaw;
/// use std::f64::consts::PI;
///
/// // 5 m of 3.33 mm pipe, 15 mm2/s, 1050 kg/m3.
/// let pipe = BranchLaw::linear(128.0 * 15e-6 * 1050.0 * 5.0 / (PI * 3.33e-3_f64.powi(4)));
/// assert!((pipe.linear_pa_s_per_m3 / 2.609_358e10 - 1.0).abs() < 1e-6);
/// assert!(BranchLaw::closed().is_closed());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BranchLaw {
    /// The coefficient of the flow, in Pa s/m3.
    pub linear_pa_s_per_m3: f64,
    /// The coefficient of the flow times its amount, in Pa s2/m6.
    pub quadratic_pa_s2_per_m6: f64,
}

impl BranchLaw {
    /// A branch whose pressure is proportional to its flow.
    pub fn linear(linear_pa_s_per_m3: f64) -> Self {
        Self {
            linear_pa_s_per_m3,
            quadratic_pa_s2_per_m6: 0.0,
        }
    }

    /// A joint that takes no pressure at all.
    pub fn direct() -> Self {
        Self::linear(0.0)
    }

    /// A shut screw or valve: it passes exactly nothing.
    ///
    /// Both coefficients are infinite. One alone that is infinite came out of a computation gone wrong, and is
    /// refused.
    pub fn closed() -> Self {
        Self {
            linear_pa_s_per_m3: f64::INFINITY,
            quadratic_pa_s2_per_m6: f64::INFINITY,
        }
    }

    /// Whether this is [`BranchLaw::closed`].
    pub fn is_closed(&self) -> bool {
        self.linear_pa_s_per_m3 == f64::INFINITY && self.quadratic_pa_s2_per_m6 == f64::INFINITY
    }

    pub(super) fn is_direct(&self) -> bool {
        self.linear_pa_s_per_m3 == 0.0 && self.quadratic_pa_s2_per_m6 == 0.0
    }

    /// Whether both coefficients are numbers that a branch can have.
    pub(super) fn is_sound(&self) -> bool {
        let is_resistance = |value: f64| value.is_finite() && value >= 0.0;
        self.is_closed()
            || (is_resistance(self.linear_pa_s_per_m3)
                && is_resistance(self.quadratic_pa_s2_per_m6))
    }

    /// The same law in coefficients without units.
    pub(super) fn scaled(&self, flow_scale: f64, pressure_scale: f64) -> Law {
        let conductance_scale = flow_scale / pressure_scale;
        Law {
            linear: self.linear_pa_s_per_m3 * conductance_scale,
            quadratic: self.quadratic_pa_s2_per_m6 * conductance_scale * flow_scale,
        }
    }
}

/// A branch law in units in which the pressures of the ends differ by one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Law {
    pub(super) linear: f64,
    pub(super) quadratic: f64,
}

impl Law {
    pub(super) fn drop(&self, flow: f64) -> f64 {
        (self.linear + self.quadratic * flow.abs()) * flow
    }

    /// How fast the pressure grows with the flow.
    pub(super) fn slope(&self, flow: f64) -> f64 {
        self.linear + 2.0 * self.quadratic * flow.abs()
    }

    /// The flow under a pressure of one, written so that it loses no digits where one coefficient rules.
    pub(super) fn flow_under_one(&self) -> f64 {
        2.0 / (self.linear + self.linear.hypot(2.0 * self.quadratic.sqrt()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_flow_under_one_takes_a_pressure_of_one() {
        for (linear, quadratic) in [
            (2.0, 0.0),
            (0.0, 9.0),
            (1.0, 1.0),
            (1e-9, 4.0),
            (5.0, 1e-12),
        ] {
            let law = Law { linear, quadratic };
            let drop = law.drop(law.flow_under_one());
            assert!((drop - 1.0).abs() < 1e-14, "{linear} {quadratic}: {drop}");
        }
    }

    #[test]
    fn one_infinite_coefficient_is_not_closed() {
        let half = BranchLaw::linear(f64::INFINITY);
        assert!(!half.is_closed() && !half.is_sound());
        assert!(BranchLaw::closed().is_sound());
        assert!(!BranchLaw::linear(-1.0).is_sound());
        assert!(!BranchLaw::linear(f64::NAN).is_sound());
    }
}
