//! What heights mean for the work around the steps.

use super::Sheet;
use crate::drive::stated_height;
use crate::plan::{Before, Made};
use bleedwright_network::{BelowBrake, Network, Owner, ScrewId};
use uom::si::f64::Length;

/// Whether a screw stands higher than the fluid that feeds it, so that it draws air when it is left open.
fn may_draw_air(network: &Network, screw: ScrewId) -> bool {
    let below = network.below_brake(network.screw_place(screw).cell);
    below.is_some_and(|BelowBrake { may_draw_air, .. }| may_draw_air)
}

/// Air may be let out at a union that is the highest point of its way before the first screw is opened.
pub(super) fn unions(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    if !sheet.unions.is_empty() {
        list.push(Before::Made(Made::UnionsLoosened(sheet.unions.clone())));
    }
}

impl Sheet<'_, '_> {
    /// Whether a screw to be opened draws air when it is left open.
    pub(super) fn has_screw_above_its_fluid(&self) -> bool {
        let mut screws = self.order.iter();
        screws.any(|screw| may_draw_air(self.network(), *screw))
    }
}

/// What would have to be known to tell whether a screw stands higher than the fluid that feeds it; nothing where that is
/// known.
pub(super) fn missing_heights(network: &Network, screw: ScrewId) -> Vec<String> {
    let place = network.screw_place(screw);
    let layout = network.layout();
    if network.cavity(place.cell).is_none()
        || stated_height(network, screw).is_some()
        || network.below_brake(place.cell).is_some()
    {
        return Vec::new();
    }
    let mut missing = Vec::new();
    let compartment = place.circuit.and_then(|id| network.circuit(id).compartment);
    if let Some((reservoir, _)) = compartment {
        let reservoir = &layout.reservoirs[reservoir];
        missing.extend(reservoir.height.is_none().then(|| reservoir.id.clone()));
    }
    let owner = network.cell(place.cell).owner;
    let height: Option<Length> = network.height_of(owner).map(|height| height.nominal);
    if let (None, Owner::Part(part, _)) = (height, owner) {
        missing.push(layout.parts[part].id.clone());
    }
    missing
}
