//! Which bodies stand at their positions, and which beside what carries them.

use super::super::arrange::Arrangement;
use super::why::Why;
use crate::picture::Point;
use bleedwright_network::{LineKind, Owner, Position};
use uom::si::length::meter;

/// What is screwed straight onto another body has no place of its own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rider {
    pub(super) body: usize,
    pub(super) carrier: usize,
    /// The direct line between them.
    pub(super) wire: usize,
}

/// Where everything stands.
#[derive(Debug)]
pub(super) struct Seats {
    /// The place of each body in metres, as seen from above with the front up; nothing for riders.
    pub(super) places: Vec<Option<Point>>,
    /// Carriers before their riders.
    pub(super) riders: Vec<Rider>,
}

/// A sheet of A4 with letters of 2.4 mm holds no more bodies that can be told apart: each takes 8 cm² with its name,
/// its number and the lines around it. This also bounds the time that a picture to scale takes.
const MOST_BODIES: usize = 64;

impl Seats {
    pub(super) fn new(arrangement: &Arrangement<'_>) -> Result<Self, Why> {
        let count = arrangement.bodies.len();
        let places: Vec<Option<Point>> = (0..count)
            .map(|body| position(arrangement, body).map(seen_from_above))
            .collect();
        if places.iter().all(Option::is_none) {
            return Err(Why::NoPositions);
        }
        let riders = riders(arrangement, &places);
        let mut is_seated: Vec<bool> = places.iter().map(Option::is_some).collect();
        for rider in &riders {
            is_seated[rider.body] = true;
        }
        if let Some(body) = is_seated.iter().position(|is_seated| !is_seated) {
            return Err(Why::NoPosition(name(arrangement, body).to_owned()));
        }
        if count > MOST_BODIES {
            return Err(Why::TooMany(count));
        }
        Ok(Self { places, riders })
    }

    /// The larger one of length and width of what has a place, in metres.
    pub(super) fn extent_m(&self) -> f64 {
        let places = || self.places.iter().flatten();
        let span = |value: fn(&Point) -> f64| {
            let (least, most) = places().fold((f64::INFINITY, f64::NEG_INFINITY), |ends, place| {
                (ends.0.min(value(place)), ends.1.max(value(place)))
            });
            most - least
        };
        span(|place| place.x).max(span(|place| place.y))
    }
}

/// Bodies without a position that a direct line joins to one with a position, or to another rider.
fn riders(arrangement: &Arrangement<'_>, places: &[Option<Point>]) -> Vec<Rider> {
    let mut joined: Vec<Vec<(usize, usize)>> = vec![Vec::new(); places.len()];
    for (wire, found) in arrangement.wires.iter().enumerate() {
        let line = &arrangement.network.layout().lines[found.line];
        if matches!(line.kind, LineKind::Direct) {
            let [near, far] =
                [found.near, found.far].map(|cell| arrangement.body_of_cell[cell.index()]);
            joined[near].push((far, wire));
            joined[far].push((near, wire));
        }
    }
    let mut is_seated: Vec<bool> = places.iter().map(Option::is_some).collect();
    let mut open: Vec<usize> = (0..places.len()).filter(|body| is_seated[*body]).collect();
    let mut riders = Vec::new();
    let mut next = 0;
    while let Some(carrier) = open.get(next).copied() {
        next += 1;
        for (body, wire) in &joined[carrier] {
            if !std::mem::replace(&mut is_seated[*body], true) {
                riders.push(Rider {
                    body: *body,
                    carrier,
                    wire: *wire,
                });
                open.push(*body);
            }
        }
    }
    riders
}

fn position(arrangement: &Arrangement<'_>, body: usize) -> Option<Position> {
    let layout = arrangement.network.layout();
    match arrangement.bodies[body].owner {
        Owner::Cylinder(index, _) => layout.cylinders[index].position,
        Owner::Part(index, _) => layout.parts[index].position,
    }
}

/// Forward is up, to the left is to the left (axes of ISO 8855, seen from above).
fn seen_from_above(position: Position) -> Point {
    let (x, y) = (position.x.nominal, position.y.nominal);
    Point::new(-y.get::<meter>(), -x.get::<meter>())
}

pub(super) fn name<'n>(arrangement: &Arrangement<'n>, body: usize) -> &'n str {
    let layout = arrangement.network.layout();
    match arrangement.bodies[body].owner {
        Owner::Cylinder(index, _) => &layout.cylinders[index].id,
        Owner::Part(index, _) => &layout.parts[index].id,
    }
}
