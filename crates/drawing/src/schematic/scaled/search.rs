//! One round of searching ways, one after the other; each takes its place and that of its number from those after it.

use super::super::frame::Frame;
use super::finder::{Finder, Gate};
use super::grid::Grid;
use super::numbers::{Number, number};
use super::ways::{Exit, Job};
use crate::picture::Point;

pub(super) struct Search<'s> {
    pub(super) exits: &'s [Exit],
    /// The place on the grid of each exit.
    pub(super) gates: &'s [Gate],
    pub(super) grid: Grid,
    pub(super) finder: &'s mut Finder,
    /// Symbols, names and numbers.
    pub(super) taken: Vec<Frame>,
    /// Straight pieces of the ways found.
    pub(super) pieces: Vec<Frame>,
    /// Which exits have their line.
    pub(super) is_used: Vec<bool>,
}

/// How many ways are tried until one has its number on it.
const MOST_TRIES: usize = 5;

/// A way, the exits at its ends, and its number if it is a line.
struct Found {
    ends: [usize; 2],
    points: Vec<Point>,
    number: Option<Number>,
}

impl Search<'_> {
    /// All ways in this order, and the numbers of the first `lines` of them; else the one that is not found.
    pub(super) fn all(
        &mut self,
        jobs: &[Job],
        order: &[usize],
        lines: usize,
    ) -> Result<(Vec<Vec<Point>>, Vec<Number>), usize> {
        let mut ways = vec![Vec::new(); jobs.len()];
        let mut numbers = vec![Number::default(); jobs.len()];
        for nth in order {
            let line = (*nth < lines).then_some(*nth);
            let found = self.one(&jobs[*nth], line).ok_or(*nth)?;
            self.take(&found);
            ways[*nth] = found.points;
            numbers[*nth] = found.number.unwrap_or_default();
        }
        Ok((ways, numbers))
    }

    /// The first way with its number on it; else the first one with its number beside it.
    fn one(&mut self, job: &Job, line: Option<usize>) -> Option<Found> {
        let free = |ports: &[usize]| -> Vec<usize> {
            let free = ports.iter().filter(|port| !self.is_used[**port]);
            free.copied().collect()
        };
        let mut ends = [free(&job.from), free(&job.to)];
        let mut second_best: Option<Found> = None;
        for _ in 0..MOST_TRIES {
            let Some(mut found) = self.way(&ends) else {
                break;
            };
            let Some(line) = line else {
                return Some(found);
            };
            found.number = number(line, &found.points, &self.taken, &self.pieces);
            let used = found.ends;
            match found.number {
                Some(number) if number.pointed.is_none() => return Some(found),
                Some(_) => second_best = second_best.or(Some(found)),
                None => {}
            }
            // Another port on the side that has more of them.
            let side = usize::from(ends[1].len() > ends[0].len());
            ends[side].retain(|port| *port != used[side]);
        }
        second_best
    }

    fn way(&mut self, ends: &[Vec<usize>; 2]) -> Option<Found> {
        let gates = ends.each_ref().map(|ports| {
            let gates = ports.iter().map(|port| self.gates[*port]);
            gates.collect::<Vec<Gate>>()
        });
        let (first, bends, last) = self.finder.find(&self.grid, &gates[0], &gates[1])?;
        let port_at = |ports: &[usize], gate: Gate| {
            let found = ports.iter().find(|port| self.gates[**port] == gate);
            found.copied().expect("a way begins and ends at gates")
        };
        let ends = [port_at(&ends[0], first), port_at(&ends[1], last)];
        let mut points = vec![self.exits[ends[0]].port.at];
        points.extend(bends);
        points.push(self.exits[ends[1]].port.at);
        Some(Found {
            ends,
            points: without_needless(points),
            number: None,
        })
    }

    fn take(&mut self, found: &Found) {
        for end in found.ends {
            self.is_used[end] = true;
        }
        self.grid.take(&found.points);
        let pieces = found.points.windows(2).map(Frame::around);
        self.pieces.extend(pieces);
        for frame in found.number.iter().flat_map(Number::frames) {
            self.grid.close(frame);
            self.taken.push(frame);
        }
    }
}

/// Ends and bends only.
fn without_needless(points: Vec<Point>) -> Vec<Point> {
    let is_same = |a: f64, b: f64| (a - b).abs() < 1e-6;
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        if kept
            .last()
            .is_some_and(|last| is_same(last.x, point.x) && is_same(last.y, point.y))
        {
            continue;
        }
        if let [.., a, b] = kept[..]
            && (is_same(a.x, b.x) && is_same(b.x, point.x)
                || is_same(a.y, b.y) && is_same(b.y, point.y))
        {
            kept.pop();
        }
        kept.push(point);
    }
    kept
}
