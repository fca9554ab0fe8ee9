//! Air that climbs in lines between two strokes.

use crate::slug::Direction;
use crate::system::System;
use bleedwright_hydraulics::bubble::drift::{Rise, rise as rise_of};
use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::geometry::bore_area;
use bleedwright_network::{Element, LinkId, LinkKind, Network};
use uom::si::f64::{Area, Length, Time, Velocity};
use uom::si::volume::milliliter;

/// A line in which a long bubble climbs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Climb {
    link: LinkId,
    /// Along the line, its slope counted.
    speed: Velocity,
    area: Area,
    toward: Direction,
}

/// Every line that is wide enough for a long bubble to rise and whose ends
/// stand at different heights.
///
/// The speed is that in an upright pipe times the mean slope of the line.
/// ASSUMPTION: the slope is even from end to end; points on the way are not
/// looked at.
pub(crate) fn climbs(network: &Network, liquid: &Liquid) -> Vec<Climb> {
    let links = network.all_links();
    links
        .filter_map(|(link, _)| {
            let (bore, slope) = geometry(network, link)?;
            let speed = match rise_of(bore, liquid) {
                Ok(Rise::Creeps(speed) | Rise::Drifts(speed)) => speed,
                Ok(Rise::Stuck) | Err(_) => return None,
            };
            (slope != 0.0).then(|| Climb {
                link,
                speed: speed * slope.abs(),
                area: bore_area(bore),
                // The first slug of a line is nearest to the cylinder.
                toward: if slope > 0.0 {
                    Direction::Out
                } else {
                    Direction::Back
                },
            })
        })
        .collect()
}

/// Lets air climb for a while.
pub(crate) fn rise(system: &mut System<'_>, climbs: &[Climb], pause: Time) {
    for climb in climbs {
        let element = Element::Link(climb.link);
        if system.air_in(element) > 0.0 {
            let volume_ml = (climb.area * (climb.speed * pause)).get::<milliliter>();
            system.climb(element, volume_ml, climb.toward);
        }
    }
}

/// The bore of a line and how steeply it rises from the cylinder's side.
fn geometry(network: &Network, link: LinkId) -> Option<(Length, f64)> {
    let LinkKind::Line(index) = network.link(link).kind else {
        return None;
    };
    let bore = network.layout().lines[index].bore()?.nominal;
    Some((bore, network.slope_of(link)?))
}
