//! The integration from the start of a run to its end.

use super::error::{StrokeError, checked_s};
use super::motion::Stretch;
use super::network::{Branch, NodeId, Place, StrokeNetwork};
use super::state::StrokeState;
use super::step::Stepper;
use super::tolerances::StrokeTolerances;
use super::trace::{MOST_GAUGE_PA, StrokeSample, StrokeWarning, Trace};
use uom::si::f64::{Pressure, Time};
use uom::si::pressure::pascal;
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
    /// Follows the network from a state for a time. The trace has the states at the start, at the times asked for and
    /// at the end.
    ///
    /// Formula: see [`StrokeNetwork`]; a Rosenbrock method of order four, stiffly accurate and L-stable, with its
    /// Jacobian by formula, and steps that end at every kink of a motion and every shutting of a branch.
    ///
    /// Source: [Steinebach1995](crate#sources), [Hairer1996](crate#sources).
    pub fn run(
        &self,
        start: &StrokeState,
        until: Time,
        asked: &[Time],
        tolerances: &StrokeTolerances,
    ) -> Result<Trace, StrokeError> {
        let until_s = checked_s(until.get::<second>())?;
        let asked_s = checked_asked_s(asked, until_s)?;
        if start.stored_m3.len() != self.stores.len()
            || start.flows_m3_per_s.len() != self.branches.len()
        {
            return Err(StrokeError::ForeignState);
        }
        // What another network stored may be more than a pocket here can give.
        let mut stepper =
            Stepper::new(self, start, *tolerances).ok_or(StrokeError::ForeignState)?;
        stepper.switch(0.0);
        let mut log = Log::new(self, &stepper);
        let mut next_step_s = FIRST_STEP * until_s;
        for stop_s in self.stops_s(until_s, &asked_s) {
            let stretch = Stretch {
                begin_s: stepper.now.time_s,
                end_s: stop_s,
            };
            if stretch.end_s - stretch.begin_s > LEAST_STRETCH * until_s {
                next_step_s = self.cross(&mut stepper, stretch, next_step_s, &mut log)?;
            }
            if asked_s
                .binary_search_by(|time_s| time_s.total_cmp(&stop_s))
                .is_ok()
                || stop_s >= until_s
            {
                log.sample(self, &stepper, stop_s);
            }
            stepper.switch(stop_s);
        }
        Ok(log.into_trace(&stepper))
    }

    /// Steps through one stretch without kinks; the size that the next step might have.
    fn cross(
        &self,
        stepper: &mut Stepper<'_>,
        stretch: Stretch,
        first_step_s: f64,
        log: &mut Log,
    ) -> Result<f64, StrokeError> {
        let mut wanted_s = first_step_s;
        let mut may_grow = true;
        loop {
            let time_s = stepper.now.time_s;
            let left_s = stretch.end_s - time_s;
            if log.trace.steps + log.trace.rejected >= MOST_STEPS {
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
                log.trace.steps += 1;
                stepper.accept(if is_last {
                    stretch.end_s
                } else {
                    time_s + step_s
                });
                log.note_step(self, stepper);
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
                log.trace.rejected += 1;
            }
        }
    }

    /// Every time at which a step must end, rising, with the end of the run as the last.
    fn stops_s(&self, until_s: f64, asked_s: &[f64]) -> Vec<f64> {
        let kinks = self
            .pistons
            .iter()
            .flat_map(|piston| piston.motion.kinks_s().iter().copied());
        let changes = self.branches.iter().flat_map(Branch::change_times_s);
        let mut stops_s: Vec<f64> = kinks
            .chain(changes)
            .chain(asked_s.iter().copied())
            .filter(|&time_s| time_s > 0.0 && time_s < until_s)
            .collect();
        stops_s.push(until_s);
        stops_s.sort_by(f64::total_cmp);
        stops_s.dedup();
        stops_s
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

/// Collects the trace.
struct Log {
    trace: Trace,
    start_m3: Vec<f64>,
    start_travels_m: Vec<f64>,
    lowest_pa: Vec<f64>,
    highest_pa: Vec<f64>,
    atmosphere_pa: f64,
}

impl Log {
    fn new(network: &StrokeNetwork, stepper: &Stepper<'_>) -> Self {
        let nodes = network.stores.len();
        let mut log = Self {
            trace: Trace {
                samples: Vec::new(),
                end_state: StrokeState {
                    stored_m3: Vec::new(),
                    flows_m3_per_s: Vec::new(),
                },
                steps: 0,
                rejected: 0,
                residual_m3: 0.0,
                moved_m3: 0.0,
                warnings: Vec::new(),
            },
            start_m3: stepper.now.stored_m3.clone(),
            start_travels_m: stepper.now.travels_m.clone(),
            lowest_pa: vec![f64::INFINITY; nodes],
            highest_pa: vec![f64::NEG_INFINITY; nodes],
            atmosphere_pa: network.atmosphere_pa,
        };
        log.note_step(network, stepper);
        log.sample(network, stepper, 0.0);
        log
    }

    fn note_step(&mut self, network: &StrokeNetwork, stepper: &Stepper<'_>) {
        let now = &stepper.now;
        let bounds = self.lowest_pa.iter_mut().zip(&mut self.highest_pa);
        for ((lowest_pa, highest_pa), level) in bounds.zip(&now.levels) {
            *lowest_pa = lowest_pa.min(level.gauge_pa);
            *highest_pa = highest_pa.max(level.gauge_pa);
        }
        let mut moved_m3 = self.trace.moved_m3;
        for volume_m3 in &now.delivered_m3 {
            moved_m3 = moved_m3.max(volume_m3.abs());
        }
        for volume_m3 in self.displaced_m3(network, stepper) {
            moved_m3 = moved_m3.max(volume_m3.abs());
        }
        self.trace.moved_m3 = moved_m3;
    }

    /// What each piston pushed in since the start.
    fn displaced_m3<'n>(
        &'n self,
        network: &'n StrokeNetwork,
        stepper: &'n Stepper<'_>,
    ) -> impl Iterator<Item = f64> + 'n {
        let travels = stepper.now.travels_m.iter().zip(&self.start_travels_m);
        let pistons = network.pistons.iter().zip(travels);
        pistons.map(|(piston, (now_m, start_m))| piston.area_m2 * (now_m - start_m))
    }

    fn sample(&mut self, network: &StrokeNetwork, stepper: &Stepper<'_>, time_s: f64) {
        if self
            .trace
            .samples
            .last()
            .is_some_and(|last| last.time_s >= time_s)
        {
            return;
        }
        let now = &stepper.now;
        let displaced_m3: Vec<f64> = self.displaced_m3(network, stepper).collect();
        self.check_balance(network, stepper, &displaced_m3);
        self.trace.samples.push(StrokeSample {
            time_s,
            levels: now.levels.clone(),
            has_pocket: network
                .stores
                .iter()
                .map(|store| store.pocket.is_some())
                .collect(),
            ends_pa: network.ends_pa.clone(),
            delivered_m3: now.delivered_m3.clone(),
            flows_m3_per_s: stepper.flows_m3_per_s(),
            displaced_m3,
        });
    }

    /// What each node holds by its pressure and pocket, against what came and went.
    fn check_balance(
        &mut self,
        network: &StrokeNetwork,
        stepper: &Stepper<'_>,
        displaced_m3: &[f64],
    ) {
        let mut came_m3 = vec![0.0; network.stores.len()];
        for (piston, &volume_m3) in network.pistons.iter().zip(displaced_m3) {
            came_m3[piston.node] += volume_m3;
        }
        for (branch, &volume_m3) in network.branches.iter().zip(&stepper.now.delivered_m3) {
            if let Place::Node(node) = branch.from {
                came_m3[node] -= volume_m3;
            }
            if let Place::Node(node) = branch.to {
                came_m3[node] += volume_m3;
            }
        }
        for (node, store) in network.stores.iter().enumerate() {
            let held_m3 = store.stored_m3(stepper.now.levels[node]);
            let residual_m3 = (held_m3 - self.start_m3[node] - came_m3[node]).abs();
            self.trace.residual_m3 = self.trace.residual_m3.max(residual_m3);
        }
    }

    fn into_trace(self, stepper: &Stepper<'_>) -> Trace {
        let mut trace = self.trace;
        trace.end_state = StrokeState {
            stored_m3: stepper.now.stored_m3.clone(),
            flows_m3_per_s: stepper.now.flows_m3_per_s.clone(),
        };
        for (index, (lowest_pa, highest_pa)) in
            self.lowest_pa.iter().zip(&self.highest_pa).enumerate()
        {
            let node = NodeId(Place::Node(index));
            let absolute_pa = lowest_pa + self.atmosphere_pa;
            if absolute_pa < 0.0 {
                trace.warnings.push(StrokeWarning::BelowVacuum {
                    node,
                    lowest: Pressure::new::<pascal>(absolute_pa),
                });
            }
            if *highest_pa > MOST_GAUGE_PA {
                trace.warnings.push(StrokeWarning::AbovePedal {
                    node,
                    highest: Pressure::new::<pascal>(*highest_pa),
                });
            }
        }
        trace
    }
}
