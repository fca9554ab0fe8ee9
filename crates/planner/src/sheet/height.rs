//! The words for what heights mean.

use super::{List, Sheet};
use crate::drive::stated_height;
use crate::options::Method;
use crate::plan::{AboveFluid, Change, StepHeight};
use bleedwright_network::{BelowBrake, Network, Owner, ScrewId};
use uom::si::f64::Length;
use uom::si::length::millimeter;
use uom::si::pressure::bar;

impl StepHeight {
    /// Said with the reasons of a step: a high point that no finding warns of.
    pub fn reason(&self) -> Option<String> {
        match self {
            Self::Over(high) if !high.is_warned_of() => Some(format!(
                "its way rises {:.0} mm at `{}`, no matter while it is full",
                high.rise.nominal.get::<millimeter>(),
                high.name
            )),
            Self::Over(_) | Self::Above(_) => None,
        }
    }

    /// Said with what else there is to know at a step.
    pub(crate) fn note(&self, method: Method) -> Option<String> {
        match self {
            Self::Over(_) => None,
            Self::Above(above) => Some(above_text(above, method)),
        }
    }
}

fn above_text(above: &AboveFluid, method: Method) -> String {
    let AboveFluid { screw, lower, .. } = above;
    let higher = format!(
        "`{screw}` up to {:.0} mm higher than `{lower}` ({:.3} bar of head)",
        above.by.high.get::<millimeter>(),
        above.head.high.get::<bar>()
    );
    let held = above.residual.as_ref().map_or(String::new(), |residual| {
        let valve = &residual.valve;
        match residual.holds {
            Some(holds) if holds.low > above.head_to_top.high => format!(
                "; `{valve}`, while it is sound, holds the line full ({:.2} bar against {:.3})",
                holds.nominal.get::<bar>(),
                above.head_to_top.high.get::<bar>()
            ),
            Some(holds) => format!(
                "; `{valve}` holds {:.2} bar, which may be too little against {:.3}",
                holds.nominal.get::<bar>(),
                above.head_to_top.high.get::<bar>()
            ),
            None => format!("; what `{valve}` holds is not given"),
        }
    });
    if !above.may_draw_air {
        return format!("{higher}: air rises to here and not to the cylinder{held}");
    }
    let does = match method {
        Method::Pedal => {
            "press lightly, only then open, shut before the block; left open it may draw air; not by \
             gravity; air rises to here"
        }
        Method::Pressure | Method::Vacuum => {
            "open only while it is driven, shut while it still runs; left open it draws air; air \
             rises to here"
        }
        Method::Gravity => "left open it draws air: not by gravity",
        Method::Reverse => {
            "air rises to here and not to the reservoir: finish by the pedal; left open it draws air"
        }
    };
    format!("{higher}: {does}{held}")
}

/// Whether a screw stands higher than the fluid that feeds it, so that it draws air when it is left open.
fn may_draw_air(network: &Network, screw: ScrewId) -> bool {
    let below = network.below_brake(network.screw_place(screw).cell);
    below.is_some_and(|BelowBrake { may_draw_air, .. }| may_draw_air)
}

/// Air may be let out at a union that is the highest point of its way before the first screw is opened.
pub(super) fn unions(sheet: &Sheet<'_, '_>, list: &mut List) {
    if sheet.unions.is_empty() {
        return;
    }
    let names: Vec<String> = (sheet.unions.iter().map(|name| format!("`{name}`"))).collect();
    let names = names.join(", ");
    list.change(
        Change::UnionLoosened(names.clone()),
        format!(
            "May come first, air gathers there: {names}. Slow held stroke, light foot: union open \
             a quarter turn, two spanners, cloth, goggles; nipped up before the pedal rises. Not \
             on a rusted pipe, never with stored pressure or a pump that can wake (TM \
             10-3930-633-12)."
        ),
    );
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
