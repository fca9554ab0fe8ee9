//! The integration from the start of a run to its end.

use super::error::StrokeError;
use super::motion::Stretch;
use super::network::StrokeNetwork;
use super::state::StrokeState;
use super::step::{Stepper, Tolerance};
use crate::range::zero_or_more;
use uom::si::f64::{Ratio, Time};
use uom::si::time::second;

/// Steps after which a run is given up; a stroke takes some hundred.
const MOST_STEPS: usize = 1_000_000;

/// The share of the whole run that is the first step, before the error says better.
const FIRST_STEP: f64 = 1e-4;

/// A step of less than this share of the time so far is lost in rounding.
const LEAST_STEP: f64 = 1e-14;

/// A stretch shorter than this share of the run is passed over: its ends were meant to be the same.
const LEAST_STRETCH: f64 = 1e-13;

/// How much smaller a step is made than the error asks for.
const CAUTION: f64 = 0.9;
const MOST_SHRINK: f64 = 0.1;
const MOST_GROWTH: f64 = 6.0;

impl StrokeNetwork {
    /// Follows the network from rest for a time, to within a relative tolerance from 1e-12 to 1e-2.
    ///
    /// The error of each step in each pressure, pocket and delivered volume stays below that share of the value and of
    /// 1 bar or 1 ml. The errors of the steps add up, to a few times the tolerance as a rule. The volume balance closes
    /// whatever the tolerance is.
    ///
    /// Formula: see [`StrokeNetwork`]; a Rosenbrock method of order four, stiffly accurate and L-stable, with its
    /// Jacobian by formula, and steps that end at every kink of a motion.
    ///
    /// Source: [Steinebach1995](crate#sources), [Hairer1996](crate#sources).
    pub fn run(&self, until: Time, tolerance: Ratio) -> Result<StrokeState, StrokeError> {
        let until_s = zero_or_more("time of a run", until.get::<second>(), "s")?;
        let mut stepper = Stepper::new(self, Tolerance::new(tolerance)?);
        let mut steps = 0;
        let mut next_step_s = FIRST_STEP * until_s;
        for stop_s in self.stops_s(until_s) {
            let stretch = Stretch {
                begin_s: stepper.now.time_s,
                end_s: stop_s,
            };
            if stretch.end_s - stretch.begin_s > LEAST_STRETCH * until_s {
                next_step_s = cross(&mut stepper, stretch, next_step_s, &mut steps)?;
            }
        }
        Ok(StrokeState {
            levels: stepper.now.levels,
            has_pocket: (self.stores.iter())
                .map(|store| store.pocket.is_some())
                .collect(),
            ends_pa: self.ends_pa.clone(),
            delivered_m3: stepper.now.delivered_m3,
        })
    }

    /// Every time at which a step must end, rising, with the end of the run as the last.
    fn stops_s(&self, until_s: f64) -> Vec<f64> {
        let pistons = self.pistons.iter();
        let kinks = pistons.flat_map(|piston| piston.motion.kinks_s());
        let mut stops_s: Vec<f64> = kinks
            .filter(|&time_s| time_s > 0.0 && time_s < until_s)
            .collect();
        stops_s.push(until_s);
        stops_s.sort_by(f64::total_cmp);
        stops_s.dedup();
        stops_s
    }
}

/// Steps through one stretch without kinks; the size that the next step might have.
fn cross(
    stepper: &mut Stepper<'_>,
    stretch: Stretch,
    first_step_s: f64,
    steps: &mut usize,
) -> Result<f64, StrokeError> {
    let mut wanted_s = first_step_s;
    let mut may_grow = true;
    loop {
        let time_s = stepper.now.time_s;
        let left_s = stretch.end_s - time_s;
        if *steps >= MOST_STEPS {
            return Err(StrokeError::TooManySteps {
                steps: MOST_STEPS,
                time_s,
            });
        }
        // Two equal steps to the end instead of one and a crumb.
        let is_last = wanted_s >= left_s * (1.0 - 1e-9);
        let step_s = if is_last {
            left_s
        } else {
            wanted_s.min(0.5 * left_s)
        };
        if step_s <= LEAST_STEP * stretch.end_s {
            return Err(StrokeError::StepTooSmall { time_s });
        }
        let error = stepper.attempt(step_s, stretch);
        *steps += 1;
        // An error that is no number compares as false.
        if error <= 1.0 {
            let most = if may_grow { MOST_GROWTH } else { 1.0 };
            let growth = (CAUTION / error.powf(0.25)).clamp(MOST_SHRINK, most);
            may_grow = true;
            // A step that was cut short to meet a stop says little about the next one.
            wanted_s = (step_s * growth).max(if step_s < wanted_s { wanted_s } else { 0.0 });
            stepper.accept(if is_last {
                stretch.end_s
            } else {
                time_s + step_s
            });
            if is_last {
                return Ok(wanted_s);
            }
        } else {
            let shrink = if error.is_finite() {
                (CAUTION / error.powf(0.25)).clamp(MOST_SHRINK, CAUTION)
            } else {
                MOST_SHRINK
            };
            // Right after a failure the same would fail again.
            may_grow = false;
            wanted_s = step_s * shrink;
        }
    }
}
