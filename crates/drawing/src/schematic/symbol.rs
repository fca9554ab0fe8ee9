//! Symbols in the manner of ISO 1219-1 ([ISO1219](crate#sources)), as far as it knows the parts of brakes.

mod brake;
mod cylinder;
mod junction;
mod valve;

pub(super) use brake::{Frame, brake};
pub(super) use cylinder::cylinder;
pub(super) use junction::{joint, junction};
pub(super) use valve::passages;

use super::measure::{LETTER, OUTLINE, SCREW};
use crate::ink::{Ink, Stroke};
use crate::picture::{Anchor, Circle, Group, Mark, Path, Point, Segment, Text};

/// The outline of parts.
pub(super) const BODY: Stroke = Stroke::solid(Ink::BLACK, OUTLINE);

/// A filled rectangle with an outline, from two opposite corners.
pub(super) fn rectangle(a: Point, b: Point, fill: Ink) -> Mark {
    let corner = Point::new(a.x.min(b.x), a.y.min(b.y));
    Path::rectangle(
        corner,
        (a.x - b.x).abs(),
        (a.y - b.y).abs(),
        Some(fill),
        Some(BODY),
    )
    .into()
}

/// A dot where lines are joined.
pub(super) fn dot(centre: Point, ink: Ink) -> Mark {
    Circle::filled(centre, 0.95, ink).into()
}

/// A spring as a zigzag from one place to the other.
pub(super) fn spring(from: Point, to: Point) -> Mark {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy).max(0.1);
    let (across_x, across_y) = (-dy / length, dx / length);
    let count = 5_u8;
    let mut points = vec![from];
    for nth in 0..count {
        let share = (f64::from(nth) + 0.5) / f64::from(count);
        let swing = if nth % 2 == 0 { 0.9 } else { -0.9 };
        points.push(from.moved(dx * share + across_x * swing, dy * share + across_y * swing));
    }
    points.push(to);
    Path::line(&points, Stroke::solid(Ink::BLACK, 0.22)).into()
}

/// An arrow from one place to the other, along an axis.
pub(super) fn arrow(from: Point, to: Point, ink: Ink) -> Vec<Mark> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy).max(0.1);
    let (dx, dy) = (dx / length, dy / length);
    let back = to.moved(-dx * 1.7, -dy * 1.7);
    let head = [
        to,
        back.moved(-dy * 0.75, dx * 0.75),
        back.moved(dy * 0.75, -dx * 0.75),
    ];
    vec![
        Path::line(&[from, back], Stroke::solid(ink, 0.35)).into(),
        Path::polygon(&head, Some(ink), None).into(),
    ]
}

/// A pressure accumulator: a capsule with a membrane.
pub(super) fn accumulator(corner: Point) -> Mark {
    let (width, height, round) = (3.6, 7.0, 1.8);
    let at = |x: f64, y: f64| corner.moved(x, y);
    let outline = Path {
        start: at(0.0, round),
        segments: vec![
            Segment::Curve(at(0.0, -0.6), at(width, -0.6), at(width, round)),
            Segment::Line(at(width, height - round)),
            Segment::Curve(
                at(width, height + 0.6),
                at(0.0, height + 0.6),
                at(0.0, height - round),
            ),
        ],
        closed: true,
        fill: Some(Ink::WHITE),
        stroke: Some(BODY),
    };
    let membrane = Path::line(&[at(0.0, height / 2.0), at(width, height / 2.0)], BODY);
    Group::new("accumulator", vec![outline.into(), membrane.into()])
        .titled("pressure accumulator".to_owned())
        .into()
}

/// A screw as a circle on a stub: full with the number of its step, hollow where the plan leaves it shut.
pub(super) fn screw(
    name: &str,
    circuit: Option<usize>,
    foot: Point,
    centre: Point,
    step: Option<usize>,
) -> Mark {
    let corner = Point::new(centre.x, foot.y);
    let mut marks: Vec<Mark> = vec![Path::line(&[corner, centre], BODY).into()];
    if (corner.x - foot.x).abs() > 0.01 {
        marks.push(Path::line(&[corner, foot], BODY).into());
    }
    let (fill, title) = match step {
        Some(number) => (Ink::BLACK, format!("{name}: step {number}")),
        None => (Ink::WHITE, format!("{name}: stays shut")),
    };
    marks.push(Circle::filled(centre, SCREW, fill).outlined(BODY).into());
    if let Some(number) = step {
        let at = centre.moved(0.0, 0.95);
        let text = Text::new(at, LETTER, &number.to_string())
            .anchored(Anchor::Middle)
            .bold()
            .inked(Ink::WHITE);
        marks.push(text.into());
    }
    Group::new("screw", marks)
        .named(name)
        .of(circuit)
        .titled(title)
        .into()
}
