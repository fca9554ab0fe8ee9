//! What no screw in use reaches.

use crate::options::Purpose;
use crate::plan::{LineBubble, Remains};
use bleedwright_network::{Bounds, CircuitId, Network, PartKind, ScrewId};
use std::collections::BTreeSet;
use uom::si::f64::Volume;

/// What no screw in use reaches.
pub(super) fn remains(
    network: &Network,
    circuits: &BTreeSet<CircuitId>,
    screws: &[ScrewId],
    bubbles: &[LineBubble],
    purpose: Purpose,
) -> Vec<Remains> {
    let mut remains = Vec::new();
    for (index, part) in network.layout().parts.iter().enumerate() {
        let PartKind::AntiLock {
            circuits: passages, ..
        } = &part.kind
        else {
            continue;
        };
        let volume: Bounds<Volume> = network
            .cells_of_part(index)
            .zip(passages)
            .filter(|(cell, _)| {
                network
                    .circuit_of_cell(*cell)
                    .is_some_and(|circuit| circuits.contains(&circuit))
            })
            .map(|(_, passage)| passage.trapped)
            .sum();
        if volume.high > Volume::default() {
            remains.push(Remains {
                part: part.id.clone(),
                volume,
                text: "behind its valves: only the maker's routine moves it".to_owned(),
            });
        }
    }
    for screw in screws {
        if let Some(volume) = network.air_kept_by(*screw) {
            remains.push(Remains {
                part: network.cell_name(network.screw_place(*screw).cell),
                volume,
                text: format!(
                    "air above the screw `{}`, unless the brake is tilted",
                    network.screw(*screw).id
                ),
            });
        }
    }
    if purpose != Purpose::Renew {
        remains.extend(climbing(bubbles));
    }
    remains.sort_by(|a, b| a.part.cmp(&b.part));
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
            text: format!(
                "air may climb back{}: tap it, press quicker or by a tank; else loosen its upper \
                 union with no pressure on it, goggles on, let it run, tighten before the pedal \
                 comes up, torque again",
                if bubble.are_heights_known {
                    ""
                } else {
                    ", if it leads down"
                }
            ),
        })
        .collect()
}
