//! What no screw in use reaches, beside what anti-lock units keep.

use crate::options::Purpose;
use crate::plan::{AirLeft, LineBubble, Remains};
use bleedwright_network::{Bounds, Network, ScrewId};
use uom::si::f64::Volume;

/// Air above screws that are not the top of their cavity, and air that climbs.
pub(super) fn remains(
    network: &Network,
    screws: &[ScrewId],
    bubbles: &[LineBubble],
    purpose: Purpose,
) -> Vec<Remains> {
    let mut remains = Vec::new();
    for screw in screws {
        if let Some(volume) = network.air_kept_by(*screw) {
            remains.push(Remains {
                part: network.cell_name(network.screw_place(*screw).cell),
                volume,
                why: AirLeft::AboveScrew(network.screw(*screw).id.clone()),
            });
        }
    }
    if purpose != Purpose::Renew {
        remains.extend(climbing(bubbles));
    }
    remains.sort_by(|a, b| (&a.part, &a.why).cmp(&(&b.part, &b.why)));
    remains
}

/// Air that climbs back faster than the fluid takes it along.
fn climbing(bubbles: &[LineBubble]) -> Vec<Remains> {
    bubbles
        .iter()
        .filter(|bubble| !bubble.is_carried)
        .map(|bubble| Remains {
            part: bubble.line.clone(),
            volume: Bounds {
                low: Volume::default(),
                nominal: Volume::default(),
                high: bubble.contents.high,
            },
            why: AirLeft::MayClimb {
                are_heights_known: bubble.are_heights_known,
            },
        })
        .collect()
}
