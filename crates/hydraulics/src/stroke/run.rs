//! The integration from the start of a run to its end.

use super::error::{StrokeError, checked_s};
use super::motion::Stretch;
use super::network::StrokeNetwork;
use super::step::Stepper;
use super::tolerances::StrokeTolerances;
use super::trace::{StrokeSample, Trace};
use uom::si::f64::Time;
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
    /// Follows the network from rest for a time. The trace has the states at the start, at the times asked for and at the
    /// end.
    ///
    /// Formula: see [`StrokeNetwork`]; a Rosenbrock method of order four, stiffly accurate and L-stable, with its
    /// Jacobian by formula, and steps that end at every kink of a motion.
    ///
    /// Source: [Steinebach1995](crate#sources), [Hairer1996](crate#sources).
    pub fn run(
        &self,
        until: Time,
        asked: &[Time],
        tolerances: &StrokeTolerances,
    ) -> Result<Trace, StrokeError> {
        let until_s = checked_s(until.get::<second>())?;
        let asked_s = checked_asked_s(asked, until_s)?;
        let mut stepper = Stepper::new(self, *tolerances);
        let mut trace = Trace {
            samples: Vec::new(),
            steps: 0,
        };
        trace.sample(self, &stepper, 0.0);
        let mut rejected = 0;
        let mut next_step_s = FIRST_STEP * until_s;
        for stop_s in self.stops_s(until_s, &asked_s) {
            let stretch = Stretch {
                begin_s: stepper.now.time_s,
                end_s: stop_s,
            };
            if stretch.end_s - stretch.begin_s > LEAST_STRETCH * until_s {
                next_step_s = cross(
                    &mut stepper,
                    stretch,
                    next_step_s,
                    (&mut trace.steps, &mut rejected),
                )?;
            }
            if asked_s
                .binary_search_by(|time_s| time_s.total_cmp(&stop_s))
                .is_ok()
                || stop_s >= until_s
            {
                trace.sample(self, &stepper, stop_s);
            }
        }
        Ok(trace)
    }

    /// Every time at which a step must end, rising, with the end of the run as the last.
    fn stops_s(&self, until_s: f64, asked_s: &[f64]) -> Vec<f64> {
        let kinks = self
            .pistons
            .iter()
            .flat_map(|piston| piston.motion.kinks_s().iter().copied());
        let mut stops_s: Vec<f64> = kinks
            .chain(asked_s.iter().copied())
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
    (steps, rejected): (&mut usize, &mut usize),
) -> Result<f64, StrokeError> {
    let mut wanted_s = first_step_s;
    let mut may_grow = true;
    loop {
        let time_s = stepper.now.time_s;
        let left_s = stretch.end_s - time_s;
        if *steps + *rejected >= MOST_STEPS {
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
        // An error that is no number compares as false.
        if error <= 1.0 {
            let most = if may_grow { MOST_GROWTH } else { 1.0 };
            let growth = (CAUTION / error.powf(0.25)).clamp(MOST_SHRINK, most);
            may_grow = true;
            // A step that was cut short to meet a stop says little about the next one.
            wanted_s = (step_s * growth).max(if step_s < wanted_s { wanted_s } else { 0.0 });
            *steps += 1;
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
            *rejected += 1;
        }
    }
}

fn checked_asked_s(asked: &[Time], until_s: f64) -> Result<Vec<f64>, StrokeError> {
    let mut times_s = Vec::with_capacity(asked.len());
    for time in asked {
        let asked_s = checked_s(time.get::<second>())?;
        if asked_s > until_s {
            return Err(StrokeError::AskedAfterEnd { asked_s, until_s });
        }
        times_s.push(asked_s);
    }
    times_s.sort_by(f64::total_cmp);
    Ok(times_s)
}

impl Trace {
    fn sample(&mut self, network: &StrokeNetwork, stepper: &Stepper<'_>, time_s: f64) {
        if self
            .samples
            .last()
            .is_some_and(|last| last.time_s >= time_s)
        {
            return;
        }
        let now = &stepper.now;
        self.samples.push(StrokeSample {
            time_s,
            levels: now.levels.clone(),
            has_pocket: (network.stores.iter())
                .map(|store| store.pocket.is_some())
                .collect(),
            ends_pa: network.ends_pa.clone(),
            delivered_m3: now.delivered_m3.clone(),
        });
    }
}
