//! Places for the numbers of lines, each on its own line and off everything else; pieces where a hose may be wavy.

use super::super::frame::Frame;
use super::super::legend::half_tag;
use super::super::route::Route;
use super::grid::APART;
use crate::picture::Point;

/// Half the height of a number's frame.
const HALF_HEIGHT: f64 = 1.8;
/// Between a number and what is not its own.
const CLEAR: f64 = 0.3;
/// Half the width of the widest line: a part screwed in, a hose.
pub(super) const HALF_LINE: f64 = 1.1;
/// From one place that is tried to the next.
const STEP: f64 = 0.5;
/// A hose is not wavy over less.
const LEAST_WAVE: f64 = 4.0;
/// A number so far from the next bend is as good as any.
const FAR_ENOUGH: f64 = 8.0;

/// The number of a line: where it stands, and where it points at if that is not on the line.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Number {
    pub(super) at: Point,
    pub(super) pointed: Option<Point>,
    pub(super) half: f64,
}

impl Number {
    /// Around the number and its pointer.
    pub(super) fn frames(&self) -> impl Iterator<Item = Frame> + '_ {
        let pointer = self.pointed.map(|to| Frame::around(&[self.at, to]));
        std::iter::once(Frame::at(self.at, self.half, HALF_HEIGHT)).chain(pointer)
    }
}

/// A place for the number of a line along this way, off what is `taken` and off the pieces of other lines.
pub(super) fn number(
    line: usize,
    way: &[Point],
    taken: &[Frame],
    pieces: &[Frame],
) -> Option<Number> {
    let half = half_tag(&(line + 1).to_string());
    let others: Vec<Frame> = pieces.iter().map(|frame| frame.grown(HALF_LINE)).collect();
    let on_it = place(way, half, taken, &others).map(|place| (place, None));
    let found = on_it.or_else(|| place_beside(way, half, taken, &others));
    found.map(|(at, pointed)| Number { at, pointed, half })
}

/// Completes ways to routes, once all of them are known.
pub(super) fn routes(ways: &[Vec<Point>], numbers: &[Number], feeds: &[Vec<Point>]) -> Vec<Route> {
    let mut pieces: Vec<(usize, Frame)> = Vec::new();
    for (line, way) in ways.iter().chain(feeds).enumerate() {
        pieces.extend(way.windows(2).map(|pair| (line, Frame::around(pair))));
    }
    let numbered = ways.iter().zip(numbers).enumerate();
    numbered
        .map(|(line, (way, number))| Route {
            points: way.clone(),
            tag: number.at,
            pointed: number.pointed,
            free: free_piece(way, line, &pieces),
        })
        .collect()
}

fn place(way: &[Point], half: f64, taken: &[Frame], others: &[Frame]) -> Option<Point> {
    let mut best: Option<(f64, Point)> = None;
    for pair in way.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let length = dx.abs() + dy.abs();
        let steps = (length / STEP).ceil().max(1.0);
        for nth in 0..=steps as usize {
            let share = nth as f64 / steps;
            let place = pair[0].moved(dx * share, dy * share);
            let to_bend = length * share.min(1.0 - share);
            let worth = to_bend.min(FAR_ENOUGH) + length.min(40.0) / 40.0;
            if best.is_some_and(|(other, _)| other >= worth - 1e-9) {
                continue;
            }
            let frame = Frame::at(place, half, HALF_HEIGHT).grown(CLEAR);
            let is_free = |other: &Frame| !frame.overlaps(other);
            if taken.iter().all(is_free) && others.iter().all(is_free) {
                best = Some((worth, place));
            }
        }
    }
    best.map(|(_, place)| place)
}

/// A place beside a line, with the place on it that the number points at.
fn place_beside(
    way: &[Point],
    half: f64,
    taken: &[Frame],
    others: &[Frame],
) -> Option<(Point, Option<Point>)> {
    let own: Vec<Frame> = way
        .windows(2)
        .map(|pair| Frame::around(pair).grown(0.5))
        .collect();
    let mut best: Option<(f64, Point, Point)> = None;
    for pair in way.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let length = dx.abs() + dy.abs();
        let is_level = dx.abs() >= dy.abs();
        let least = CLEAR + 1.0 + if is_level { HALF_HEIGHT } else { half };
        let steps = (length / STEP).ceil().max(1.0);
        for nth in 0..=steps as usize {
            let share = nth as f64 / steps;
            let to = pair[0].moved(dx * share, dy * share);
            let off_middle = (share - 0.5).abs() * length.min(FAR_ENOUGH);
            for outward in [0.0, 1.0, 2.0, 4.0, 6.0].map(|more| least + more) {
                let cost = outward + off_middle / 4.0;
                if best.is_some_and(|(other, ..)| other <= cost + 1e-9) {
                    continue;
                }
                for way in [-outward, outward] {
                    let place = if is_level {
                        to.moved(0.0, way)
                    } else {
                        to.moved(way, 0.0)
                    };
                    let frame = Frame::at(place, half, HALF_HEIGHT).grown(CLEAR);
                    let pointer = Frame::around(&[place, to]).grown(CLEAR);
                    let is_free =
                        |other: &Frame| !frame.overlaps(other) && !pointer.overlaps(other);
                    let is_off_own = own.iter().all(|other| !frame.overlaps(other));
                    if is_off_own && taken.iter().all(is_free) && others.iter().all(is_free) {
                        best = Some((cost, place, to));
                    }
                }
            }
        }
    }
    best.map(|(_, place, to)| (place, Some(to)))
}

/// The longest straight piece that no other line crosses.
fn free_piece(way: &[Point], line: usize, pieces: &[(usize, Frame)]) -> Option<(Point, Point)> {
    let mut best: Option<(f64, Point, Point)> = None;
    for pair in way.windows(2) {
        let frame = Frame::around(pair);
        let is_level = frame.width() >= frame.height();
        let along = |point: Point| if is_level { point.x } else { point.y };
        let mut cuts: Vec<(f64, f64)> = pieces
            .iter()
            .filter(|(other, piece)| {
                *other != line && piece.grown(APART).overlaps(&frame.grown(0.1))
            })
            .map(|(_, piece)| {
                let piece = piece.grown(APART);
                if is_level {
                    (piece.left, piece.right)
                } else {
                    (piece.top, piece.bottom)
                }
            })
            .collect();
        let (a, b) = (along(pair[0]), along(pair[1]));
        let (first, last) = (a.min(b), a.max(b));
        cuts.push((last, last));
        cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut from = first;
        for (cut, end) in cuts {
            let room = cut.min(last) - from;
            if room >= LEAST_WAVE && best.is_none_or(|(other, ..)| room > other + 1e-9) {
                let at = |value: f64| {
                    if is_level {
                        Point::new(value, pair[0].y)
                    } else {
                        Point::new(pair[0].x, value)
                    }
                };
                best = Some((room, at(from), at(cut.min(last))));
            }
            from = from.max(end);
        }
    }
    best.map(|(_, from, to)| (from, to))
}
