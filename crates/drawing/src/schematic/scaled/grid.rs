//! Where lines may run: tracks across and along, through every port, with what is taken.

use super::super::frame::Frame;
use crate::picture::Point;

/// Lines keep so far from symbols and words.
pub(super) const CLEAR: f64 = 1.2;
/// Two lines along each other, and a bend and another line, keep so far apart.
pub(super) const APART: f64 = 1.7;
/// Around everything there is room for so many millimetres of lines.
const AROUND: f64 = 8.0;
/// Tracks are that near to each other where no port asks for more; less than the lowest obstacle with its clearance,
/// so that none lies unseen between two of them.
const SPACING: f64 = 1.8;
/// Near an obstacle a line may run, but would better not.
const HUGGING: f64 = 1.4;

/// Numbers of lines have so much more room than other words.
const LEEWAY: f64 = 0.25;

/// A place on the grid.
pub(super) type Node = usize;

/// What is at each node.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Ground {
    pub(super) is_blocked: bool,
    pub(super) is_near: bool,
    /// Level and upright lines: whether none may pass for another that is too near.
    pub(super) is_shut: [bool; 2],
    /// Whether no line may bend here.
    pub(super) is_straight_only: bool,
    /// Whether a level and whether an upright line runs here.
    pub(super) is_used: [bool; 2],
}

#[derive(Clone)]
pub(super) struct Grid {
    pub(super) xs: Vec<f64>,
    pub(super) ys: Vec<f64>,
    pub(super) ground: Vec<Ground>,
}

impl Grid {
    /// Tracks through all of these places, and others between them.
    pub(super) fn new(places: &[Point], obstacles: &[Frame]) -> Self {
        let around = obstacles
            .iter()
            .copied()
            .chain([Frame::around(places)])
            .fold(Frame::NOTHING, Frame::with)
            .grown(AROUND);
        let xs = tracks(
            places.iter().map(|place| place.x),
            around.left,
            around.right,
        );
        let ys = tracks(
            places.iter().map(|place| place.y),
            around.top,
            around.bottom,
        );
        let mut grid = Self {
            ground: vec![Ground::default(); xs.len() * ys.len()],
            xs,
            ys,
        };
        for obstacle in obstacles {
            grid.mark(obstacle.grown(CLEAR + HUGGING), |ground| {
                ground.is_near = true;
            });
        }
        for obstacle in obstacles {
            grid.mark(obstacle.grown(CLEAR), |ground| ground.is_blocked = true);
        }
        grid
    }

    pub(super) fn node(&self, place: Point) -> Node {
        let nearest = |tracks: &[f64], value: f64| {
            let next = tracks.partition_point(|track| *track < value - 1e-6);
            next.min(tracks.len().saturating_sub(1))
        };
        nearest(&self.ys, place.y) * self.xs.len() + nearest(&self.xs, place.x)
    }

    pub(super) fn place(&self, node: Node) -> Point {
        Point::new(self.xs[node % self.xs.len()], self.ys[node / self.xs.len()])
    }

    /// The neighbours of a node on a level or an upright track.
    pub(super) fn neighbours(&self, node: Node, is_upright: bool) -> [Option<Node>; 2] {
        let width = self.xs.len();
        let (column, row) = (node % width, node / width);
        if is_upright {
            [
                (row > 0).then(|| node - width),
                (row + 1 < self.ys.len()).then(|| node + width),
            ]
        } else {
            [
                (column > 0).then(|| node - 1),
                (column + 1 < width).then(|| node + 1),
            ]
        }
    }

    /// Marks all nodes inside a frame, its edges left out.
    fn mark(&mut self, frame: Frame, change: impl Fn(&mut Ground)) {
        const EDGE: f64 = 1e-6;
        let span = |tracks: &[f64], from: f64, to: f64| {
            let first = tracks.partition_point(|track| *track <= from + EDGE);
            let last = tracks.partition_point(|track| *track < to - EDGE);
            first..last.max(first)
        };
        let columns = span(&self.xs, frame.left, frame.right);
        let width = self.xs.len();
        for row in span(&self.ys, frame.top, frame.bottom) {
            for column in columns.clone() {
                change(&mut self.ground[row * width + column]);
            }
        }
    }

    /// Keeps all further lines off a frame.
    pub(super) fn close(&mut self, frame: Frame) {
        self.mark(frame.grown(CLEAR + LEEWAY), |ground| {
            ground.is_blocked = true;
        });
    }

    /// Takes what a line needs from all others.
    pub(super) fn take(&mut self, points: &[Point]) {
        for pair in points.windows(2) {
            let frame = Frame::around(pair);
            let is_upright = frame.height() > frame.width();
            let axis = usize::from(is_upright);
            self.mark(frame.grown(APART), |ground| {
                ground.is_shut[axis] = true;
                ground.is_straight_only = true;
            });
            self.mark(frame.grown(1e-3), |ground| ground.is_used[axis] = true);
        }
        for point in points {
            // None passes where this one bends or ends.
            self.mark(Frame::at(*point, APART, APART), |ground| {
                ground.is_shut = [true; 2];
                ground.is_straight_only = true;
            });
        }
    }
}

/// All values, and between them others about [`SPACING`] apart.
fn tracks(values: impl Iterator<Item = f64>, first: f64, last: f64) -> Vec<f64> {
    let mut needed: Vec<f64> = values.chain([first, last]).collect();
    needed.sort_by(f64::total_cmp);
    needed.dedup_by(|a, b| (*a - *b).abs() < 1e-5);
    let mut tracks = Vec::new();
    for pair in needed.windows(2) {
        let room = pair[1] - pair[0];
        let count = (room / SPACING).round().max(1.0);
        tracks.extend((0..count as usize).map(|nth| pair[0] + room * nth as f64 / count));
    }
    tracks.extend(needed.last());
    tracks
}
