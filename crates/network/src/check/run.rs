//! The lengths of runs, held against where the wheels are.

use crate::bounds::Bounds;
use crate::code::Code;
use crate::finding::Finding;
use crate::graph::Owner;
use crate::network::{Network, ScrewId};
use crate::place::Place;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A brake of a car with the length of the lines that lead to it.
struct Reached {
    part: usize,
    length: Bounds<Length>,
}

/// A rear brake that is nearer to its master cylinder than a front one, tolerances and
/// all: more often two lengths that were swapped, or a point in the wrong
/// place. The clearest pair is told.
pub(crate) fn rear_before_front(network: &Network, findings: &mut Vec<Finding>) {
    let reached = |(id, _): (ScrewId, _)| {
        // A motorcycle's rear brake has a cylinder of its own beside it.
        let wheel = network.wheel(id).filter(|wheel| wheel.side().is_some())?;
        let place = network.screw_place(id);
        let Owner::Part(part, _) = network.cell(place.cell).owner else {
            return None;
        };
        place.circuit?;
        let axle = wheel.axle();
        (axle == FRONT || axle == REAR).then(|| {
            let length = network.run_length(id);
            (axle, Reached { part, length })
        })
    };
    let brakes: Vec<(u8, Reached)> = network.screws().filter_map(reached).collect();
    let of_axle = |wanted: u8| {
        let brakes = brakes.iter().filter(move |(axle, _)| *axle == wanted);
        brakes.map(|(_, reached)| reached)
    };
    let farthest_front =
        of_axle(FRONT).max_by(|a, b| a.length.low.value.total_cmp(&b.length.low.value));
    let nearest_rear =
        of_axle(REAR).min_by(|a, b| a.length.high.value.total_cmp(&b.length.high.value));
    let (Some(front), Some(rear)) = (farthest_front, nearest_rear) else {
        return;
    };
    if rear.length.high >= front.length.low {
        return;
    }
    let name = |reached: &Reached| &network.layout.parts[reached.part].id;
    let metres = |reached: &Reached| reached.length.nominal.get::<meter>();
    findings.push(
        Finding::new(
            Code::RearNearer,
            Place::item("parts", rear.part).field("id"),
            format!(
                "`{}` at the rear has {:.2} m of line to its master cylinder, `{}` at the front {:.2} m",
                name(rear),
                metres(rear),
                name(front),
                metres(front)
            ),
            "compare both with the vehicle, line by line: the order and the amounts follow from \
             the lengths. Leave them if they are right",
        )
        .also_at(Place::item("parts", front.part).field("id"), "the front one"),
    );
}

const FRONT: u8 = 0;
const REAR: u8 = 2;
