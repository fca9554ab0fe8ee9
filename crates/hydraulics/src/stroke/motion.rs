//! How a piston moves.

use super::error::StrokeError;
use crate::range::{positive, zero_or_more};
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::f64::{Length, Time};
use uom::si::length::meter;
use uom::si::time::second;

/// How a piston moves, smooth between its kinks. The time begins with each run, and the travel at nothing.
///
/// A motion is put together from moves and holds. After everything a piston rests for ever.
///
/// Formula of a move: `x = x0 + (x1 - x0) (1 - cos(pi t / T)) / 2`.
///
/// Symbols: `x` travel (m); `x0`, `x1` travel at its start and end (m); `t` time since its start (s); `T` its duration
/// (s).
///
/// Range: a piston whose place is given, whatever pressure that takes.
///
/// Source: ASSUMPTION: a half cosine is how a foot moves a pedal; no measurement is known.
///
/// ```
/// use bleedwright_hydraulics::stroke::Motion;
/// use uom::si::{f64::{Length, Time}, length::millimeter, time::second};
///
/// let (mm, s) = (Length::new::<millimeter>, Time::new::<second>);
/// let press = Motion::default().then_move(mm(20.0), s(0.5))?.then_hold(s(1.0))?;
/// assert!(press.then_move(mm(0.0), s(0.0)).is_err(), "a jump has no speed");
/// # Ok::<(), bleedwright_hydraulics::stroke::StrokeError>(())
/// ```
#[derive(Debug, Clone, Default)]
pub struct Motion {
    /// In their order; between them and after the last the piston rests.
    moves: Vec<Move>,
    /// When the last move or hold is over.
    end_s: f64,
}

/// From one place to another as a half cosine.
#[derive(Debug, Clone, Copy)]
struct Move {
    begin_s: f64,
    duration_s: f64,
    from_m: f64,
    to_m: f64,
}

/// Where a piston is, how that changes, and how its speed does.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Point {
    pub(super) travel_m: f64,
    pub(super) speed_m_per_s: f64,
    pub(super) acceleration_m_per_s2: f64,
}

impl Motion {
    /// The motion, and after it a move to another place.
    pub fn then_move(mut self, to: Length, duration: Time) -> Result<Self, StrokeError> {
        let to_m = to.get::<meter>();
        zero_or_more("travel of a piston", to_m.abs(), "m")?;
        // A jump has no speed.
        let duration_s = positive("time of a move", duration.get::<second>(), "s")?;
        self.moves.push(Move {
            begin_s: self.end_s,
            duration_s,
            from_m: self.moves.last().map_or(0.0, |before| before.to_m),
            to_m,
        });
        self.end_s += duration_s;
        Ok(self)
    }

    /// The motion, and after it a rest.
    pub fn then_hold(mut self, duration: Time) -> Result<Self, StrokeError> {
        self.end_s += zero_or_more("time of a hold", duration.get::<second>(), "s")?;
        Ok(self)
    }

    /// Where the motion is not smooth.
    pub(super) fn kinks_s(&self) -> impl Iterator<Item = f64> + '_ {
        self.moves.iter().flat_map(|it| [it.begin_s, it.end_s()])
    }

    /// The point at a time in a stretch without kinks, whose sides count as belonging to it.
    pub(super) fn point_within(&self, time_s: f64, stretch: Stretch) -> Point {
        let middle_s = 0.5 * (stretch.begin_s + stretch.end_s);
        let begun = self.moves.partition_point(|it| it.begin_s <= middle_s);
        match self.moves[..begun].last() {
            None => Point::default(),
            Some(last) if middle_s < last.end_s() => last.point(time_s),
            Some(last) => Point {
                travel_m: last.to_m,
                ..Point::default()
            },
        }
    }
}

/// A stretch of time without kinks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stretch {
    pub(super) begin_s: f64,
    pub(super) end_s: f64,
}

impl Move {
    fn end_s(&self) -> f64 {
        self.begin_s + self.duration_s
    }

    fn point(&self, time_s: f64) -> Point {
        let share = ((time_s - self.begin_s) / self.duration_s).clamp(0.0, 1.0);
        let way_m = self.to_m - self.from_m;
        let rate_per_s = PI / self.duration_s;
        let (sine, cosine) = (PI * share).sin_cos();
        // The same as (1 - cos) / 2, without losing digits at the start.
        let done = (FRAC_PI_2 * share).sin().powi(2);
        Point {
            travel_m: self.from_m + way_m * done,
            speed_m_per_s: 0.5 * way_m * rate_per_s * sine,
            acceleration_m_per_s2: 0.5 * way_m * rate_per_s * rate_per_s * cosine,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn press_hold_release(times_s: [f64; 3], stroke_m: f64) -> Result<Motion, StrokeError> {
        let (m, s) = (Length::new::<meter>, Time::new::<second>);
        let [press_s, hold_s, release_s] = times_s;
        Motion::default()
            .then_move(m(stroke_m), s(press_s))?
            .then_hold(s(hold_s))?
            .then_move(m(0.0), s(release_s))
    }

    /// Speed and acceleration against differences of the travel.
    #[test]
    fn the_parts_of_a_move_belong_together() {
        let motion = press_hold_release([0.5, 0.2, 0.7], 0.02).expect("the motion is sound");
        for time_s in [0.1, 0.25, 0.49, 0.6, 0.8, 1.3, 2.0] {
            let step_s = 1e-4;
            let stretch = Stretch {
                begin_s: time_s - step_s,
                end_s: time_s + step_s,
            };
            let point = |at_s| motion.point_within(at_s, stretch);
            let here = point(time_s);
            let (before, after) = (
                point(stretch.begin_s).travel_m,
                point(stretch.end_s).travel_m,
            );
            let speed = (after - before) / (2.0 * step_s);
            let acceleration = (after - 2.0 * here.travel_m + before) / (step_s * step_s);
            assert!((speed - here.speed_m_per_s).abs() < 1e-7);
            assert!((acceleration - here.acceleration_m_per_s2).abs() < 1e-5);
        }
        assert_eq!(motion.kinks_s().collect::<Vec<_>>(), [0.0, 0.5, 0.7, 1.4]);
    }

    #[test]
    fn what_cannot_be_moved_is_refused() {
        assert!(press_hold_release([0.0, 0.0, 0.1], 0.02).is_err());
        assert!(press_hold_release([0.1, -1.0, 0.1], 0.02).is_err());
        for stroke_m in [f64::INFINITY, f64::NAN] {
            assert!(press_hold_release([0.1, 0.0, 0.1], stroke_m).is_err());
        }
    }
}
