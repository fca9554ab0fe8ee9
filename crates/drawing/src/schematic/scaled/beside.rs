//! A free place near others, for what has no place of its own.

use super::super::frame::Frame;
use super::sign::{Facing, Port, Sign};
use crate::picture::Point;

/// From one place that is tried to the next.
const STEP: f64 = 3.0;
/// So many of them to each side.
const REACH: i32 = 20;
/// Lines and names go between it and what it stands beside.
pub(super) const CLEAR: f64 = 4.2;
/// A line leaves straight before it bends.
const STRAIGHT: f64 = 3.0;

/// The sign at the free place, so far from everything `taken`, whose `length` of lines is least; nothing where none is free.
pub(super) fn beside(
    sign: &Sign,
    around: Point,
    taken: &[Frame],
    clear: f64,
    length: impl Fn(&Sign) -> f64,
) -> Option<Sign> {
    let mut places: Vec<(f64, Sign)> = Vec::new();
    for down in -REACH..=REACH {
        for right in -REACH..=REACH {
            let place = around.moved(f64::from(right) * STEP, f64::from(down) * STEP);
            let frame = {
                let centre = sign.frame.centre();
                sign.reach().moved(place.x - centre.x, place.y - centre.y)
            };
            if taken
                .iter()
                .all(|other| !frame.grown(clear).overlaps(other))
            {
                let moved = Sign {
                    marks: Vec::new(),
                    ..sign.clone()
                }
                .centred(place);
                places.push((length(&moved), moved));
            }
        }
    }
    let best = places
        .iter()
        .enumerate()
        .min_by(|(a, x), (b, y)| x.0.total_cmp(&y.0).then(a.cmp(b)))?;
    let at = best.1.1.frame.centre();
    Some(sign.clone().centred(at))
}

/// What it costs to lead a line around something.
const DETOUR: f64 = 30.0;
/// Where a straight line between two ports is looked at.
const LOOKS: u8 = 12;

/// How long a line between the nearest two of these ports is, with a guess for what lies between them.
pub(super) fn least_length<'p>(
    from: impl Iterator<Item = &'p Port>,
    to: &[&Port],
    taken: &[Frame],
) -> f64 {
    let mut least = f64::INFINITY;
    for a in from {
        for b in to {
            let (start, end) = (outward(a), outward(b));
            let bends =
                if a.facing.is_level() == b.facing.is_level() && (start.y - end.y).abs() > 1e-6 {
                    STRAIGHT
                } else {
                    0.0
                };
            let length = (start.x - end.x).abs() + (start.y - end.y).abs() + bends;
            if length >= least {
                continue;
            }
            let is_crossed = |frame: &&Frame| {
                (0..=LOOKS).any(|nth| {
                    let share = f64::from(nth) / f64::from(LOOKS);
                    let (dx, dy) = (end.x - start.x, end.y - start.y);
                    frame.holds(start.moved(dx * share, dy * share))
                })
            };
            let crossed = taken.iter().filter(is_crossed).count();
            least = least.min(length + DETOUR * crossed as f64);
        }
    }
    least
}

fn outward(port: &Port) -> Point {
    match port.facing {
        Facing::Up => port.at.moved(0.0, -STRAIGHT),
        Facing::Down => port.at.moved(0.0, STRAIGHT),
        Facing::Left => port.at.moved(-STRAIGHT, 0.0),
        Facing::Right => port.at.moved(STRAIGHT, 0.0),
    }
}
