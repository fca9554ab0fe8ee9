//! What no simulation of this vehicle follows, so that nobody takes its zero for the truth.

use crate::outcome::{NotFollowed, WhyNotFollowed};
use bleedwright_network::{
    Bounds, CellId, Element, HighPoint, HighPoints, Judged, LinkId, Network, ScrewId, Spot,
};
use bleedwright_planner::{Options, Plan, Verdict, empty_at_start, opened_joints};
use std::collections::{BTreeMap, HashSet};
use uom::si::f64::Volume;

/// What units keep behind their valves, the air at high points of the runs, and that above screws that are not, or not
/// known to be, the top of their cavity.
pub(crate) fn not_followed(network: &Network, options: &Options, plan: &Plan) -> Vec<NotFollowed> {
    let has_air =
        !empty_at_start(network, options).is_empty() || !opened_joints(network, options).is_empty();
    let mut all: Vec<NotFollowed> = plan
        .units()
        .map(|unit| NotFollowed {
            part: unit.part.clone(),
            volume: unit.volume,
            may_be_air: unit.kept.may_be_air(),
            why: WhyNotFollowed::BehindValves(unit.kept),
        })
        .collect();
    let steps = plan.steps.iter();
    let screws: Vec<ScrewId> = steps
        .flat_map(|step| step.screws.iter().map(|screw| screw.id))
        .collect();
    all.extend(
        screws
            .iter()
            .filter_map(|screw| above_screw(network, *screw)),
    );
    all.extend(at_high_points(network, plan, &screws, has_air));
    all.sort_by(|a, b| (&a.part, &a.why).cmp(&(&b.part, &b.why)));
    // A screw may be opened twice.
    all.dedup();
    all
}

/// Air above a screw, where it may not be the top of its cavity.
fn above_screw(network: &Network, id: ScrewId) -> Option<NotFollowed> {
    let cell = network.screw_place(id).cell;
    let cavity = network.cavity(cell)?;
    let screw = network.screw(id);
    let up_to = |most: Volume| Bounds {
        high: most,
        ..Bounds::exact(Volume::default())
    };
    let (volume, why) = match screw.at_top {
        Some(true) => return None,
        Some(false) => (
            network
                .air_kept_by(id)
                .unwrap_or_else(|| up_to(cavity.contents().high)),
            WhyNotFollowed::AboveScrew(screw.id.clone()),
        ),
        // ASSUMPTION: as where it is said not to be, at mid-height or above.
        None => (
            up_to(cavity.contents().high * 0.5),
            WhyNotFollowed::PerhapsAboveScrew(screw.id.clone()),
        ),
    };
    Some(NotFollowed {
        part: network.cell_name(cell),
        volume,
        may_be_air: true,
        why,
    })
}

/// Air at the high points on the runs of these screws, where air was let in or climbs by itself.
fn at_high_points(
    network: &Network,
    plan: &Plan,
    screws: &[ScrewId],
    has_air: bool,
) -> Vec<NotFollowed> {
    let high_points: HighPoints = network.high_points(Judged::Nominally);
    let climbing: HashSet<&str> = plan
        .bubbles
        .iter()
        .filter(|bubble| bubble.verdict == Verdict::Climbs)
        .map(|bubble| bubble.line.as_str())
        .collect();
    let mut found: BTreeMap<String, Volume> = BTreeMap::new();
    for screw in screws {
        let run = network.run(*screw);
        for high in high_points.on_way_to(network.screw_place(*screw).cell) {
            let lines = lines_at(high, &run);
            let climbs = |line: &LinkId| climbing.contains(network.link_name(*line).as_str());
            if !has_air && !lines.iter().any(climbs) {
                continue;
            }
            let held = lines.iter().map(|line| network.link(*line).contents.high);
            let held = held.fold(Volume::default(), |sum, part| sum + part);
            let most = found.entry(name_of(network, high)).or_default();
            *most = most.max(held);
        }
    }
    let found = found.into_iter();
    found
        .map(|(part, most)| NotFollowed {
            part,
            volume: Bounds {
                high: most,
                ..Bounds::exact(Volume::default())
            },
            may_be_air: true,
            why: WhyNotFollowed::HighPoint,
        })
        .collect()
}

/// The lines of a run that meet at a high point, or the one that it lies in.
fn lines_at(high: &HighPoint, run: &[Element]) -> Vec<LinkId> {
    let beside = |cell: CellId| {
        let place = run.iter().position(|it| *it == Element::Cell(cell));
        let around = place.map_or(0..0, |place| place - 1..(place + 2).min(run.len()));
        run[around].iter().filter_map(|element| match element {
            Element::Link(link) => Some(*link),
            Element::Cell(_) => None,
        })
    };
    match high.spot {
        Spot::Via(line, _) => vec![line],
        Spot::Cell(cell) => beside(cell).collect(),
    }
}

fn name_of(network: &Network, high: &HighPoint) -> String {
    match high.spot {
        Spot::Via(line, _) => network.link_name(line),
        Spot::Cell(cell) => network.cell_name(cell),
    }
}
