//! A master cylinder along the vehicle, its pedal toward the rear: the symbol of the automatic layout, turned.

use super::super::boxes::{CellShape, SCREW_PITCH};
use super::super::frame::Frame;
use super::super::measure::{CYLINDER_HEIGHT, ROD};
use super::super::pen::Pen;
use super::super::symbol;
use super::sign::{Facing, Port, Serves, Sign};
use crate::picture::{Mark, Point, Segment};

/// The symbol is so much shorter than the one that lies across.
const ALONG: f64 = 0.62;
/// Pedal and booster are so much narrower, so that they are hardly wider than the chambers.
const NARROWER: f64 = 0.85;
/// From one port of a chamber to the next.
const PITCH: f64 = 3.6;
/// What the piston takes of a chamber's length.
const PISTON: f64 = 2.6;

pub(super) fn cylinder(pen: &Pen<'_, '_>, body: usize, index: usize) -> Sign {
    let arrangement = pen.arrangement;
    let network = arrangement.network;
    let cylinder = &network.layout().cylinders[index];
    let cells = &arrangement.bodies[body].cells;
    let mut shape = arrangement.cylinder_shape(body);
    // Feeds end at the sides too, so that a chamber with many lines is longer here.
    let mut left = shape.cells.first().map_or(0.0, |cell| cell.left);
    for cell in &mut shape.cells {
        let ports = (cell.outlets.len() + 1) as f64;
        let width = cell.width.max((PITCH * ports + 2.0) / ALONG + PISTON);
        *cell = CellShape {
            left,
            width,
            ..cell.clone()
        };
        left += width;
    }
    shape.width = left;
    let corner = Point::default();
    let mut marks = symbol::rod(cylinder, corner);
    for (nth, cell) in shape.cells.iter().enumerate() {
        let ink = pen.ink(cells[nth]);
        marks.extend(symbol::chamber(cell, corner, CYLINDER_HEIGHT / 2.0, ink));
    }
    marks.extend(symbol::booster(cylinder, corner));
    let mut marks: Vec<Mark> = marks.into_iter().map(turned).collect();
    let mut ports = Vec::new();
    for (cell, shape) in cells.iter().zip(&shape.cells) {
        let length = (shape.width - PISTON) * ALONG;
        let rows = ((length - 2.0) / PITCH).floor().max(0.0) as usize + 1;
        let middle = shape.left + PISTON + (shape.width - PISTON) / 2.0;
        for (y, facing) in [(0.0, Facing::Left), (CYLINDER_HEIGHT, Facing::Right)] {
            for row in 0..rows {
                let along = (row as f64 - (rows - 1) as f64 / 2.0) * PITCH;
                ports.push(Port {
                    at: turned_point(Point::new(middle, y)).moved(0.0, along),
                    facing,
                    serves: Serves::Cell(*cell),
                });
            }
        }
        for (nth, id) in network.screws_on(*cell).enumerate() {
            let along = shape.left + 5.0 + SCREW_PITCH / ALONG * nth as f64;
            let foot = turned_point(Point::new(along, CYLINDER_HEIGHT)).moved(-0.6, 0.0);
            marks.push(pen.screw(id, foot, foot.moved(3.9, 0.0)));
        }
    }
    let mut sign = Sign::new(&cylinder.id, marks, ports);
    // The names of chambers stand beside them, where there is room.
    let chambers = cylinder.chambers.iter().zip(&shape.cells);
    sign.chambers = chambers
        .map(|(chamber, cell)| {
            let ends = [
                turned_point(Point::new(cell.left, 0.0)),
                turned_point(Point::new(cell.left + cell.width, CYLINDER_HEIGHT)),
            ];
            (chamber.port.to_owned(), Frame::around(&ends))
        })
        .filter(|(port, _)| !port.is_empty())
        .collect();
    sign
}

/// A quarter to the left, shorter; what presses the chambers is narrower too.
fn turned_point(place: Point) -> Point {
    let across = if place.x >= ROD { 1.0 } else { NARROWER };
    Point::new((place.y - CYLINDER_HEIGHT / 2.0) * across, -place.x * ALONG)
}

/// Words stay level, circles round.
fn turned(mut mark: Mark) -> Mark {
    match &mut mark {
        Mark::Path(path) => {
            path.start = turned_point(path.start);
            for segment in &mut path.segments {
                *segment = match *segment {
                    Segment::Line(to) => Segment::Line(turned_point(to)),
                    Segment::Curve(a, b, to) => {
                        Segment::Curve(turned_point(a), turned_point(b), turned_point(to))
                    }
                };
            }
        }
        Mark::Circle(circle) => circle.centre = turned_point(circle.centre),
        Mark::Text(text) => {
            // From its base line to the middle of its letters and back.
            let rise = 0.37 * text.size_mm;
            text.at = turned_point(text.at.moved(0.0, -rise)).moved(0.0, rise);
        }
        Mark::Group(group) => {
            let marks = std::mem::take(&mut group.marks);
            group.marks = marks.into_iter().map(turned).collect();
        }
    }
    mark
}
