//! A falling old fraction between given places, as `1 / root^2` with a monotone cubic `root`.
//!
//! Without diffusion the root of a fresh tube is a straight line (`2 theta`), so that what is interpolated is nearly
//! straight. Slopes are those of Fritsch and Butland (weighted harmonic means, which never overshoot); beyond the last
//! place the root goes on as a straight line, which for a curve that falls ever faster asks for more and not for less.

use crate::root::halved;

/// Three Gauss nodes on 0 to 1 and their weights [Abramowitz1964](crate#sources), table 25.4.
const GAUSS: [(f64, f64); 3] = [
    (0.112_701_665_379_258_31, 5.0 / 18.0),
    (0.5, 8.0 / 18.0),
    (0.887_298_334_620_741_7, 5.0 / 18.0),
];

/// The curve; before its first place it keeps the value there.
#[derive(Debug, Clone)]
pub(crate) struct Curve {
    places: Vec<f64>,
    roots: Vec<f64>,
    slopes: Vec<f64>,
    pieces: Vec<Piece>,
}

/// The root between two places: a cubic in the share of the way; the last piece has no end.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) start: f64,
    pub(crate) end: f64,
    per_width: f64,
    factors: [f64; 4],
}

impl Piece {
    pub(crate) fn fraction_at(&self, place: f64) -> f64 {
        let share = (place - self.start) * self.per_width;
        let [a, b, c, d] = self.factors;
        let root = a + share * (b + share * (c + share * d));
        1.0 / (root * root)
    }
}

impl Curve {
    /// At least two rising places, and a root of at least one at each that never falls.
    pub(crate) fn new(places: Vec<f64>, roots: Vec<f64>) -> Self {
        let last = places.len() - 1;
        let rise = |i: usize| (roots[i + 1] - roots[i]) / (places[i + 1] - places[i]);
        let width = |i: usize| places[i + 1] - places[i];
        let mut slopes = vec![0.0; places.len()];
        let (mut before, mut width_before) = (rise(0), width(0));
        slopes[0] = before;
        for (i, slope) in slopes.iter_mut().enumerate().take(last).skip(1) {
            let (after, width_after) = (rise(i), width(i));
            if before > 0.0 && after > 0.0 {
                let a = 2.0 * width_after + width_before;
                let b = width_after + 2.0 * width_before;
                *slope = (a + b) / (a / before + b / after);
            }
            (before, width_before) = (after, width_after);
        }
        slopes[last] = before;
        let mut curve = Self {
            pieces: Vec::with_capacity(places.len()),
            places,
            roots,
            slopes,
        };
        for i in 0..=last {
            let piece = curve.made_piece(i);
            curve.pieces.push(piece);
        }
        curve
    }

    pub(crate) fn first(&self) -> f64 {
        self.places[0]
    }

    /// The last piece that begins at or before a place.
    fn index(&self, place: f64) -> usize {
        self.places
            .partition_point(|&other| other <= place)
            .saturating_sub(1)
    }

    fn made_piece(&self, i: usize) -> Piece {
        let (start, root, slope) = (self.places[i], self.roots[i], self.slopes[i]);
        let Some(&end) = self.places.get(i + 1) else {
            return Piece {
                start,
                end: f64::INFINITY,
                per_width: 1.0,
                factors: [root, slope, 0.0, 0.0],
            };
        };
        let width = end - start;
        let (from, to) = (slope * width, self.slopes[i + 1] * width);
        let rise = self.roots[i + 1] - root;
        Piece {
            start,
            end,
            per_width: 1.0 / width,
            factors: [
                root,
                from,
                3.0 * rise - 2.0 * from - to,
                from + to - 2.0 * rise,
            ],
        }
    }

    pub(crate) fn pieces_from(&self, place: f64) -> impl Iterator<Item = Piece> + '_ {
        self.pieces[self.index(place)..].iter().copied()
    }

    pub(crate) fn fraction_at(&self, place: f64) -> f64 {
        let place = place.max(self.first());
        self.pieces[self.index(place)].fraction_at(place)
    }

    /// The place at which the curve has fallen to a fraction; its first place where it begins below.
    pub(crate) fn place_for(&self, fraction: f64) -> f64 {
        let wanted = 1.0 / fraction.sqrt();
        let after = self.roots.partition_point(|&root| root < wanted);
        let Some(i) = after.checked_sub(1) else {
            return self.first();
        };
        let piece = self.pieces[i];
        if after == self.roots.len() {
            let slope = self.slopes[i];
            return self.places[i] + (wanted - self.roots[i]) / slope;
        }
        let is_before = |place: f64| piece.fraction_at(place) > fraction;
        halved([piece.start, piece.end], 48, is_before)[1]
    }

    /// The integral of the fraction from the first place to another one.
    pub(crate) fn integral_to(&self, place: f64) -> f64 {
        let mut sum = 0.0;
        for piece in self.pieces_from(self.first()) {
            let width = piece.end.min(place) - piece.start;
            if width <= 0.0 {
                break;
            }
            let mean: f64 = GAUSS
                .iter()
                .map(|(share, weight)| weight * piece.fraction_at(piece.start + share * width))
                .sum();
            sum += mean * width;
        }
        sum
    }
}
