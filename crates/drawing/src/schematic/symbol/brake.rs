//! Calipers, wheel cylinders and clutch slaves.

use super::super::boxes::UnitShape;
use super::super::measure::{BRAKE_WIDTH, SCREW};
use super::{BODY, rectangle};
use crate::ink::{Ink, Stroke};
use crate::picture::{Mark, Path, Point, Segment};
use bleedwright_network::{Brake, BrakeKind};

/// A place in a brake: so far outward from its inner face and so far down from its upper edge.
#[derive(Clone, Copy)]
pub(in super::super) struct Frame {
    pub(in super::super) corner: Point,
    pub(in super::super) is_right: bool,
}

impl Frame {
    pub(in super::super) fn at(self, outward: f64, down: f64) -> Point {
        self.corner
            .moved(if self.is_right { outward } else { -outward }, down)
    }

    /// A filled rectangle with an outline, from two opposite corners.
    fn area(self, from: (f64, f64), to: (f64, f64), fill: Ink) -> Mark {
        rectangle(self.at(from.0, from.1), self.at(to.0, to.1), fill)
    }

    /// The centre of a screw's circle and the foot of its stub.
    pub(in super::super) fn screw(
        self,
        shape: &UnitShape,
        edge: usize,
        nth: usize,
    ) -> (Point, Point) {
        let outward = 1.0 + SCREW + nth as f64 * (2.0 * SCREW + 0.6);
        let foot = outward.min(BRAKE_WIDTH - 3.0);
        if edge == 0 {
            (self.at(outward, -2.0 - SCREW), self.at(foot, 0.6))
        } else {
            (
                self.at(outward, shape.body + 2.0 + SCREW),
                self.at(foot, shape.body - 0.6),
            )
        }
    }
}

/// A brake; `ink` is the colour of the circuit of each cavity.
pub(in super::super) fn brake(
    brake: &Brake,
    shape: &UnitShape,
    frame: Frame,
    ink: impl Fn(usize) -> Ink,
) -> Vec<Mark> {
    match brake.kind {
        BrakeKind::Caliper { .. } => caliper(brake, shape, frame, ink),
        BrakeKind::WheelCylinder => wheel_cylinder(brake, shape, frame, ink),
        BrakeKind::ClutchSlave => clutch_slave(shape, frame, ink),
    }
}

/// A caliper cut open: fluid, pistons, pads, and the disc between them.
fn caliper(
    brake: &Brake,
    shape: &UnitShape,
    frame: Frame,
    ink: impl Fn(usize) -> Ink,
) -> Vec<Mark> {
    let mut marks = vec![frame.area((0.0, 0.0), (BRAKE_WIDTH, shape.body), Ink::WHITE)];
    let slot = shape.slot;
    for (nth, (top, height)) in shape.cavities.iter().copied().enumerate() {
        let is_above = top < slot;
        let (back, front) = if is_above {
            (top + 1.4, top + height)
        } else {
            (top + height - 1.4, top)
        };
        let step = if is_above { -4.4 } else { 4.4 };
        marks.push(frame.area(
            (0.0, back),
            (BRAKE_WIDTH - 1.5, front + step),
            ink(nth).thinned(),
        ));
        marks.push(frame.area((2.6, front + step), (BRAKE_WIDTH - 4.1, front), Ink::WHITE));
    }
    if brake.crossover.is_some() {
        // The drilling around the disc.
        let (first, last) = (shape.cavities[0].0 + 3.0, shape.body - 3.0);
        let way = [frame.at(1.2, first), frame.at(1.2, last)];
        marks.push(Path::line(&way, Stroke::solid(ink(0), 0.5)).into());
    }
    marks.push(frame.area(
        (4.6, slot + 0.9),
        (BRAKE_WIDTH + 5.5, slot + 2.1),
        Ink::PALE,
    ));
    for pad in [(slot, slot + 0.9), (slot + 2.1, slot + 3.0)] {
        marks.push(
            Path::polygon(
                &[
                    frame.at(3.2, pad.0),
                    frame.at(BRAKE_WIDTH - 2.6, pad.0),
                    frame.at(BRAKE_WIDTH - 2.6, pad.1),
                    frame.at(3.2, pad.1),
                ],
                Some(Ink::BLACK),
                None,
            )
            .into(),
        );
    }
    marks
}

/// A wheel cylinder with its pistons, and the drum around the outside.
fn wheel_cylinder(
    brake: &Brake,
    shape: &UnitShape,
    frame: Frame,
    ink: impl Fn(usize) -> Ink,
) -> Vec<Mark> {
    let height = shape.body;
    let drum = Path {
        start: frame.at(3.5, 0.0),
        segments: vec![Segment::Curve(
            frame.at(16.5, 0.0),
            frame.at(16.5, height),
            frame.at(3.5, height),
        )],
        closed: false,
        fill: None,
        stroke: Some(Stroke::solid(Ink::GREY, 0.9)),
    };
    let mut marks = vec![
        drum.into(),
        frame.area((0.0, 0.0), (7.0, height), ink(0).thinned()),
        frame.area((0.0, 0.0), (7.0, 2.2), Ink::WHITE),
    ];
    let pistons: u32 = brake
        .cavities
        .iter()
        .flat_map(|cavity| &cavity.pistons)
        .map(|piston| piston.count)
        .sum();
    if pistons > 1 {
        marks.push(frame.area((0.0, height - 2.2), (7.0, height), Ink::WHITE));
    }
    marks
}

/// A slave cylinder with its rod.
fn clutch_slave(shape: &UnitShape, frame: Frame, ink: impl Fn(usize) -> Ink) -> Vec<Mark> {
    let middle = shape.body / 2.0;
    vec![
        frame.area((0.0, 0.0), (9.0, shape.body), ink(0).thinned()),
        frame.area((6.2, 0.0), (9.0, shape.body), Ink::WHITE),
        Path::line(
            &[frame.at(9.0, middle), frame.at(14.5, middle)],
            Stroke::solid(Ink::BLACK, 0.8),
        )
        .into(),
        Path::line(
            &[frame.at(14.5, middle - 2.5), frame.at(14.5, middle + 2.5)],
            BODY,
        )
        .into(),
    ]
}
