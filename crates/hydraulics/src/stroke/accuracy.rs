//! The error of one step against its tolerance.

use super::push::Push;
use super::step::{Stepper, Tolerance};
use super::tableau::STAGES;

impl Stepper<'_> {
    /// The largest error of the step that was tried, against its tolerance.
    pub(super) fn largest_error(&self, step_s: f64, pushes: &[Push]) -> f64 {
        let mut largest = Largest::default();
        self.note_node_errors(&mut largest);
        let Tolerance {
            relative,
            volume_m3,
            ..
        } = self.tolerance;
        for (error_m3, delivered_m3) in self.errors_m3.iter().zip(&self.next.delivered_m3) {
            largest.note(*error_m3, volume_m3 + relative * delivered_m3.abs());
        }
        for push in pushes {
            // What the quadrature missed must be small before it can be made up for.
            let pushed_m3 = push.size_m3(step_s);
            largest.note(push.correction_m3, volume_m3 + relative * pushed_m3);
        }
        largest.value
    }

    fn note_node_errors(&self, largest: &mut Largest) {
        let Tolerance {
            relative,
            pressure_pa,
            volume_m3,
        } = self.tolerance;
        let atmosphere_pa = self.network.atmosphere_pa;
        for (node, store) in self.network.stores.iter().enumerate() {
            let (before, after) = (self.now.levels[node], self.next.levels[node]);
            let capacity_before = self.capacities_m3_per_pa[node];
            let capacity = store
                .capacity_m3_per_pa(after, atmosphere_pa)
                .min(capacity_before);
            let error_pa = self.stored_stages[STAGES - 1][node] / capacity;
            let size_pa = before.gauge_pa.abs().max(after.gauge_pa.abs());
            largest.note(error_pa, pressure_pa + relative * size_pa);
            if store.pocket.is_some() {
                let gas = store.gas_capacity_m3_per_pa(before, atmosphere_pa);
                let error_m3 = self.stored_stages[STAGES - 1][node] * gas / capacity_before;
                largest.note(error_m3, volume_m3 + relative * after.gas_m3);
            }
        }
    }
}

/// The largest of several errors; one that is no number stays.
#[derive(Default)]
struct Largest {
    value: f64,
}

impl Largest {
    fn note(&mut self, error: f64, allowed: f64) {
        let times = error.abs() / allowed;
        if times > self.value || times.is_nan() {
            self.value = times;
        }
    }
}
