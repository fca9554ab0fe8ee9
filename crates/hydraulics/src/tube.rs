//! A run of pipework as one laminar tube that remembers what earlier screws pushed through its parts.
//!
//! # Why the history has a closed form
//!
//! Give every streamline the factor `u` by which it is faster than the mean. A parabolic profile spreads `u` evenly
//! over the area of the bore, from 0 at the wall to 2 on the axis, so the streamlines slower than `U` carry the
//! share `(U/2)^2` of the flow. A streamline keeps its factor along the whole run, through changes of bore too,
//! because streamlines keep their order. Measure places along the run by the contents between them and the chamber:
//! a push `v` then moves the fluid on streamline `u` onward by `u v`.
//!
//! Number the parts of the run from the chamber. Let `S_d` be the contents of the first `d` parts, `S` those of the
//! whole run, and `w_d` what earlier screws pushed through part `d`. Everything that went through part `d` also
//! went through the parts before it, so `w_d` never grows along the run. Look at the pushes that reached at least
//! to the end of part `d`: together they moved the new fluid on streamline `u` to `u w_d`, or to `S_d` if that is
//! nearer, since beyond it their ways may have parted. The best of these statements is where new fluid stands at
//! least:
//!
//! ```text
//! x(u) = max over d of min(u w_d, S_d)
//! ```
//!
//! With one shared part this is exact, and so it is for any number of shared parts when the pushes were made
//! deepest first. For other orders of the same pushes the new fluid stands there or further, never less far: a push
//! may then start from a part that an earlier one has already cleared. The model errs towards pushing more.
//!
//! While this run's own screw lets out `v`, streamline `u` still gives old fluid as long as `x(u) + u v < S`. The
//! part `d` allows that as long as `u w_d + u v < S` or `S_d + u v < S`, so old fluid leaves on the streamlines
//! slower than
//!
//! ```text
//! U(v) = min( S/v, min over d of max( S/(v + w_d), (S - S_d)/v ) )
//! c(v) = min(1, (U(v)/2)^2)
//! ```
//!
//! where `c` is the old fraction of the outflow. For a run without history this is the rule in [`crate::laminar`].
//! Solved for the push, with `U = 2 sqrt(c)`:
//!
//! ```text
//! v(c) = max(0, min( S/U, min over d of max( S/U - w_d, (S - S_d)/U ) ))
//! ```
//!
//! Sources: velocity profile and flow shares [Levenspiel1999](crate#sources); the fresh tube [Danckwerts1953](crate#sources); the history is
//! derived here and checked in the tests against streamlines that are followed one by one.

use crate::error::{PurgeError, checked_m3};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::{cubic_meter, milliliter};

/// One part of a run between two joints.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// What the part holds.
    pub contents: Volume,
    /// What earlier screws have pushed through the part altogether since it held only old fluid.
    pub pushed_before: Volume,
}

/// A run of pipework from the chamber to the last joint before its cavities.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube {
    segments: Vec<Segment>,
    marks: Vec<Mark>,
    contents_m3: f64,
}

/// The end of the last part, seen from the chamber, that had at least this much pushed through it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Mark {
    pub(crate) reach_m3: f64,
    pub(crate) pushed_m3: f64,
}

impl Tube {
    /// A run made of these parts, listed from the chamber to the screw.
    ///
    /// Along a real run `pushed_before` never grows. Where it does, the smaller figure nearer to the chamber is
    /// used, which asks for more push and not for less.
    pub fn new(segments: Vec<Segment>) -> Result<Self, PurgeError> {
        let mut marks: Vec<Mark> = Vec::with_capacity(segments.len());
        let mut reach_m3 = 0.0;
        let mut pushed_m3 = f64::INFINITY;
        for segment in &segments {
            reach_m3 += checked_m3(segment.contents)?;
            pushed_m3 = checked_m3(segment.pushed_before)?.min(pushed_m3);
            match marks.last_mut() {
                // Exact: neighbours with one and the same history are one part.
                #[expect(
                    clippy::float_cmp,
                    reason = "only an identical history makes two parts one"
                )]
                Some(last) if last.pushed_m3 == pushed_m3 => last.reach_m3 = reach_m3,
                _ => marks.push(Mark {
                    reach_m3,
                    pushed_m3,
                }),
            }
        }
        marks.retain(|mark| mark.reach_m3 > 0.0);
        checked_m3(Volume::new::<cubic_meter>(reach_m3))?;
        Ok(Self {
            segments,
            marks,
            contents_m3: reach_m3,
        })
    }

    /// A run of one part that holds only old fluid.
    pub fn fresh(contents: Volume) -> Result<Self, PurgeError> {
        Self::new(vec![Segment {
            contents,
            pushed_before: Volume::new::<milliliter>(0.0),
        }])
    }

    /// Whether something was pushed through a part of it before.
    pub(crate) fn has_history(&self) -> bool {
        self.marks.iter().any(|mark| mark.pushed_m3 > 0.0)
    }

    /// The parts, from the chamber to the screw.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// What the whole run holds.
    pub fn contents(&self) -> Volume {
        Volume::new::<cubic_meter>(self.contents_m3)
    }

    /// The old fraction of what leaves the run after a push through its own screw.
    ///
    /// Formula: `c(v)` in the [module's text](crate::tube).
    ///
    /// Symbols: `v` pushed volume (m3); `c` old fraction of the outflow (dimensionless).
    ///
    /// Range: as for [`crate::laminar_theta_for`]; one screw open at a time; never too low for any order of
    /// the earlier pushes. At `v = 0` a run with contents gives old fluid only, whatever its history, because its
    /// wall does; an empty one gives none.
    ///
    /// Source: [Levenspiel1999](crate#sources), [Danckwerts1953](crate#sources), and the derivation above.
    ///
    /// ```
    /// use bleedwright_hydraulics::{Segment, Tube};
    /// use uom::si::{f64::Volume, ratio::ratio, volume::milliliter};
    ///
    /// let ml = Volume::new::<milliliter>;
    /// let shared = Segment { contents: ml(40.0), pushed_before: ml(100.0) };
    /// let own = Segment { contents: ml(5.0), pushed_before: ml(0.0) };
    /// let run = Tube::new(vec![shared, own])?;
    /// // After 45 ml the slowest old fluid still comes from the shared wall: (45 / (2 (45 + 100)))^2.
    /// let out = run.old_fraction_out(ml(45.0)).get::<ratio>();
    /// assert!((out - 0.024_078).abs() < 1e-6);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn old_fraction_out(&self, pushed: Volume) -> Ratio {
        // `max` turns a volume that is not a number into nothing pushed.
        Ratio::new::<ratio>(self.fraction_at(pushed.get::<cubic_meter>().max(0.0)))
    }

    /// The old share of what is inside the run after a push through its own screw.
    ///
    /// Formula: `m = (1/S) integral over u from 0 to 2 of max(0, S - x(u) - u v) du / 2`, with `x(u)` from the
    /// [module's text](crate::tube). It is a polygon's area and taken exactly.
    ///
    /// Symbols: `m` old volume inside divided by the contents (dimensionless); `S` contents (m3); `u` velocity
    /// factor of a streamline (dimensionless); `x(u)` where new fluid stands, measured by contents (m3); `v` pushed
    /// volume (m3).
    ///
    /// Range: as for [`Tube::old_fraction_out`]. An empty run has no old fluid inside.
    ///
    /// Source: [Levenspiel1999](crate#sources) for the profile, and the derivation above.
    ///
    /// ```
    /// use bleedwright_hydraulics::Tube;
    /// use uom::si::{f64::Volume, ratio::ratio, volume::milliliter};
    ///
    /// let run = Tube::fresh(Volume::new::<milliliter>(40.0))?;
    /// let inside = run.old_left_inside(Volume::new::<milliliter>(80.0));
    /// assert!((inside.get::<ratio>() - 0.125).abs() < 1e-12);
    /// # Ok::<(), bleedwright_hydraulics::PurgeError>(())
    /// ```
    pub fn old_left_inside(&self, pushed: Volume) -> Ratio {
        let pushed_m3 = pushed.get::<cubic_meter>().max(0.0);
        if self.contents_m3 <= 0.0 {
            return Ratio::new::<ratio>(0.0);
        }
        if pushed_m3.is_infinite() {
            return Ratio::new::<ratio>(0.0);
        }
        // The front is a staircase in u: a ramp u w_d up to S_d, then a tread at S_d until the next ramp begins.
        let mut area = 0.0;
        let (mut from, mut front_m3) = (0.0_f64, 0.0_f64);
        for mark in &self.marks {
            let ramp_begins = (front_m3 / mark.pushed_m3).min(2.0).max(from);
            let ramp_ends = (mark.reach_m3 / mark.pushed_m3).min(2.0).max(ramp_begins);
            area += self.old_under(from, ramp_begins, front_m3, 0.0, pushed_m3);
            area += self.old_under(ramp_begins, ramp_ends, 0.0, mark.pushed_m3, pushed_m3);
            (from, front_m3) = (ramp_ends, mark.reach_m3);
            if from >= 2.0 {
                break;
            }
        }
        area += self.old_under(from, 2.0, front_m3, 0.0, pushed_m3);
        Ratio::new::<ratio>((area / (2.0 * self.contents_m3)).clamp(0.0, 1.0))
    }

    /// The integral of `max(0, S - level - u (slope + pushed))` over `u` between two factors.
    fn old_under(&self, from: f64, to: f64, level_m3: f64, slope_m3: f64, pushed_m3: f64) -> f64 {
        let rate = slope_m3 + pushed_m3;
        let room = self.contents_m3 - level_m3;
        let to = if rate > 0.0 { to.min(room / rate) } else { to };
        if to <= from {
            return 0.0;
        }
        let mean = room - rate * f64::midpoint(from, to);
        mean.max(0.0) * (to - from)
    }

    /// The old fraction of the outflow at a pushed volume of zero or more.
    pub(crate) fn fraction_at(&self, pushed_m3: f64) -> f64 {
        if self.contents_m3 <= 0.0 {
            return 0.0;
        }
        if pushed_m3 <= 0.0 {
            return 1.0;
        }
        let total = self.contents_m3;
        let fastest_old = self.marks.iter().fold(total / pushed_m3, |fastest, mark| {
            let together = total / (pushed_m3 + mark.pushed_m3);
            let beyond = (total - mark.reach_m3) / pushed_m3;
            fastest.min(together.max(beyond))
        });
        (fastest_old / 2.0).powi(2).min(1.0)
    }

    /// The smallest push after which the outflow's old fraction is at most this one (above 0, at most 1).
    pub(crate) fn push_m3(&self, fraction: f64) -> f64 {
        let factor = 2.0 * fraction.sqrt();
        let total = self.contents_m3;
        self.marks
            .iter()
            .fold(total / factor, |least, mark| {
                let together = total / factor - mark.pushed_m3;
                let beyond = (total - mark.reach_m3) / factor;
                least.min(together.max(beyond))
            })
            .max(0.0)
    }

    pub(crate) fn marks(&self) -> &[Mark] {
        &self.marks
    }

    pub(crate) fn contents_m3(&self) -> f64 {
        self.contents_m3
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ml(volume_ml: f64) -> Volume {
        Volume::new::<milliliter>(volume_ml)
    }

    fn tube(parts_ml: &[(f64, f64)]) -> Tube {
        let segments = parts_ml
            .iter()
            .map(|&(contents, pushed)| Segment {
                contents: ml(contents),
                pushed_before: ml(pushed),
            })
            .collect();
        Tube::new(segments).expect("the parts are finite")
    }

    /// What the outflow carried away and what is left inside add up to what was inside.
    #[test]
    fn old_fluid_is_conserved() {
        for parts in [
            vec![(40.0, 100.0), (5.0, 0.0)],
            vec![(30.0, 90.0), (10.0, 25.0), (20.0, 0.0)],
            vec![(5.0, 200.0), (5.0, 180.0), (5.0, 2.0), (50.0, 1.0)],
        ] {
            let run = tube(&parts);
            let contents = run.contents().get::<milliliter>();
            let steps = 200_000;
            let width = 150.0 / f64::from(steps);
            let left: f64 = (0..steps)
                .map(|i| {
                    let pushed = ml((f64::from(i) + 0.5) * width);
                    run.old_fraction_out(pushed).get::<ratio>() * width
                })
                .sum();
            let before = run.old_left_inside(ml(0.0)).get::<ratio>() * contents;
            let after = run.old_left_inside(ml(150.0)).get::<ratio>() * contents;
            assert!(
                (before - after - left).abs() < 1e-5,
                "{before} - {after} against {left}"
            );
        }
    }

    #[test]
    fn an_empty_run_gives_no_old_fluid() {
        for run in [tube(&[]), tube(&[(0.0, 0.0), (0.0, 3.0)])] {
            assert!(run.old_fraction_out(ml(1.0)).value.abs() < f64::EPSILON);
            assert!(run.old_left_inside(ml(0.0)).value.abs() < f64::EPSILON);
            assert!(run.push_m3(0.05).abs() < f64::EPSILON);
        }
    }

    #[test]
    fn a_negative_zero_is_no_history() {
        let run = tube(&[(20.0, 50.0), (15.0, -0.0)]);
        assert_eq!(
            run.old_left_inside(ml(0.0)),
            tube(&[(20.0, 50.0), (15.0, 0.0)]).old_left_inside(ml(0.0))
        );
        assert!(run.old_left_inside(ml(0.0)).value > 15.0 / 35.0 * 0.8);
    }

    #[test]
    fn a_history_that_grows_along_the_run_is_read_as_the_smaller_one() {
        let odd = tube(&[(20.0, 10.0), (20.0, 90.0)]);
        let even = tube(&[(20.0, 10.0), (20.0, 10.0)]);
        assert_eq!(
            odd.old_fraction_out(ml(30.0)),
            even.old_fraction_out(ml(30.0))
        );
    }

    #[test]
    fn bad_volumes_are_refused_and_bad_pushes_are_none() {
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            for (contents, pushed) in [(bad, 0.0), (1.0, bad)] {
                let segment = Segment {
                    contents: ml(contents),
                    pushed_before: ml(pushed),
                };
                assert!(Tube::new(vec![segment]).is_err());
            }
        }
        let huge = Segment {
            contents: Volume::new::<cubic_meter>(f64::MAX),
            pushed_before: ml(0.0),
        };
        assert!(Tube::new(vec![huge, huge]).is_err());
        let run = tube(&[(40.0, 0.0)]);
        assert!((run.old_fraction_out(ml(f64::NAN)).value - 1.0).abs() < f64::EPSILON);
        assert!(run.old_left_inside(ml(f64::INFINITY)).value.abs() < f64::EPSILON);
    }
}
