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
mod place;
mod reservoir;
mod route;
mod sites;
mod symbol;
mod units;

use crate::ink::Ink;
use crate::picture::{Group, Mark, Path, Picture, Point, Text};
use arrange::Arrangement;
use bleedwright_network::{CircuitId, Network, ScrewId, Split};
use bleedwright_planner::Plan;
use boxes::Shape;
use measure::{CYLINDER_HEIGHT, HEAD_FOOT, LETTER, on_grid};
use place::Placed;
use route::Routes;
use std::collections::HashMap;

/// Around everything.
const MARGIN: f64 = 3.0;
/// A picture is at least so wide, so that its tables fit.
const LEAST_WIDTH: f64 = 185.0;

/// Draws the pipework; with a plan, its screws carry the numbers of their steps.
pub fn schematic(network: &Network, plan: Option<&Plan>) -> Picture {
    draw(network, plan, true)
}

/// Draws the pipework for a card that says the plan itself: without the vehicle's name, the steps and the table of
/// lines, so that it can be printed in its own size.
pub fn schematic_for_card(network: &Network, plan: &Plan) -> Picture {
    draw(network, Some(plan), false)
}

fn draw(network: &Network, plan: Option<&Plan>, has_tables: bool) -> Picture {
    let arrangement = Arrangement::new(network);
    let shapes = arrangement
        .core
        .iter()
        .map(|(body, _)| arrangement.core_shape(*body));
    let core_half = shapes
        .map(|shape| on_grid(shape.width / 2.0 + 20.0))
        .fold(24.0, f64::max);
    let placed = Placed::new(&arrangement, |body, shape| {
        label::wrapped(name_of(&arrangement, body), label_room(core_half, shape), 2).len()
    });
    let routes = Routes::new(&arrangement, &placed, core_half, LEAST_WIDTH);
    let mut drawing = Drawing {
        arrangement: &arrangement,
        placed: &placed,
        routes: &routes,
        steps: steps_of(plan),
        has_tables,
    };
    let mut picture = drawing.compose(plan);
    if hue::are_in_names(network) {
        hue::taken_out(&mut picture);
    }
    picture
}

/// The step of every screw that a plan opens.
fn steps_of(plan: Option<&Plan>) -> HashMap<ScrewId, usize> {
    let steps = plan.into_iter().flat_map(|plan| &plan.steps);
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

struct Drawing<'a, 'n> {
    arrangement: &'a Arrangement<'n>,
    placed: &'a Placed,
    routes: &'a Routes,
    steps: HashMap<ScrewId, usize>,
    /// Whether name, steps and lines are written as well.
    has_tables: bool,
}

impl Drawing<'_, '_> {
    fn compose(&mut self, plan: Option<&Plan>) -> Picture {
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
        let (_, legend_height) = legend::circuits(network, Point::default(), legend_width);
        let legend_top = if is_beside {
            (-HEAD_FOOT - legend_height).min(head_top)
        } else {
            head_top - legend_height - 4.0
        };
        let (legends, _) =
            legend::circuits(network, Point::new(legend_left, legend_top), legend_width);
        let top = legend_top.min(head_top);
        let title_y = top - 6.5;

        let mut marks: Vec<Mark> = Vec::new();
        if self.has_tables {
            marks.extend(self.title(title_y, right));
        }
        marks.push(legends);
        // Bands first: none may cut a line that it crosses.
        marks.extend((0..self.arrangement.wires.len()).filter_map(|wire| self.band(wire)));
        marks.extend((0..self.arrangement.wires.len()).map(|wire| self.line(wire)));
        marks.extend(reservoirs);
        marks.extend((0..self.arrangement.bodies.len()).map(|body| self.body(body)));
        let numbered = self.arrangement.wires.iter().enumerate();
        for (index, wire) in numbered.filter(|_| self.has_tables) {
            let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
            let name = &network.layout().lines[wire.line].id;
            marks.push(legend::tag(
                name,
                circuit,
                index + 1,
                self.routes.routes[index].tag,
            ));
        }
        let mut y = self.routes.bottom + 3.0;
        let left = 0.0;
        if !self.has_tables {
            let at = Point::new(left, y + 2.0);
            let (signs, end) = legend::signs(network, plan.is_some(), false, at, right);
            marks.push(signs);
            return self.finished(marks, top - 3.0, end, right);
        }
        if let Some(plan) = plan {
            let (steps, end) = key::steps(network, plan, Point::new(left, y), right);
            marks.push(steps);
            y = end + 3.6;
        }
        let (lines, end) = key::lines(self.arrangement, Point::new(left, y), right);
        marks.push(lines);
        let (signs, end) = legend::signs(
            network,
            plan.is_some(),
            true,
            Point::new(left, end + 2.8),
            right - left,
        );
        marks.push(signs);
        self.finished(marks, title_y - 5.0, end, right)
    }

    fn finished(&self, marks: Vec<Mark>, top: f64, bottom: f64, right: f64) -> Picture {
        let layout = self.arrangement.network.layout();
        let (width_mm, height_mm) = (right + 2.0 * MARGIN, bottom - top + MARGIN);
        let paper = Path::rectangle(
            Point::default(),
            width_mm,
            height_mm,
            Some(Ink::WHITE),
            None,
        );
        let paper = Group {
            class: "paper",
            name: String::new(),
            circuit: None,
            title: None,
            marks: vec![paper.into()],
        };
        let moved = marks
            .into_iter()
            .map(|mark| mark.moved(MARGIN, MARGIN - top));
        Picture {
            width_mm,
            height_mm,
            title: format!("Brake pipework: {}", layout.name),
            description: self.description(),
            marks: std::iter::once(paper.into()).chain(moved).collect(),
        }
    }

    /// The picture in words: what each circuit feeds, through what.
    fn description(&self) -> String {
        let network = self.arrangement.network;
        let mut text = format!("{}. ", network.split().text());
        for (id, circuit) in network.circuits() {
            let wheels: Vec<&str> = circuit.wheels.iter().map(|wheel| wheel.text()).collect();
            text.push_str(&format!(
                "Circuit {}: {} lines, {} screws, {}. ",
                circuit.name,
                network.cells_of(id).len().saturating_sub(1),
                circuit.screws.len(),
                if wheels.is_empty() {
                    "no wheel".to_owned()
                } else {
                    wheels.join(", ")
                }
            ));
        }
        if self.has_tables {
            text.push_str("All lines are listed below the drawing.");
        }
        text
    }

    fn title(&self, y: f64, right: f64) -> Vec<Mark> {
        let layout = self.arrangement.network.layout();
        let split = match self.arrangement.network.split() {
            Split::Single | Split::Other => None,
            split => Some(format!("Split {}", split.text())),
        };
        let steering = layout.steering.map(|steering| steering.text().to_owned());
        let fluid = layout.fluid.map(|fluid| fluid.text().to_owned());
        let about: Vec<String> = [split, steering, fluid].into_iter().flatten().collect();
        vec![
            Text::new(Point::new(0.0, y - 1.0), 4.4, &layout.name)
                .bold()
                .within(right)
                .into(),
            Text::new(Point::new(0.0, y + 4.0), LETTER, &about.join(", "))
                .inked(Ink::GREY)
                .within(right)
                .into(),
        ]
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
        reservoir::reservoirs(network, &intakes)
    }
}
