//! What no simulation of this vehicle follows, so that nobody takes its zero for the truth.

use crate::outcome::NotFollowed;
use bleedwright_network::Network;
use bleedwright_planner::{Kept, Plan};

/// What units keep behind their valves, and the air above screws that are not the top of their cavity.
pub(crate) fn not_followed(network: &Network, plan: &Plan) -> Vec<NotFollowed> {
    let units = plan.units().map(|unit| NotFollowed {
        part: unit.part.clone(),
        volume: unit.volume,
        may_be_air: unit.kept.may_be_air(),
        why: match unit.kept {
            Kept::OldFluid => "old fluid behind its valves".to_owned(),
            Kept::MaybeAir => "air or old fluid behind its valves".to_owned(),
            Kept::Air => "air behind its valves".to_owned(),
        },
    });
    let screws = plan.steps.iter().flat_map(|step| &step.screws);
    let above = screws.filter_map(|screw| {
        Some(NotFollowed {
            part: network.cell_name(network.screw_place(screw.id).cell),
            volume: network.air_kept_by(screw.id)?,
            may_be_air: true,
            why: format!(
                "air above the screw `{}`, unless the brake is tilted",
                screw.screw
            ),
        })
    });
    let mut all: Vec<NotFollowed> = units.chain(above).collect();
    all.sort_by(|a, b| (&a.part, &a.why).cmp(&(&b.part, &b.why)));
    // A screw may be opened twice.
    all.dedup();
    all
}
