//! Cylinders and parts as they are drawn.

use super::arrange::{Arrangement, Seat};
use super::measure::{COLUMN, CYLINDER_HEIGHT, HEAD_FOOT, LEADING, LETTER, LINE};
use super::route::row_of_joint;
use super::{Drawing, boxes, label, label_room, last_inlet, symbol};
use crate::ink::circuit_stroke;
use crate::picture::{Anchor, Group, Mark, Point, Text};
use bleedwright_network::{CircuitId, Owner, PartKind, ScrewId};
use std::collections::BTreeMap;

impl Drawing<'_, '_> {
    pub(super) fn body(&self, body: usize) -> Mark {
        let found = &self.arrangement.bodies[body];
        let marks = match (found.owner, found.seat) {
            (Owner::Cylinder(index, _), _) => self.cylinder(body, index),
            (_, Seat::Brake(_)) => self.brake(body),
            (_, Seat::Joint(_)) => self.joint(body),
            _ => self.core(body),
        };
        group(self.arrangement, body, marks)
    }

    fn cylinder(&self, body: usize, index: usize) -> Vec<Mark> {
        let network = self.arrangement.network;
        let (_, left, shape) = &self.placed.head[body];
        let corner = Point::new(self.routes.across.head + left, -HEAD_FOOT - CYLINDER_HEIGHT);
        let cells = &self.arrangement.bodies[body].cells;
        let cylinder = &network.layout().cylinders[index];
        let mut marks = symbol::cylinder(cylinder, shape, corner, |nth| self.pen.ink(cells[nth]));
        for (cell, shape) in cells.iter().zip(&shape.cells) {
            for (nth, id) in network.screws_on(*cell).enumerate() {
                let foot = corner.moved(
                    shape.left + 3.0 + boxes::SCREW_PITCH * nth as f64,
                    CYLINDER_HEIGHT - 0.6,
                );
                marks.push(self.pen.screw(id, foot, foot.moved(0.0, 3.9)));
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
            symbol::passages(part, &found.shape, top, |nth| self.pen.ink(cells[nth]))
        };
        for (cell, shape) in cells.iter().zip(&found.shape.cells) {
            let inlets = shape.inlets.iter().map(|inlet| inlet.1);
            let first = inlets.fold(shape.left + shape.width / 2.0, f64::min);
            for (nth, id) in self.arrangement.network.screws_on(*cell).enumerate() {
                let centre = top.moved(first - 5.4 - nth as f64 * boxes::SCREW_PITCH, -2.9);
                let foot = Point::new(centre.x.max(top.x + shape.left + 1.5), top.y + 1.0);
                marks.push(self.pen.screw(id, foot, centre));
            }
        }
        let at = top.moved(
            last_inlet(&found.shape) + 3.6,
            -1.3 - LEADING * (found.label_lines - 1) as f64,
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
        let mut marks = symbol::joint(word, at, self.pen.ink(cell));
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
        let y = at.y - 2.4 - LEADING * lines.len().saturating_sub(1) as f64;
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
        let mut marks = symbol::brake(brake, &unit.shape, frame, |nth| self.pen.ink(cells[nth]));
        let network = self.arrangement.network;
        let ids = cells.iter().flat_map(|cell| network.screws_on(*cell));
        let by_place: BTreeMap<usize, ScrewId> =
            ids.map(|id| (network.screw_place(id).nth, id)).collect();
        for (edge, screws) in unit.shape.screws.iter().enumerate() {
            for (nth, screw) in screws.iter().enumerate() {
                let (centre, foot) = frame.screw(&unit.shape, edge, nth);
                marks.push(self.pen.screw(by_place[screw], foot, centre));
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

/// The marks of a body with its name, its circuit and what it is.
pub(super) fn group(arrangement: &Arrangement<'_>, body: usize, marks: Vec<Mark>) -> Mark {
    let found = &arrangement.bodies[body];
    let network = arrangement.network;
    let (name, title) = match found.owner {
        Owner::Cylinder(index, _) => {
            let cylinder = &network.layout().cylinders[index];
            (&cylinder.id, cylinder.id.clone())
        }
        Owner::Part(index, _) => {
            let part = &network.layout().parts[index];
            (&part.id, format!("{}: {}", part.id, part.kind.text()))
        }
    };
    let circuit = network
        .circuit_of_cell(found.cells[0])
        .map(CircuitId::index);
    Group::new("part", marks)
        .named(name)
        .of(circuit)
        .titled(title)
        .into()
}
