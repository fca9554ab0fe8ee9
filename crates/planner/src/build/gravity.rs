//! What comes before the first screw is opened under the pedal: gravity where it fills, unions at high points.

use super::Builder;
use crate::drive::Flows;
use crate::heights::fills_by_gravity;
use crate::options::{Method, Options};
use crate::plan::{Step, StepHeight};
use crate::scope::circuit_of;
use bleedwright_network::{Element, Judged, ScrewId};

impl Builder<'_, '_> {
    /// Screws through which their circuits run full by gravity before the pedal
    /// is used: air in one branch is squeezed while another is bled, and takes
    /// up the strokes. With air on one run only the pedal will do, and where
    /// gravity drives nothing it cannot help: over a high point, from a
    /// reservoir that does not stand above the whole way, through a residual
    /// valve. Nor can it where the brake is full and the air stands above it:
    /// the screw drips at once and says nothing.
    pub(super) fn gravity_first(&self, screws: &[ScrewId]) -> Vec<ScrewId> {
        let network = self.network();
        if self.request.options.method != Method::Pedal {
            return Vec::new();
        }
        let has_air = |screw: &ScrewId| {
            let cell = Element::Cell(network.screw_place(*screw).cell);
            let circuit = circuit_of(network, *screw);
            self.drained.is_taken_for_empty(circuit, cell)
        };
        let mut airy: Vec<ScrewId> = screws.iter().copied().filter(has_air).collect();
        airy.sort_unstable();
        airy.dedup();
        if airy.len() < 2 {
            return Vec::new();
        }
        let by_gravity = Flows::new(
            network,
            &Options {
                method: Method::Gravity,
                ..self.request.options.clone()
            },
        );
        let possible = network.high_points(Judged::Possibly);
        airy.retain(|screw| {
            let flow = by_gravity.through(*screw);
            fills_by_gravity(self.request, self.scope, &possible, *screw, &flow)
        });
        airy
    }
}

/// The unions at which air may be let out before the first screw is opened.
pub(super) fn unions(steps: &[Step]) -> Vec<String> {
    let heights = steps.iter().flat_map(|step| &step.heights);
    let mut unions: Vec<String> = heights
        .filter_map(|height| match height {
            StepHeight::Over(high) if high.may_be_loosened => Some(high.name.clone()),
            _ => None,
        })
        .collect();
    unions.sort();
    unions
}
