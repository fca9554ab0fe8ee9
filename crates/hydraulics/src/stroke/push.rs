//! What the pistons push in during one step.

use super::motion::Stretch;
use super::network::Piston;
use super::tableau::{NODES, QUADRATURE, STAGES, TIME_SLOPES};

/// What a piston pushes in at the stages of a step.
///
/// A constant makes up for the error of the method's quadrature, so that the volumes of a step add up exactly; it is as
/// small as the error of the step itself.
pub(super) struct Push {
    pub(super) node: usize,
    flows_m3_per_s: [f64; STAGES],
    change_m3_per_s2: f64,
    /// Where the piston is after the step.
    pub(super) travel_m: f64,
    /// What the method's quadrature missed.
    pub(super) correction_m3: f64,
}

impl Push {
    /// For a step from a time and a travel on.
    pub(super) fn new(
        piston: &Piston,
        travel_before_m: f64,
        begin_s: f64,
        step_s: f64,
        stretch: Stretch,
    ) -> Self {
        let point = |share: f64| {
            piston
                .motion
                .point_within(begin_s + share * step_s, stretch)
        };
        let (first, last) = (point(0.0), point(1.0));
        let change_m3_per_s2 = piston.area_m2 * first.acceleration_m_per_s2;
        // The first stage is at the start, the last two are at the end.
        let mut flows_m3_per_s = [piston.area_m2 * last.speed_m_per_s; STAGES];
        flows_m3_per_s[0] = piston.area_m2 * first.speed_m_per_s;
        for stage in 1..STAGES - 2 {
            flows_m3_per_s[stage] = piston.area_m2 * point(NODES[stage]).speed_m_per_s;
        }
        let mean_m3_per_s: f64 = (0..STAGES)
            .map(|stage| {
                let turned = TIME_SLOPES[stage] * step_s * change_m3_per_s2;
                QUADRATURE[stage] * (flows_m3_per_s[stage] + turned)
            })
            .sum();
        let pushed_m3 = piston.area_m2 * (last.travel_m - travel_before_m);
        let correction_m3 = pushed_m3 - mean_m3_per_s * step_s;
        for flow in &mut flows_m3_per_s {
            *flow += correction_m3 / step_s;
        }
        Self {
            node: piston.node,
            flows_m3_per_s,
            change_m3_per_s2,
            travel_m: last.travel_m,
            correction_m3,
        }
    }

    /// What a stage's right side gets, with its part of the change in time.
    pub(super) fn drive_m3_per_s(&self, stage: usize, step_s: f64) -> f64 {
        self.flows_m3_per_s[stage] + TIME_SLOPES[stage] * step_s * self.change_m3_per_s2
    }

    /// What comes in during a step at the flow of its end.
    pub(super) fn size_m3(&self, step_s: f64) -> f64 {
        step_s * self.flows_m3_per_s[STAGES - 1].abs()
    }
}
