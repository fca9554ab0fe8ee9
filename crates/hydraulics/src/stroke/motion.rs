//! How a piston moves.

use super::error::StrokeError;
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::f64::{Length, Time};
use uom::si::length::millimeter;
use uom::si::time::second;

/// How a piston moves, smooth between its kinks. The time begins with each run.
///
/// A motion is put together from moves and holds. Its travels count from any place: a run only sees how far the piston
/// has gone since the run began.
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
/// let press = Motion::resting_at(mm(0.0))?.then_move(mm(20.0), s(0.5))?.then_hold(s(1.0))?;
/// assert!(press.then_move(mm(0.0), s(0.0)).is_err(), "a jump has no speed");
/// # Ok::<(), bleedwright_hydraulics::stroke::StrokeError>(())
/// ```
#[derive(Debug, Clone)]
pub struct Motion {
    kinks_s: Vec<f64>,
    /// Between the start, the kinks and the end of time: one piece more than kinks.
    pieces: Vec<Piece>,
}

#[derive(Debug, Clone)]
enum Piece {
    Rest {
        travel_m: f64,
    },
    HalfCosine {
        begin_s: f64,
        duration_s: f64,
        from_m: f64,
        to_m: f64,
    },
}

/// Where a piston is, how that changes, and how its speed does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    pub(super) travel_m: f64,
    pub(super) speed_m_per_s: f64,
    pub(super) acceleration_m_per_s2: f64,
}

impl Motion {
    /// A piston that stays where it is.
    pub fn resting_at(travel: Length) -> Result<Self, StrokeError> {
        let travel_m = checked_m(travel)?;
        Ok(Self {
            kinks_s: Vec::new(),
            pieces: vec![Piece::Rest { travel_m }],
        })
    }

    /// The motion, and after its last kink a move to another place as a half cosine.
    pub fn then_move(mut self, to: Length, duration: Time) -> Result<Self, StrokeError> {
        let to_m = checked_m(to)?;
        let duration_s = checked_duration_s(duration)?;
        if duration_s <= 0.0 {
            // A jump has no speed.
            return Err(StrokeError::MotionOutOfRange {
                value: duration_s,
                unit: "s",
            });
        }
        let begin_s = self.last_kink_s();
        let from_m = self.travel_at_end_m();
        self.begin_piece(Piece::HalfCosine {
            begin_s,
            duration_s,
            from_m,
            to_m,
        });
        self.kinks_s.push(begin_s + duration_s);
        self.pieces.push(Piece::Rest { travel_m: to_m });
        Ok(self)
    }

    /// The motion, and after its last kink a rest. After everything a piston rests for ever.
    pub fn then_hold(mut self, duration: Time) -> Result<Self, StrokeError> {
        let duration_s = checked_duration_s(duration)?;
        let travel_m = self.travel_at_end_m();
        let end_s = self.last_kink_s() + duration_s;
        self.begin_piece(Piece::Rest { travel_m });
        self.kinks_s.push(end_s);
        self.pieces.push(Piece::Rest { travel_m });
        Ok(self)
    }

    /// Where the motion is not smooth.
    pub(super) fn kinks_s(&self) -> &[f64] {
        &self.kinks_s
    }

    /// The point at a time in a stretch without kinks, whose sides count as belonging to it.
    pub(super) fn point_within(&self, time_s: f64, stretch: Stretch) -> Point {
        let middle_s = 0.5 * (stretch.begin_s + stretch.end_s);
        let piece = self.kinks_s.partition_point(|&kink_s| kink_s <= middle_s);
        self.pieces[piece].point(time_s)
    }

    fn last_kink_s(&self) -> f64 {
        self.kinks_s.last().copied().unwrap_or(0.0)
    }

    fn travel_at_end_m(&self) -> f64 {
        let last = self.pieces.last();
        last.map_or(0.0, |last| last.point(self.last_kink_s()).travel_m)
    }

    /// Puts a piece in the place of the rest after the last kink.
    fn begin_piece(&mut self, piece: Piece) {
        if let Some(last) = self.pieces.last_mut() {
            *last = piece;
        }
    }
}

/// A stretch of time without kinks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stretch {
    pub(super) begin_s: f64,
    pub(super) end_s: f64,
}

impl Piece {
    fn point(&self, time_s: f64) -> Point {
        match self {
            Self::Rest { travel_m } => Point {
                travel_m: *travel_m,
                speed_m_per_s: 0.0,
                acceleration_m_per_s2: 0.0,
            },
            Self::HalfCosine {
                begin_s,
                duration_s,
                from_m,
                to_m,
            } => {
                let share = ((time_s - begin_s) / duration_s).clamp(0.0, 1.0);
                let way_m = to_m - from_m;
                let rate_per_s = PI / duration_s;
                let (sine, cosine) = (PI * share).sin_cos();
                // The same as (1 - cos) / 2, without losing digits at the start.
                let done = (FRAC_PI_2 * share).sin().powi(2);
                Point {
                    travel_m: from_m + way_m * done,
                    speed_m_per_s: 0.5 * way_m * rate_per_s * sine,
                    acceleration_m_per_s2: 0.5 * way_m * rate_per_s * rate_per_s * cosine,
                }
            }
        }
    }
}

fn checked_m(travel: Length) -> Result<f64, StrokeError> {
    if travel.value.is_finite() {
        Ok(travel.value)
    } else {
        Err(StrokeError::MotionOutOfRange {
            value: travel.get::<millimeter>(),
            unit: "mm",
        })
    }
}

fn checked_duration_s(duration: Time) -> Result<f64, StrokeError> {
    let duration_s = duration.get::<second>();
    if duration_s.is_finite() && duration_s >= 0.0 {
        Ok(duration_s)
    } else {
        Err(StrokeError::MotionOutOfRange {
            value: duration_s,
            unit: "s",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::length::meter;

    fn press_hold_release(times_s: [f64; 3], stroke_m: f64) -> Result<Motion, StrokeError> {
        let (m, s) = (Length::new::<meter>, Time::new::<second>);
        let [press_s, hold_s, release_s] = times_s;
        Motion::resting_at(m(0.0))?
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
        assert_eq!(motion.kinks_s(), [0.5, 0.7, 1.4]);
    }

    #[test]
    fn what_cannot_be_moved_is_refused() {
        assert!(Motion::resting_at(Length::new::<meter>(f64::NAN)).is_err());
        assert!(press_hold_release([0.0, 0.0, 0.1], 0.02).is_err());
        assert!(press_hold_release([0.1, -1.0, 0.1], 0.02).is_err());
        assert!(press_hold_release([0.1, 0.0, 0.1], f64::INFINITY).is_err());
    }
}
