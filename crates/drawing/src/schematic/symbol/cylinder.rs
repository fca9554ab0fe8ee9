//! Master cylinders, with what presses them.

use super::super::boxes::{CellShape, Shape};
use super::super::label;
use super::super::measure::{CYLINDER_HEIGHT, LETTER, ROD};
use super::{BODY, accumulator, rectangle, spring};
use crate::ink::{Ink, Stroke};
use crate::picture::{Anchor, Circle, Mark, Path, Point, Text};
use bleedwright_network::{BoosterKind, Control, Cylinder};

/// A cylinder; `corner` is its upper left corner, rod included.
pub(in super::super) fn cylinder(
    cylinder: &Cylinder,
    shape: &Shape,
    corner: Point,
    ink: impl Fn(usize) -> Ink,
) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner.moved(x, y);
    let mut marks = rod(cylinder, corner);
    for (nth, cell) in shape.cells.iter().enumerate() {
        let (left, right) = (cell.left, cell.left + cell.width);
        marks.extend(chamber(cell, corner, CYLINDER_HEIGHT / 2.0 + 3.2, ink(nth)));
        let port = cylinder
            .chambers
            .get(nth)
            .map_or("", |chamber| chamber.port);
        let text = Text::new(at(f64::midpoint(left + 2.6, right), 5.0), LETTER, port);
        marks.push(
            text.anchored(Anchor::Middle)
                .within(cell.width - 3.6)
                .into(),
        );
    }
    marks.extend(booster(cylinder, corner));
    let name = Point::new(corner.x, corner.y + CYLINDER_HEIGHT + 4.0);
    marks.extend(label::write(
        &cylinder.id,
        name,
        Anchor::Start,
        ROD - 0.5,
        2,
    ));
    marks
}

/// A chamber with its piston and its spring, which lies so far below the cylinder's upper edge.
pub(in super::super) fn chamber(
    cell: &CellShape,
    corner: Point,
    spring_at: f64,
    ink: Ink,
) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner.moved(x, y);
    let (left, right) = (cell.left, cell.left + cell.width);
    vec![
        rectangle(at(left, 0.0), at(right, CYLINDER_HEIGHT), ink.thinned()),
        rectangle(at(left, 0.0), at(left + 2.6, CYLINDER_HEIGHT), Ink::WHITE),
        spring(at(left + 2.6, spring_at), at(right, spring_at)),
    ]
}

/// The rod with the pedal or the lever; `corner` as for the whole.
pub(in super::super) fn rod(cylinder: &Cylinder, corner: Point) -> Vec<Mark> {
    let middle = CYLINDER_HEIGHT / 2.0;
    let rod = [corner.moved(5.0, middle), corner.moved(ROD, middle)];
    let mut marks = vec![Path::line(&rod, Stroke::solid(Ink::BLACK, 0.8)).into()];
    marks.extend(control(cylinder.control, corner));
    marks
}

/// The booster, if there is one; `corner` as for the whole.
pub(in super::super) fn booster(cylinder: &Cylinder, corner: Point) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner.moved(x, y);
    let mut marks = Vec::new();
    if let Some(booster) = &cylinder.booster {
        marks.push(rectangle(
            at(10.0, -2.0),
            at(ROD - 2.0, CYLINDER_HEIGHT + 1.0),
            Ink::WHITE,
        ));
        let centre = at(16.0, 5.5);
        marks.extend(drive(booster.kind, centre));
        if booster.accumulator.is_some() {
            marks.push(accumulator(at(4.8, -3.4)));
        }
    }
    marks
}

/// What the driver presses.
fn control(control: Control, corner: Point) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner.moved(x, y);
    let thick = Stroke::solid(Ink::BLACK, 0.8);
    match control {
        Control::Pedal => vec![
            Path::line(&[at(5.0, -2.5), at(5.0, 6.0), at(1.5, 12.0)], thick).into(),
            Path::line(
                &[at(0.2, 10.6), at(3.2, 12.9)],
                Stroke::solid(Ink::BLACK, 1.2),
            )
            .into(),
        ],
        // The shaft of a drawbar with the cup of its coupling.
        Control::Coupler => vec![
            Path::line(&[at(5.0, 6.0), at(1.0, 6.0)], thick).into(),
            Path::line(&[at(1.0, 3.5), at(1.0, 8.5), at(-0.8, 8.5)], thick).into(),
        ],
        Control::HandLever => vec![
            Path::line(&[at(5.0, 12.0), at(5.0, 4.0), at(3.0, -2.5)], thick).into(),
            Circle::filled(at(2.8, -2.8), 1.2, Ink::BLACK).into(),
        ],
    }
}

/// Where the booster's force comes from.
fn drive(kind: BoosterKind, centre: Point) -> Vec<Mark> {
    let line = |a: (f64, f64), b: (f64, f64)| -> Mark {
        Path::line(&[centre.moved(a.0, a.1), centre.moved(b.0, b.1)], BODY).into()
    };
    match kind {
        BoosterKind::Vacuum => vec![
            line((0.0, -7.5), (0.0, -2.0)),
            line((0.0, 2.0), (0.0, 7.5)),
            line((0.0, -2.0), (2.0, 0.0)),
            line((2.0, 0.0), (0.0, 2.0)),
        ],
        BoosterKind::Hydraulic => {
            let triangle = [
                centre.moved(-2.2, -2.4),
                centre.moved(2.2, 0.0),
                centre.moved(-2.2, 2.4),
            ];
            vec![Path::polygon(&triangle, Some(Ink::BLACK), None).into()]
        }
        BoosterKind::Electric => vec![
            Circle::filled(centre, 3.0, Ink::WHITE)
                .outlined(BODY)
                .into(),
            Text::new(centre.moved(0.0, 1.0), LETTER, "M")
                .anchored(Anchor::Middle)
                .into(),
        ],
    }
}
