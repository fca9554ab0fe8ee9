//! The pipework of a vehicle, drawn from above.
//!
//! ```text
//! network -> arrangement -> heights -> lanes -> ways -> marks
//!            head, middle,  of all     one for  of      symbols, lines,
//!            wheels         parts      each     lines   numbers, tables
//! ```
//!
//! Every line has pieces of tracks and lanes for itself, so that lines may cross but never share a piece, and none can
//! run through a part: tracks and lanes lie between parts.

mod arrange;
mod bodies;
mod boxes;
mod ends;
mod figure;
mod hue;
mod key;
mod label;
mod lanes;
mod legend;
mod lines;
mod measure;
mod order;
mod pen;
mod place;
mod reservoir;
mod route;
mod sheet;
mod sites;
mod symbol;
mod told;
mod units;

pub use figure::printed_volume;
pub use told::{Told, Words};

use crate::picture::{Mark, Picture, Point};
use arrange::Arrangement;
use bleedwright_network::{Network, ScrewId};
use bleedwright_planner::Plan;
use boxes::Shape;
use measure::{CYLINDER_HEIGHT, HEAD_FOOT, on_grid};
use pen::Pen;
use place::Placed;
use route::Routes;
use sheet::{Body, Sheet};
use std::collections::HashMap;

/// A picture is at least so wide, so that its tables fit.
pub(super) const LEAST_WIDTH: f64 = 185.0;

/// Draws the pipework; its screws carry the numbers of their steps, `words` says what is told.
pub fn schematic(network: &Network, plan: &Plan, words: Words) -> Picture {
    draw(network, plan, words, true)
}

/// Draws the pipework for a card that says the plan itself: without the vehicle's name, the steps and the table of
/// lines, so that it can be printed in its own size.
pub fn schematic_for_card(network: &Network, plan: &Plan, words: Words) -> Picture {
    draw(network, plan, words, false)
}

fn draw(network: &Network, plan: &Plan, words: Words, has_tables: bool) -> Picture {
    let arrangement = Arrangement::new(network);
    let pen = Pen {
        arrangement: &arrangement,
        steps: steps_of(plan),
        words,
    };
    let sheet = Sheet {
        arrangement: &arrangement,
        plan,
        words,
        has_tables,
    };
    let mut picture = sheet.picture(body(&pen, has_tables));
    if hue::are_in_names(network) {
        hue::taken_out(&mut picture);
    }
    picture
}

fn body(pen: &Pen<'_, '_>, has_numbers: bool) -> Body {
    let arrangement = pen.arrangement;
    let shapes = arrangement
        .core
        .iter()
        .map(|(body, _)| arrangement.core_shape(*body));
    let core_half = shapes
        .map(|shape| on_grid(shape.width / 2.0 + 20.0))
        .fold(24.0, f64::max);
    let placed = Placed::new(arrangement, |body, shape| {
        label::wrapped(name_of(arrangement, body), label_room(core_half, shape), 2).len()
    });
    let routes = Routes::new(arrangement, &placed, core_half, LEAST_WIDTH);
    let drawing = Drawing {
        arrangement,
        placed: &placed,
        routes: &routes,
        pen,
    };
    drawing.compose(has_numbers)
}

fn steps_of(plan: &Plan) -> HashMap<ScrewId, usize> {
    let steps = plan.steps.iter();
    steps
        .flat_map(|step| step.screws.iter().map(|screw| (screw.id, step.number)))
        .collect()
}

fn name_of<'n>(arrangement: &Arrangement<'n>, body: usize) -> &'n str {
    arrangement.part(body).map_or("", |part| part.id.as_str())
}

/// What is left for a name beside the last inlet of a body.
fn label_room(core_half: f64, shape: &Shape) -> f64 {
    core_half - last_inlet(shape) - 4.5
}

fn last_inlet(shape: &Shape) -> f64 {
    let inlets = shape.cells.iter().flat_map(|cell| &cell.inlets);
    inlets.map(|inlet| inlet.1).fold(0.0, f64::max)
}

/// The layout: head, middle column, wheels.
struct Drawing<'a, 'n> {
    arrangement: &'a Arrangement<'n>,
    placed: &'a Placed,
    routes: &'a Routes,
    pen: &'a Pen<'a, 'n>,
}

impl Drawing<'_, '_> {
    /// Everything between the title and the tables.
    fn compose(&self, has_numbers: bool) -> Body {
        let network = self.arrangement.network;
        let across = self.routes.across;
        let (reservoirs, head_top, reservoirs_right) = self.reservoirs();
        let head_top = head_top.min(-HEAD_FOOT - CYLINDER_HEIGHT - 9.0);
        let head_right = self
            .placed
            .head
            .last()
            .map_or(0.0, |(_, left, shape)| across.head + left + shape.width);
        let right = across
            .right
            .max(head_right)
            .max(reservoirs_right)
            .max(LEAST_WIDTH);
        // The circuits stand beside the head where there is room, else above it.
        let beside = across.head.max(right - head_right.max(reservoirs_right));
        let is_beside = beside >= 88.0;
        let (legend_left, legend_width) = match (is_beside, across.head >= 88.0) {
            (true, true) => (0.0, across.head - 6.0),
            (true, false) => (
                head_right.max(reservoirs_right) + 6.0,
                right - head_right.max(reservoirs_right) - 6.0,
            ),
            _ => (0.0, right),
        };
        let (_, legend_height) =
            legend::circuits(network, Point::default(), legend_width, self.pen.words);
        let legend_top = if is_beside {
            (-HEAD_FOOT - legend_height).min(head_top)
        } else {
            head_top - legend_height - 4.0
        };
        let (legends, _) = legend::circuits(
            network,
            Point::new(legend_left, legend_top),
            legend_width,
            self.pen.words,
        );
        let mut marks: Vec<Mark> = vec![legends];
        let wires = 0..self.arrangement.wires.len();
        // Bands first: none may cut a line that it crosses.
        let route = |wire: usize| &self.routes.routes[wire];
        marks.extend(
            wires
                .clone()
                .filter_map(|wire| self.arrangement.band(wire, route(wire))),
        );
        marks.extend(
            wires
                .clone()
                .map(|wire| self.arrangement.line(wire, route(wire))),
        );
        marks.extend(reservoirs);
        marks.extend((0..self.arrangement.bodies.len()).map(|body| self.body(body)));
        if has_numbers {
            marks.extend(wires.map(|wire| self.arrangement.tag(wire, route(wire))));
        }
        Body {
            marks,
            top: legend_top.min(head_top),
            bottom: self.routes.bottom + 3.0,
            right,
        }
    }

    fn reservoirs(&self) -> (Vec<Mark>, f64, f64) {
        let network = self.arrangement.network;
        let mut intakes = Vec::new();
        for (body, left, shape) in &self.placed.head {
            for (cell, shape) in self.arrangement.bodies[*body]
                .cells
                .iter()
                .zip(&shape.cells)
            {
                let Some(circuit) = network.circuit_of_cell(*cell) else {
                    continue;
                };
                let x = self.routes.across.head + left + shape.left + shape.width / 2.0;
                intakes.push(reservoir::Intake {
                    at: Point::new(x, -HEAD_FOOT - CYLINDER_HEIGHT),
                    circuit: circuit.index(),
                    name: network.cell_name(*cell),
                    compartment: network.circuit(circuit).compartment,
                });
            }
        }
        reservoir::reservoirs(network, &intakes, self.pen.words)
    }
}
