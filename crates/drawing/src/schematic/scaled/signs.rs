//! The symbols of all bodies, each drawn for itself.

use super::super::arrange::Seat;
use super::super::boxes::{self, UnitShape};
use super::super::measure::{GRID, LINE};
use super::super::pen::Pen;
use super::super::symbol;
use super::lengthwise;
use super::sign::{Facing, Port, Serves, Sign};
use crate::ink::circuit_stroke;
use crate::picture::{Mark, Point};
use bleedwright_network::{CellId, CircuitId, Owner, PartKind};

/// How high the box of a valve is.
const PASSAGE_HEIGHT: f64 = 9.0;

/// The symbol of each body, in the order of bodies.
pub(super) fn signs(pen: &Pen<'_, '_>) -> Vec<Sign> {
    let mut units = vec![None; pen.arrangement.bodies.len()];
    for unit in pen.arrangement.sites.values().flatten() {
        units[unit.body] = Some(unit);
    }
    (0..pen.arrangement.bodies.len())
        .map(|body| {
            let found = &pen.arrangement.bodies[body];
            match (found.owner, found.seat, units[body]) {
                (Owner::Cylinder(index, _), ..) => lengthwise::cylinder(pen, body, index),
                (_, Seat::Brake(site), Some(unit)) => brake(pen, unit, site.is_right),
                _ if pen.arrangement.is_junction(body) => junction(pen, body),
                _ => valve(pen, body),
            }
        })
        .collect()
}

fn brake(pen: &Pen<'_, '_>, unit: &super::super::arrange::Unit, is_right: bool) -> Sign {
    let part = pen.arrangement.part(unit.body).expect("a brake is a part");
    let PartKind::Brake(brake) = &part.kind else {
        unreachable!("only brakes stand at wheels");
    };
    let shape = UnitShape::of(unit, part);
    let cells = &pen.arrangement.bodies[unit.body].cells;
    let frame = symbol::Frame {
        corner: Point::default(),
        is_right,
    };
    let mut marks = symbol::brake(brake, &shape, frame, |nth| pen.ink(cells[nth]));
    let numbers = pen.numbers(unit.body, &part.screws);
    for (edge, screws) in shape.screws.iter().enumerate() {
        for (nth, screw) in screws.iter().enumerate() {
            let (centre, foot) = frame.screw(&shape, edge, nth);
            let (step, circuit) = numbers[*screw];
            let name = &part.screws[*screw].id;
            marks.push(symbol::screw(name, circuit, foot, centre, step));
        }
    }
    let facing = if is_right {
        Facing::Left
    } else {
        Facing::Right
    };
    let ports = unit
        .entries
        .iter()
        .zip(&shape.rows)
        .map(|(entry, row)| Port {
            at: Point::new(0.0, *row),
            facing,
            serves: Serves::Wire(entry.wire),
        });
    Sign::new(&part.id, marks, ports.collect())
}

/// Lines may end at a dot, a ring or a small box from all four sides; where more lines end there are more dots.
fn junction(pen: &Pen<'_, '_>, body: usize) -> Sign {
    let part = pen.arrangement.part(body).expect("a junction is a part");
    let PartKind::Junction { word } = &part.kind else {
        unreachable!("it was asked whether it is one");
    };
    let cell = pen.arrangement.bodies[body].cells[0];
    let lines = lines_at(pen, cell);
    let rows = lines.saturating_sub(2).div_ceil(2).max(1);
    let mut marks = if rows == 1 {
        symbol::joint(word, Point::default(), pen.ink(cell))
    } else {
        let dots: Vec<f64> = (0..rows).map(|row| GRID * row as f64).collect();
        let circuit = pen.arrangement.network.circuit_of_cell(cell);
        let stroke = circuit_stroke(circuit.map_or(0, CircuitId::index), LINE);
        let height = GRID * (rows + 1) as f64;
        symbol::junction(word, Point::new(0.0, -GRID), height, &dots, stroke)
    };
    let last = GRID * (rows - 1) as f64;
    let first = if rows == 1 { 0.0 } else { -GRID };
    let port = |x: f64, y: f64, facing: Facing| Port {
        at: Point::new(x, y),
        facing,
        serves: Serves::Cell(cell),
    };
    let mut ports = vec![port(0.0, first, Facing::Up), port(0.0, last, Facing::Down)];
    for row in 0..rows {
        let y = GRID * row as f64;
        ports.extend([port(0.0, y, Facing::Left), port(0.0, y, Facing::Right)]);
    }
    for (nth, id) in pen.arrangement.network.screws_on(cell).enumerate() {
        let centre = Point::new(-5.4 - nth as f64 * boxes::SCREW_PITCH, first - 2.9);
        marks.push(pen.screw(id, Point::new(-0.6, first), centre));
    }
    Sign::new(&part.id, marks, ports)
}

fn lines_at(pen: &Pen<'_, '_>, cell: CellId) -> usize {
    let arrangement = pen.arrangement;
    arrangement.leading_on[cell.index()].len() + arrangement.ending[cell.index()].len()
}

fn valve(pen: &Pen<'_, '_>, body: usize) -> Sign {
    let Some(part) = pen.arrangement.part(body) else {
        return Sign::new("", Vec::new(), Vec::new());
    };
    let cells = &pen.arrangement.bodies[body].cells;
    let shape = pen.arrangement.core_shape(body);
    let top = Point::default();
    let mut marks: Vec<Mark> = symbol::passages(part, &shape, top, |nth| pen.ink(cells[nth]));
    let mut ports = Vec::new();
    for (cell, shape) in cells.iter().zip(&shape.cells) {
        let ends = [
            (&shape.inlets, 0.0, Facing::Up),
            (&shape.outlets, PASSAGE_HEIGHT, Facing::Down),
        ];
        for (wires, y, facing) in ends {
            ports.extend(wires.iter().map(|(wire, x)| Port {
                at: Point::new(*x, y),
                facing,
                serves: Serves::Wire(*wire),
            }));
        }
        let inlets = shape.inlets.iter().map(|inlet| inlet.1);
        let first = inlets.fold(shape.left + shape.width / 2.0, f64::min);
        for (nth, id) in pen.arrangement.network.screws_on(*cell).enumerate() {
            let centre = Point::new(first - 5.4 - nth as f64 * boxes::SCREW_PITCH, -2.9);
            let foot = Point::new(centre.x.max(shape.left + 1.5), 1.0);
            marks.push(pen.screw(id, foot, centre));
        }
    }
    Sign::new(&part.id, marks, ports)
}
