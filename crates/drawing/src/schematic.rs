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
mod boxes;
mod figure;
mod key;
mod label;
mod lanes;
mod legend;
mod measure;
mod place;
mod reservoir;
mod route;
mod symbol;

use crate::ink::{Ink, Stroke, circuit_stroke};
use crate::picture::{Anchor, Group, Mark, Path, Picture, Point, Segment, Text};
use arrange::{Arrangement, Seat};
use bleedwright_network::{
    CellId, CircuitId, LineKind, Network, Owner, PartKind, Screw, ScrewId, Split,
};
use bleedwright_planner::Plan;
use boxes::Shape;
use measure::{COLUMN, CYLINDER_HEIGHT, HEAD_FOOT, LETTER, LINE, on_grid};
use place::Placed;
use route::{Route, Routes, row_of_joint};
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
    drawing.compose(plan)
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

    /// What marks a hose along its whole way.
    fn band(&self, index: usize) -> Option<Mark> {
        let network = self.arrangement.network;
        let wire = &self.arrangement.wires[index];
        let line = &network.layout().lines[wire.line];
        if !matches!(line.kind, LineKind::Hose { .. }) {
            return None;
        }
        let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
        let ink = circuit.map_or(Ink::GREY, |circuit| circuit_stroke(circuit, LINE).ink);
        let band = Path::line(
            &self.routes.routes[index].points,
            Stroke::solid(ink.thinned(), 2.1),
        );
        Some(
            Group {
                class: "line",
                name: line.id.clone(),
                circuit,
                title: None,
                marks: vec![band.into()],
            }
            .into(),
        )
    }

    fn line(&self, index: usize) -> Mark {
        let network = self.arrangement.network;
        let wire = &self.arrangement.wires[index];
        let line = &network.layout().lines[wire.line];
        let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
        let is_hose = matches!(line.kind, LineKind::Hose { .. });
        let stroke = circuit.map_or(Stroke::solid(Ink::GREY, LINE), |circuit| {
            circuit_stroke(circuit, LINE)
        });
        let route = &self.routes.routes[index];
        let mut marks: Vec<Mark> = Vec::new();
        if matches!(line.kind, LineKind::Direct) {
            let edge = Stroke {
                width_mm: 1.5,
                ..stroke
            };
            marks.push(Path::line(&route.points, edge).into());
            marks.push(Path::line(&route.points, Stroke::solid(Ink::WHITE, 0.7)).into());
        } else {
            marks.push(way(route, is_hose, stroke).into());
        }
        let title = format!(
            "{}. {}: {}, {}, {}",
            index + 1,
            line.id,
            figure::kind(line),
            figure::length(line.length()),
            figure::volume(line.contents())
        );
        Group {
            class: "line",
            name: line.id.clone(),
            circuit,
            title: Some(title),
            marks,
        }
        .into()
    }

    fn ink(&self, cell: CellId) -> Ink {
        let circuit = self.arrangement.network.circuit_of_cell(cell);
        circuit.map_or(Ink::GREY, |circuit| {
            circuit_stroke(circuit.index(), LINE).ink
        })
    }

    fn body(&self, body: usize) -> Mark {
        let found = &self.arrangement.bodies[body];
        let network = self.arrangement.network;
        let (name, title, marks) = match found.owner {
            Owner::Cylinder(index, _) => {
                let cylinder = &network.layout().cylinders[index];
                (
                    &cylinder.id,
                    cylinder.id.clone(),
                    self.cylinder(body, index),
                )
            }
            Owner::Part(index, _) => {
                let part = &network.layout().parts[index];
                let marks = match found.seat {
                    Seat::Brake(_) => self.brake(body),
                    Seat::Joint(_) => self.joint(body),
                    _ => self.core(body),
                };
                (
                    &part.id,
                    format!("{}: {}", part.id, part.kind.text()),
                    marks,
                )
            }
        };
        let circuit = network
            .circuit_of_cell(found.cells[0])
            .map(CircuitId::index);
        Group {
            class: "part",
            name: name.clone(),
            circuit,
            title: Some(title),
            marks,
        }
        .into()
    }

    /// A screw's step and circuit, found by its place in its carrier's list.
    fn numbers(&self, body: usize, screws: &[Screw]) -> Vec<(Option<usize>, Option<usize>)> {
        let network = self.arrangement.network;
        let mut numbers = vec![(None, None); screws.len()];
        for cell in &self.arrangement.bodies[body].cells {
            for id in network.screws_on(*cell) {
                let place = network.screw_place(id);
                numbers[place.nth] = (
                    self.steps.get(&id).copied(),
                    place.circuit.map(CircuitId::index),
                );
            }
        }
        numbers
    }

    /// A screw that hangs on a cell with its foot and its circle there.
    fn screw(&self, id: ScrewId, foot: Point, centre: Point) -> Mark {
        let network = self.arrangement.network;
        let circuit = network.screw_place(id).circuit.map(CircuitId::index);
        symbol::screw(
            &network.screw(id).id,
            circuit,
            foot,
            centre,
            self.steps.get(&id).copied(),
        )
    }

    fn cylinder(&self, body: usize, index: usize) -> Vec<Mark> {
        let network = self.arrangement.network;
        let (_, left, shape) = &self.placed.head[body];
        let corner = Point::new(self.routes.across.head + left, -HEAD_FOOT - CYLINDER_HEIGHT);
        let cells = &self.arrangement.bodies[body].cells;
        let cylinder = &network.layout().cylinders[index];
        let mut marks = symbol::cylinder(cylinder, shape, corner, |nth| self.ink(cells[nth]));
        for (cell, shape) in cells.iter().zip(&shape.cells) {
            for (nth, id) in network.screws_on(*cell).enumerate() {
                let foot = corner.moved(
                    shape.left + 3.0 + boxes::SCREW_PITCH * nth as f64,
                    CYLINDER_HEIGHT - 0.6,
                );
                marks.push(self.screw(id, foot, foot.moved(0.0, 3.9)));
            }
        }
        marks
    }

    fn core(&self, body: usize) -> Vec<Mark> {
        let Some(part) = self.arrangement.part(body) else {
            return Vec::new();
        };
        let found = &self.placed.core[&body];
        let cells = &self.arrangement.bodies[body].cells;
        let top = Point::new(self.routes.across.core, found.top);
        let mut marks = if let PartKind::Junction { word } = &part.kind {
            let ports: Vec<f64> = self
                .placed
                .side_ports
                .range((body, 0)..=(body, usize::MAX))
                .map(|(_, y)| *y)
                .collect();
            let circuit = self
                .arrangement
                .network
                .circuit_of_cell(cells[0])
                .map_or(0, CircuitId::index);
            symbol::junction(
                word,
                top,
                found.height,
                &ports,
                circuit_stroke(circuit, LINE),
            )
        } else {
            symbol::passages(part, &found.shape, top, |nth| self.ink(cells[nth]))
        };
        for (cell, shape) in cells.iter().zip(&found.shape.cells) {
            let inlets = shape.inlets.iter().map(|inlet| inlet.1);
            let first = inlets.fold(shape.left + shape.width / 2.0, f64::min);
            for (nth, id) in self.arrangement.network.screws_on(*cell).enumerate() {
                let centre = top.moved(first - 5.4 - nth as f64 * boxes::SCREW_PITCH, -2.9);
                let foot = Point::new(centre.x.max(top.x + shape.left + 1.5), top.y + 1.0);
                marks.push(self.screw(id, foot, centre));
            }
        }
        let at = top.moved(
            last_inlet(&found.shape) + 3.6,
            -1.3 - measure::LEADING * (found.label_lines - 1) as f64,
        );
        let room = label_room(self.routes.across.core_half, &found.shape);
        marks.extend(label::write(&part.id, at, Anchor::Start, room, 2));
        marks
    }

    fn joint(&self, body: usize) -> Vec<Mark> {
        let (Some(part), Seat::Joint(site)) = (
            self.arrangement.part(body),
            self.arrangement.bodies[body].seat,
        ) else {
            return Vec::new();
        };
        let across = &self.routes.across;
        let cell = self.arrangement.bodies[body].cells[0];
        let column = self.arrangement.column[cell.index()];
        let at = Point::new(
            across.joint(site.is_right, column),
            row_of_joint(self.arrangement, self.placed, cell),
        );
        let PartKind::Junction { word } = &part.kind else {
            return Vec::new();
        };
        let mut marks = symbol::joint(word, at, self.ink(cell));
        // Its name stands above its line, as far as the next joints leave room.
        let to_joint = across.to_brake[usize::from(site.is_right)] - COLUMN * column as f64;
        let before = self.arrangement.wires[self.arrangement.ending[cell.index()][0]].near;
        let inner = match self.arrangement.body(before).seat {
            Seat::Joint(_) => to_joint - COLUMN / 2.0 + 0.6,
            _ => 0.6,
        };
        let outer = if column > 1 {
            to_joint + COLUMN / 2.0 - 0.6
        } else {
            to_joint + COLUMN - 1.2
        };
        let lines = label::wrapped(&part.id, outer - inner, 2);
        let width = lines
            .iter()
            .map(|line| Text::new(Point::default(), LETTER, line).width_mm())
            .fold(0.0, f64::max);
        let half = (width / 2.0).min((outer - inner) / 2.0);
        let middle = to_joint.clamp(inner + half, outer - half);
        let y = at.y - 2.4 - measure::LEADING * lines.len().saturating_sub(1) as f64;
        let place = Point::new(across.out(site.is_right, middle), y);
        marks.extend(label::write(
            &part.id,
            place,
            Anchor::Middle,
            outer - inner,
            2,
        ));
        marks
    }

    fn brake(&self, body: usize) -> Vec<Mark> {
        let (Some(part), Ok(unit)) = (
            self.arrangement.part(body),
            self.placed
                .units
                .binary_search_by_key(&body, |unit| unit.body),
        ) else {
            return Vec::new();
        };
        let unit = &self.placed.units[unit];
        let PartKind::Brake(brake) = &part.kind else {
            return Vec::new();
        };
        let is_right = unit.site.is_right;
        let cells = &self.arrangement.bodies[body].cells;
        let frame = symbol::Frame {
            corner: Point::new(self.routes.across.face(is_right), unit.top),
            is_right,
        };
        let mut marks = symbol::brake(brake, &unit.shape, frame, |nth| self.ink(cells[nth]));
        let numbers = self.numbers(body, &part.screws);
        for (edge, screws) in unit.shape.screws.iter().enumerate() {
            for (nth, screw) in screws.iter().enumerate() {
                let (centre, foot) = frame.screw(&unit.shape, edge, nth);
                let (step, circuit) = numbers[*screw];
                marks.push(symbol::screw(
                    &part.screws[*screw].id,
                    circuit,
                    foot,
                    centre,
                    step,
                ));
            }
        }
        let (outer, inward) = boxes::label_reach(unit.leads_on);
        let below = unit.shape.body
            + if unit.shape.screws[1].is_empty() {
                0.8
            } else {
                7.2
            }
            + 2.8;
        let anchor = if is_right { Anchor::End } else { Anchor::Start };
        let at = frame.at(outer, below);
        marks.extend(label::write(&part.id, at, anchor, outer + inward, 2));
        marks
    }
}

/// The way of a line, wavy where it is a hose and no other line is near.
fn way(route: &Route, is_hose: bool, stroke: Stroke) -> Path {
    let mut path = Path::line(&route.points[..1], stroke);
    let mut here = path.start;
    for to in &route.points[1..] {
        let lies_between = |place: &Point| {
            let is_between =
                |value: f64, a: f64, b: f64| value >= a.min(b) - 0.01 && value <= a.max(b) + 0.01;
            is_between(place.x, here.x, to.x) && is_between(place.y, here.y, to.y)
        };
        if let Some((a, b)) = route
            .free
            .filter(|(a, b)| is_hose && lies_between(a) && lies_between(b))
        {
            let far = |place: Point| (place.x - here.x).abs() + (place.y - here.y).abs();
            let (first, last) = if far(a) <= far(b) { (a, b) } else { (b, a) };
            path.segments.push(Segment::Line(first));
            path.segments.extend(waves_between(first, last));
        }
        path.segments.push(Segment::Line(*to));
        here = *to;
    }
    path
}

fn waves_between(from: Point, to: Point) -> Vec<Segment> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    let count = (length / 2.4).round().max(2.0);
    let along = |share: f64, swing: f64| {
        let (across_x, across_y) = (-dy / length * swing, dx / length * swing);
        from.moved(dx * share / count + across_x, dy * share / count + across_y)
    };
    (0..count as usize)
        .map(|nth| {
            let start = nth as f64;
            let swing = if nth % 2 == 0 { -1.2 } else { 1.2 };
            Segment::Curve(
                along(start + 0.36, swing),
                along(start + 0.64, swing),
                along(start + 1.0, 0.0),
            )
        })
        .collect()
}
