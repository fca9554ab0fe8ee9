//! Valves and anti-lock units: a box for each passage.

use super::super::boxes::Shape;
use super::{BODY, accumulator, arrow, rectangle, spring};
use crate::ink::{Ink, Stroke};
use crate::picture::{Circle, Mark, Path, Point};
use bleedwright_network::{Part, PartKind, ValveKind};

/// How high a box is.
const HEIGHT: f64 = 9.0;

/// A valve or an anti-lock unit; `top` is the middle of its upper edge, `ink` the colour of each passage.
pub(in super::super) fn passages(
    part: &Part,
    shape: &Shape,
    top: Point,
    ink: impl Fn(usize) -> Ink,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let last = shape.cells.len().saturating_sub(1);
    for (nth, cell) in shape.cells.iter().enumerate() {
        let corner = top.moved(cell.left, 0.0);
        marks.push(rectangle(
            corner,
            corner.moved(cell.width, HEIGHT),
            Ink::WHITE,
        ));
        let middle = corner.moved(cell.width / 2.0, 0.0);
        match &part.kind {
            PartKind::Valve(valve) => marks.extend(sign(valve.kind, middle, ink(nth))),
            _ => marks.extend(anti_lock(middle, ink(nth))),
        }
        for (ports, y, inward) in [(&cell.inlets, 0.0, 1.1), (&cell.outlets, HEIGHT, -1.1)] {
            for (_, x) in ports
                .iter()
                .filter(|(_, x)| (top.x + x - middle.x).abs() > 0.01)
            {
                let port = top.moved(*x, y);
                let bend = [
                    port,
                    port.moved(0.0, inward),
                    Point::new(middle.x, port.y + inward),
                ];
                marks.push(Path::line(&bend, Stroke::solid(ink(nth), 0.35)).into());
            }
        }
        let edge = corner.moved(cell.width, 0.0);
        match &part.kind {
            PartKind::Valve(valve) if nth == last => marks.extend(setting(valve.kind, edge)),
            PartKind::Valve(valve) if valve.kind == ValveKind::DifferentialSwitch => {
                // The piston that moves when one side loses pressure.
                marks.push(rectangle(
                    edge.moved(-2.0, 3.2),
                    edge.moved(2.0, 5.8),
                    Ink::PALE,
                ));
            }
            _ => {}
        }
    }
    if part.accumulator.is_some() {
        let right = shape
            .cells
            .last()
            .map_or(0.0, |cell| cell.left + cell.width);
        marks.push(accumulator(top.moved(right + 5.5, 1.0)));
    }
    marks
}

/// What a passage does, inside its box.
fn sign(kind: ValveKind, top: Point, ink: Ink) -> Vec<Mark> {
    let line =
        |a: Point, b: Point| -> Mark { Path::line(&[a, b], Stroke::solid(ink, 0.35)).into() };
    match kind {
        ValveKind::Check | ValveKind::Residual => {
            let seat = [
                top.moved(-2.0, 5.6),
                top.moved(0.0, 3.0),
                top.moved(2.0, 5.6),
            ];
            vec![
                line(top, top.moved(0.0, 3.0)),
                Path::line(&seat, BODY).into(),
                Circle::filled(top.moved(0.0, 5.3), 1.1, Ink::WHITE)
                    .outlined(BODY)
                    .into(),
                line(top.moved(0.0, 6.4), top.moved(0.0, HEIGHT)),
            ]
        }
        ValveKind::DifferentialSwitch => {
            vec![line(top.moved(0.0, 1.1), top.moved(0.0, HEIGHT - 1.1))]
        }
        ValveKind::PressureLimiting => {
            let mut marks = arrow(top.moved(0.0, 1.0), top.moved(0.0, 7.4), ink);
            marks.push(Path::line(&[top.moved(-1.6, 7.7), top.moved(1.6, 7.7)], BODY).into());
            marks
        }
        ValveKind::Metering => {
            let mut marks = arrow(top.moved(0.0, 1.6), top.moved(0.0, 8.0), ink);
            marks.push(Path::line(&[top.moved(-1.6, 1.3), top.moved(1.6, 1.3)], BODY).into());
            marks
        }
        ValveKind::Proportioning | ValveKind::LoadSensing => {
            arrow(top.moved(0.0, 1.0), top.moved(0.0, 8.0), ink)
        }
    }
}

/// What sets it, at the right edge of the last box; `edge` is its upper corner.
fn setting(kind: ValveKind, edge: Point) -> Vec<Mark> {
    let (from, to) = (edge.moved(0.0, 4.5), edge.moved(4.2, 4.5));
    match kind {
        ValveKind::Check | ValveKind::DifferentialSwitch => Vec::new(),
        ValveKind::LoadSensing => vec![
            spring(from, to),
            Circle::filled(to.moved(1.1, 0.0), 1.1, Ink::WHITE)
                .outlined(BODY)
                .into(),
        ],
        _ => vec![spring(from, to)],
    }
}

/// A pump with its triangle: what drives fluid in a unit by itself.
fn anti_lock(top: Point, ink: Ink) -> Vec<Mark> {
    let centre = top.moved(0.0, HEIGHT / 2.0);
    let triangle = [
        centre.moved(-1.3, 0.6),
        centre.moved(1.3, 0.6),
        centre.moved(0.0, 2.6),
    ];
    vec![
        Path::line(
            &[top.moved(0.0, 1.1), top.moved(0.0, HEIGHT - 1.1)],
            Stroke::solid(ink, 0.35),
        )
        .into(),
        Circle::filled(centre, 2.7, Ink::WHITE)
            .outlined(BODY)
            .into(),
        Path::polygon(&triangle, Some(ink), None).into(),
    ]
}
