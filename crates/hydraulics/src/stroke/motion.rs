//! How a piston moves.

use super::error::{StrokeError, checked_s};
use std::f64::consts::{FRAC_PI_2, PI};
use std::fmt;
use std::sync::Arc;
use uom::si::f64::{Acceleration, Length, Time, Velocity};
use uom::si::length::millimeter;
use uom::si::time::second;

/// Where a piston is, and how that changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MotionPoint {
    /// How far it stands in.
    pub travel: Length,
    /// The travel's change in time.
    pub speed: Velocity,
    /// The speed's change in time.
    pub acceleration: Acceleration,
}

type Course = Arc<dyn Fn(Time) -> MotionPoint + Send + Sync>;

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
/// let motion = Motion::press_hold_release(mm(20.0), s(0.5), s(1.0), s(0.5))?;
/// assert!((motion.at(s(0.25)).travel.get::<millimeter>() - 10.0).abs() < 1e-12);
/// assert!(motion.at(s(9.0)).travel.get::<millimeter>().abs() < 1e-12);
/// # Ok::<(), bleedwright_hydraulics::stroke::StrokeError>(())
/// ```
#[derive(Clone)]
pub struct Motion {
    kinks_s: Vec<f64>,
    /// Between the start, the kinks and the end of time: one piece more than kinks.
    pieces: Vec<Piece>,
}

#[derive(Clone)]
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
    Given(Course),
}

/// The same as [`MotionPoint`], in metres and seconds.
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

    /// From nothing to the stroke, a hold, and back again.
    pub fn press_hold_release(
        stroke: Length,
        press: Time,
        hold: Time,
        release: Time,
    ) -> Result<Self, StrokeError> {
        Self::resting_at(Length::default())?
            .then_move(stroke, press)?
            .then_hold(hold)?
            .then_move(Length::default(), release)
    }

    /// Any motion. `course` must be smooth between the kinks and continuous at them, and its three parts must belong
    /// together: the volume balance closes only if the travel is what the speed adds up to, and the acceleration steers
    /// the accuracy. The first kinks may be left out where speed and acceleration are smooth from the start.
    pub fn following(
        course: impl Fn(Time) -> MotionPoint + Send + Sync + 'static,
        kinks: &[Time],
    ) -> Result<Self, StrokeError> {
        let mut kinks_s = Vec::with_capacity(kinks.len());
        for kink in kinks {
            kinks_s.push(checked_s(kink.get::<second>())?);
        }
        kinks_s.sort_by(f64::total_cmp);
        let course: Course = Arc::new(course);
        let pieces = vec![Piece::Given(course); kinks_s.len() + 1];
        Ok(Self { kinks_s, pieces })
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

    /// Where the piston is at a time; at a kink with speed and acceleration of what follows.
    pub fn at(&self, time: Time) -> MotionPoint {
        let time_s = time.get::<second>();
        let piece = self.kinks_s.partition_point(|&kink_s| kink_s <= time_s);
        let point = self.pieces[piece].point(time_s);
        MotionPoint {
            travel: Length::new::<uom::si::length::meter>(point.travel_m),
            speed: Velocity::new::<uom::si::velocity::meter_per_second>(point.speed_m_per_s),
            acceleration: Acceleration::new::<uom::si::acceleration::meter_per_second_squared>(
                point.acceleration_m_per_s2,
            ),
        }
    }

    /// Where the motion is not smooth.
    pub(super) fn kinks_s(&self) -> &[f64] {
        &self.kinks_s
    }

    /// The point at a time in a stretch without kinks, whose sides count as belonging to it.
    pub(super) fn point_within(&self, time_s: f64, stretch: Stretch) -> Point {
        let middle_s = 0.5 * (stretch.begin_s + stretch.end_s);
        let piece = self.kinks_s.partition_point(|&kink_s| kink_s <= middle_s);
        let piece = &self.pieces[piece];
        match piece {
            // A course that jumps in speed must not be asked at the jump itself.
            Piece::Given(_) => {
                let margin_s = 1e-12 * (stretch.end_s - stretch.begin_s);
                let least_s = stretch.begin_s + margin_s;
                piece.point(time_s.clamp(least_s, least_s.max(stretch.end_s - margin_s)))
            }
            Piece::Rest { .. } | Piece::HalfCosine { .. } => piece.point(time_s),
        }
    }

    fn last_kink_s(&self) -> f64 {
        self.kinks_s.last().copied().unwrap_or(0.0)
    }

    fn travel_at_end_m(&self) -> f64 {
        self.at(Time::new::<second>(self.last_kink_s()))
            .travel
            .value
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
            Self::Given(course) => {
                let point = course(Time::new::<second>(time_s));
                Point {
                    travel_m: point.travel.value,
                    speed_m_per_s: point.speed.value,
                    acceleration_m_per_s2: point.acceleration.value,
                }
            }
        }
    }
}

impl fmt::Debug for Motion {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter
            .debug_struct("Motion")
            .field("kinks_s", &self.kinks_s)
            .finish_non_exhaustive()
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

    /// Speed and acceleration against differences of the travel.
    #[test]
    fn the_parts_of_a_move_belong_together() {
        let s = Time::new::<second>;
        let motion = Motion::press_hold_release(Length::new::<meter>(0.02), s(0.5), s(0.2), s(0.7))
            .expect("the motion is sound");
        let travel_m = |time_s: f64| motion.at(s(time_s)).travel.value;
        for time_s in [0.1, 0.25, 0.49, 0.6, 0.8, 1.3, 2.0] {
            let point = motion.at(s(time_s));
            let step_s = 1e-4;
            let (before, here, after) = (
                travel_m(time_s - step_s),
                travel_m(time_s),
                travel_m(time_s + step_s),
            );
            let speed = (after - before) / (2.0 * step_s);
            let acceleration = (after - 2.0 * here + before) / (step_s * step_s);
            assert!((speed - point.speed.value).abs() < 1e-7);
            assert!((acceleration - point.acceleration.value).abs() < 1e-5);
        }
        assert_eq!(motion.kinks_s(), [0.5, 0.7, 1.4]);
    }

    #[test]
    fn what_cannot_be_moved_is_refused() {
        let (m, s) = (Length::new::<meter>, Time::new::<second>);
        assert!(Motion::resting_at(m(f64::NAN)).is_err());
        assert!(Motion::press_hold_release(m(0.02), s(0.0), s(0.0), s(0.1)).is_err());
        assert!(Motion::press_hold_release(m(0.02), s(0.1), s(-1.0), s(0.1)).is_err());
        assert!(Motion::press_hold_release(m(f64::INFINITY), s(0.1), s(0.0), s(0.1)).is_err());
    }
}
