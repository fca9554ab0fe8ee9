//! Rectangles around what is drawn.

use crate::picture::{Anchor, Mark, Path, Point, Segment, Text};

/// A rectangle along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

/// Frames nearer than this only touch.
const TOUCH: f64 = 0.01;
/// A curve is followed in so many pieces.
const PIECES: u8 = 16;

impl Frame {
    /// Holds nothing yet.
    pub(super) const NOTHING: Self = Self {
        left: f64::INFINITY,
        top: f64::INFINITY,
        right: f64::NEG_INFINITY,
        bottom: f64::NEG_INFINITY,
    };

    pub(super) fn around(points: &[Point]) -> Self {
        points.iter().fold(Self::NOTHING, |frame, point| {
            frame.with(Self::at(*point, 0.0, 0.0))
        })
    }

    /// So far to each side of a place.
    pub(super) fn at(centre: Point, half_width: f64, half_height: f64) -> Self {
        Self {
            left: centre.x - half_width,
            top: centre.y - half_height,
            right: centre.x + half_width,
            bottom: centre.y + half_height,
        }
    }

    /// Around both.
    pub(super) fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    pub(super) fn grown(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    pub(super) fn moved(self, right: f64, down: f64) -> Self {
        Self {
            left: self.left + right,
            top: self.top + down,
            right: self.right + right,
            bottom: self.bottom + down,
        }
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }

    pub(super) fn height(&self) -> f64 {
        self.bottom - self.top
    }

    pub(super) fn centre(&self) -> Point {
        Point::new(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }

    /// Whether both share an area.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.left + TOUCH < other.right
            && other.left + TOUCH < self.right
            && self.top + TOUCH < other.bottom
            && other.top + TOUCH < self.bottom
    }

    pub(super) fn holds(&self, place: Point) -> bool {
        self.overlaps(&Self::at(place, TOUCH, TOUCH))
    }

    /// Around a text: letters from their tops to their lowest strokes.
    pub(super) fn of_text(text: &Text) -> Self {
        let width = text.width_mm();
        let left = match text.anchor {
            Anchor::Start => text.at.x,
            Anchor::Middle => text.at.x - width / 2.0,
            Anchor::End => text.at.x - width,
        };
        Self {
            left,
            top: text.at.y - 0.78 * text.size_mm,
            right: left + width,
            bottom: text.at.y + 0.24 * text.size_mm,
        }
    }

    /// Around a symbol without its screws and without words.
    pub(super) fn of_symbol(marks: &[Mark]) -> Self {
        marks.iter().fold(Self::NOTHING, |frame, mark| {
            frame.with(match mark {
                Mark::Path(path) => Self::of_path(path),
                Mark::Circle(circle) => Self::at(circle.centre, circle.radius_mm, circle.radius_mm),
                Mark::Text(_) => Self::NOTHING,
                Mark::Group(group) if group.class == "screw" => Self::NOTHING,
                Mark::Group(group) => Self::of_symbol(&group.marks),
            })
        })
    }

    fn of_path(path: &Path) -> Self {
        let mut frame = Self::at(path.start, 0.0, 0.0);
        let mut here = path.start;
        for segment in &path.segments {
            here = match *segment {
                Segment::Line(to) => {
                    frame = frame.with(Self::at(to, 0.0, 0.0));
                    to
                }
                Segment::Curve(a, b, to) => {
                    for piece in 1..=PIECES {
                        let place = on_curve(here, a, b, to, f64::from(piece) / f64::from(PIECES));
                        frame = frame.with(Self::at(place, 0.0, 0.0));
                    }
                    to
                }
            };
        }
        frame
    }
}

fn on_curve(from: Point, a: Point, b: Point, to: Point, t: f64) -> Point {
    let rest = 1.0 - t;
    let at = |p: f64, q: f64, r: f64, s: f64| {
        rest.powi(3) * p + 3.0 * rest.powi(2) * t * q + 3.0 * rest * t * t * r + t.powi(3) * s
    };
    Point::new(at(from.x, a.x, b.x, to.x), at(from.y, a.y, b.y, to.y))
}

/// Calls back for every two frames that share an area, the smaller index first. A sweep from left to right compares
/// those only that stand above each other.
pub(super) fn for_each_overlap(frames: &[Frame], mut found: impl FnMut(usize, usize)) {
    let mut order: Vec<usize> = (0..frames.len()).collect();
    order.sort_by(|a, b| {
        let by_left = frames[*a].left.total_cmp(&frames[*b].left);
        by_left.then(a.cmp(b))
    });
    let mut open: Vec<usize> = Vec::new();
    for nth in order {
        open.retain(|other| frames[*other].right > frames[nth].left);
        for other in &open {
            if frames[nth].overlaps(&frames[*other]) {
                found(nth.min(*other), nth.max(*other));
            }
        }
        open.push(nth);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sweep_finds_what_comparing_all_finds() {
        let frames: Vec<Frame> = (0..300_u32)
            .map(|nth| {
                let at = |step: u32, count: u32| f64::from(nth * step % count);
                let centre = Point::new(at(37, 101), at(53, 97));
                Frame::at(centre, 1.0 + at(7, 5), 1.0 + at(11, 6))
            })
            .collect();
        let mut swept = Vec::new();
        for_each_overlap(&frames, |a, b| swept.push((a, b)));
        swept.sort_unstable();
        let mut compared = Vec::new();
        for a in 0..frames.len() {
            for b in a + 1..frames.len() {
                if frames[a].overlaps(&frames[b]) {
                    compared.push((a, b));
                }
            }
        }
        assert!(compared.len() > 100, "{}", compared.len());
        assert_eq!(swept, compared);
    }

    #[test]
    fn a_curve_is_framed_by_its_bow_and_not_by_its_handles() {
        let path = Path {
            start: Point::new(0.0, 0.0),
            segments: vec![Segment::Curve(
                Point::new(8.0, 0.0),
                Point::new(8.0, 4.0),
                Point::new(0.0, 4.0),
            )],
            closed: false,
            fill: None,
            stroke: None,
        };
        let frame = Frame::of_symbol(&[path.into()]);
        assert!((frame.right - 6.0).abs() < 1e-9, "{frame:?}");
        assert!((frame.height() - 4.0).abs() < 1e-9, "{frame:?}");
    }
}
