//! What every element holds after a step, for whoever wants to watch.

use crate::bleed::Bleed;
use crate::outcome::Outcome;
use crate::parameters::Parameters;
use crate::stroke::SimulationError;
use crate::system::elements_of;
use bleedwright_network::{Element, Network};
use bleedwright_planner::{Options, Plan, Step};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// The circuits at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// The step that has just been done; zero before the first.
    pub step: usize,
    /// What the elements of all circuits hold, circuit by circuit, each from
    /// its chamber on.
    pub held: Vec<Held>,
    /// The elements that fluid of this step passed.
    pub passed: Vec<Element>,
}

/// What one element holds, without pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// The element.
    pub element: Element,
    /// What it can hold.
    pub volume: Volume,
    /// The air in it.
    pub air: Volume,
    /// The old fluid in it; none where the system was not full of old fluid.
    pub old: Option<Volume>,
}

/// Does what a plan says, as [`simulate`](crate::simulate), with what every element holds before the first step and after
/// each.
///
/// # Errors
///
/// As [`simulate`](crate::simulate).
pub fn watch(
    network: &Network,
    options: &Options,
    plan: &Plan,
    parameters: &Parameters,
) -> Result<(Outcome, Vec<Scene>), SimulationError> {
    let mut scenes = Vec::with_capacity(plan.steps.len() + 1);
    let bleed = Bleed::new(network, options, plan, parameters);
    let outcome = bleed.run(plan, |bleed, step| scenes.push(bleed.scene(step)))?;
    Ok((outcome, scenes))
}

impl Bleed<'_, '_> {
    /// The circuits as they are now, after a step or before the first.
    fn scene(&self, step: Option<&Step>) -> Scene {
        let ml = Volume::new::<milliliter>;
        let mut held = Vec::new();
        for (circuit, _) in self.network.circuits() {
            for element in elements_of(self.network, circuit) {
                let volume = self.system.capacity_of(element);
                if volume > 0.0 {
                    held.push(Held {
                        element,
                        volume: ml(volume),
                        air: ml(self.system.air_in(element)),
                        old: self.old.as_ref().map(|old| ml(old.in_element_ml(element))),
                    });
                }
            }
        }
        let mut passed = Vec::new();
        for screw in step.into_iter().flat_map(|step| &step.screws) {
            let circuit = self.network.screw_place(screw.id).circuit;
            let chamber =
                circuit.map(|circuit| Element::Cell(self.network.circuit(circuit).chamber));
            for element in chamber.into_iter().chain(self.network.run(screw.id)) {
                if !passed.contains(&element) {
                    passed.push(element);
                }
            }
        }
        Scene {
            step: step.map_or(0, |step| step.number),
            held,
            passed,
        }
    }
}
