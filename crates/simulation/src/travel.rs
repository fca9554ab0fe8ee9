//! What air that is left takes of the pedal's travel.

use crate::bleed::Bleed;
use bleedwright_hydraulics::gas::absorbed_share;
use bleedwright_network::CircuitId;
use std::collections::BTreeSet;
use uom::si::f64::{Length, Pressure, Ratio, Volume};
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

/// The pressure at which the travel that air takes is stated: nearly all of it is spent by then.
const FIRM_BAR: f64 = 20.0;

impl Bleed<'_, '_> {
    /// The longest travel that squeezing the air of one of the circuits takes.
    pub(crate) fn longest_travel(&self, circuits: &BTreeSet<CircuitId>) -> Length {
        let travels = circuits.iter().map(|circuit| {
            let lever: Ratio = self
                .network
                .cylinder_of(*circuit)
                .pedal_ratio
                .bounds
                .nominal;
            self.air_stroke(*circuit) * lever
        });
        travels.fold(Length::default(), Length::max)
    }

    /// Whether a piston meets its end before the air of its circuit is squeezed.
    pub(crate) fn is_to_the_end(&self, circuit: CircuitId) -> bool {
        let chamber = self.network.chamber_of(circuit);
        let left = chamber.stroke.nominal - chamber.cut_off.bounds.nominal;
        self.air_stroke(circuit) >= left
    }

    /// The stroke of the piston that squeezes the air of a circuit.
    fn air_stroke(&self, circuit: CircuitId) -> Length {
        let pressure = Pressure::new::<bar>(FIRM_BAR);
        let share = absorbed_share(
            self.parameters.atmosphere,
            pressure,
            self.parameters.polytropic_index,
        );
        let air = Volume::new::<milliliter>(self.system.air_of_circuit(circuit));
        air * share / self.network.chamber_of(circuit).area().nominal
    }
}
