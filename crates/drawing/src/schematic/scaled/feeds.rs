//! Reservoirs beside the cylinders that they feed: their compartments above each other, as the chambers are.

use super::super::label;
use super::super::measure::{LEADING, RESERVOIR_HEIGHT};
use super::super::pen::Pen;
use super::super::reservoir::{COMPARTMENT, Intake, draw_compartment};
use super::sign::{Facing, Port, Serves, Sign};
use crate::picture::{Anchor, Mark, Point};
use bleedwright_network::CellId;

/// From one feed of a compartment to the next.
const PITCH: f64 = 3.0;

/// The way from a compartment to a chamber.
pub(super) struct Feed {
    pub(super) cell: CellId,
    pub(super) intake: Intake,
}

/// The feeds of all chambers that have a compartment.
pub(super) fn feeds(pen: &Pen<'_, '_>) -> Vec<Feed> {
    let network = pen.arrangement.network;
    let mut feeds = Vec::new();
    for cell in pen.arrangement.bodies.iter().flat_map(|body| &body.cells) {
        let is_chamber = matches!(
            network.cell(*cell).owner,
            bleedwright_network::Owner::Cylinder(..)
        );
        let Some(circuit) = network.circuit_of_cell(*cell).filter(|_| is_chamber) else {
            continue;
        };
        let compartment = network.circuit(circuit).compartment;
        if compartment.is_some() {
            let intake = Intake {
                at: Point::default(),
                circuit: circuit.index(),
                name: network.cell_name(*cell),
                compartment,
            };
            feeds.push(Feed {
                cell: *cell,
                intake,
            });
        }
    }
    feeds
}

/// A reservoir; `height` tells how high the chamber of a feed stands in the picture.
pub(super) fn reservoir(
    pen: &Pen<'_, '_>,
    index: usize,
    feeds: &[Feed],
    height: impl Fn(&Feed) -> f64,
) -> Sign {
    let found = &pen.arrangement.network.layout().reservoirs[index];
    let mut order: Vec<(f64, usize, Vec<usize>)> = (0..found.compartments.len())
        .map(|compartment| {
            let fed: Vec<usize> = (0..feeds.len())
                .filter(|feed| feeds[*feed].intake.compartment == Some((index, compartment)))
                .collect();
            let sum: f64 = fed.iter().map(|feed| height(&feeds[*feed])).sum();
            (sum / fed.len().max(1) as f64, compartment, fed)
        })
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut marks: Vec<Mark> = Vec::new();
    let mut ports = Vec::new();
    let mut y = 0.0;
    for (_, compartment, fed) in order {
        let compartment = &found.compartments[compartment];
        let lines = label::wrapped(&compartment.id, COMPARTMENT - 1.6, 2).len();
        let words = RESERVOIR_HEIGHT + LEADING * lines.saturating_sub(1) as f64;
        let height = words.max(PITCH * (fed.len() + 1) as f64);
        let corner = Point::new(0.0, y);
        marks.push(draw_compartment(compartment, corner, COMPARTMENT, height));
        for (nth, feed) in fed.iter().enumerate() {
            let row = y + height / 2.0 + PITCH * (nth as f64 - (fed.len() - 1) as f64 / 2.0);
            for (x, facing) in [(0.0, Facing::Left), (COMPARTMENT, Facing::Right)] {
                ports.push(Port {
                    at: Point::new(x, row),
                    facing,
                    serves: Serves::Feed(*feed),
                });
            }
        }
        y += height;
    }
    let at = Point::new(0.0, -1.2);
    let name = label::write(&found.id, at, Anchor::Start, COMPARTMENT, 1);
    let mut sign = Sign::new(&found.id, marks, ports);
    // Its name keeps others off as its outline does.
    sign.frame.top -= 1.2 + LEADING;
    sign.marks.extend(name);
    sign
}
