//! Tees, blocks and unions.

use super::{BODY, dot, rectangle};
use crate::ink::{Ink, Stroke};
use crate::picture::{Circle, Mark, Path, Point};

/// A junction of the middle column: lines enter at the top and leave at the ports.
pub(in super::super) fn junction(
    word: &str,
    top: Point,
    height: f64,
    ports: &[f64],
    stroke: Stroke,
) -> Vec<Mark> {
    let last = ports.iter().copied().fold(top.y + 3.0, f64::max);
    let mut marks = Vec::new();
    if word == "block" {
        marks.push(rectangle(
            top.moved(-3.0, 0.0),
            top.moved(3.0, height),
            Ink::WHITE,
        ));
    }
    let solid = Stroke {
        pattern: crate::Pattern::Solid,
        ..stroke
    };
    marks.push(Path::line(&[top, Point::new(top.x, last)], solid).into());
    if word == "union" && ports.len() < 2 {
        marks.extend(union(Point::new(top.x, top.y + 3.0)));
        return marks;
    }
    if ports.is_empty() {
        marks.push(dot(Point::new(top.x, last), stroke.ink));
    }
    let mut dots: Vec<f64> = ports.to_vec();
    dots.sort_by(f64::total_cmp);
    dots.dedup();
    marks.extend(
        dots.into_iter()
            .map(|y| dot(Point::new(top.x, y), stroke.ink)),
    );
    marks
}

/// A junction beside a wheel.
pub(in super::super) fn joint(word: &str, at: Point, ink: Ink) -> Vec<Mark> {
    match word {
        "union" => union(at),
        "block" => {
            vec![
                rectangle(at.moved(-1.8, -1.8), at.moved(1.8, 1.8), Ink::WHITE),
                dot(at, ink),
            ]
        }
        _ => vec![dot(at, ink)],
    }
}

/// Two ends screwed together.
fn union(at: Point) -> Vec<Mark> {
    vec![Circle::filled(at, 1.15, Ink::WHITE).outlined(BODY).into()]
}
