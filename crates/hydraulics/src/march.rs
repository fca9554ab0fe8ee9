//! The outflow of a tube sent through stirred cavities, followed interval by interval.
//!
//! The tube's outflow is one smooth function between kinks that are known beforehand: `(a / (v + b))^2`, or with
//! diffusion or mixing at joints `1 / root^2` with a cubic root. An interval never crosses a kink. Its length is set ([`crate::pace`]) so that on it every signal is a polynomial to within the
//! tolerance, so small cavities cost a few short intervals after each kink and nothing later. One interval costs one
//! small elimination for each cavity, whatever their number.

use crate::error::PurgeError;
use crate::legendre::{self, Moments};
use crate::outflow::{Outflow, Shape, Stretch};
use crate::pace::Pace;
use crate::tube::Tube;

/// Intervals tried before giving up. A run of common size needs ten, a chain of three hundred cavities a thousand.
const STEP_LIMIT: usize = 200_000;

/// Cavities smaller than this share of everything on the run delay the outflow by less than any tolerance.
const NEGLIGIBLE_SHARE: f64 = 1e-12;

/// Cavities in the order in which the tube's outflow passes them.
pub(crate) struct March {
    /// Volumes of the cavities that count, in cubic metres.
    volumes_m3: Vec<f64>,
    /// Their old fractions at the present push.
    states: Vec<f64>,
    trial: Vec<f64>,
    pushed_m3: f64,
    pace: Pace,
    tolerance: f64,
    steps: usize,
}

/// One interval of the march: where it began, how long it was, and what left the last cavity.
struct Interval {
    start_m3: f64,
    width_m3: f64,
    outflow: Moments,
    inflow_at_end: f64,
}

impl March {
    /// The tolerance is the share of old fluid by which any signal may differ from its polynomial.
    pub(crate) fn new(
        tube: &Tube,
        tanks: impl Iterator<Item = (f64, f64)> + Clone,
        tolerance: f64,
    ) -> Self {
        let total_m3 =
            tube.contents_m3() + tanks.clone().map(|(volume_m3, _)| volume_m3).sum::<f64>();
        let (volumes_m3, states): (Vec<_>, Vec<_>) = tanks
            .filter(|&(volume_m3, _)| is_counted(volume_m3, total_m3))
            .unzip();
        let first_m3 = volumes_m3.iter().copied().fold(total_m3, f64::min);
        let smallest_m3 = total_m3 * NEGLIGIBLE_SHARE * 1e-2;
        Self {
            trial: states.clone(),
            volumes_m3,
            states,
            pushed_m3: 0.0,
            pace: Pace::new(first_m3, smallest_m3, tolerance),
            tolerance,
            steps: 0,
        }
    }

    pub(crate) fn has_no_cavities(&self) -> bool {
        self.volumes_m3.is_empty()
    }

    /// Old fractions of the cavities that count.
    pub(crate) fn states(&self) -> &[f64] {
        &self.states
    }

    fn outgoing(&self) -> f64 {
        self.states.last().copied().unwrap_or(0.0)
    }

    /// Moves on to a push.
    pub(crate) fn advance_to(
        &mut self,
        outflow: &Outflow<'_>,
        target_m3: f64,
    ) -> Result<(), PurgeError> {
        for stretch in outflow.stretches() {
            self.enter(stretch);
            let end_m3 = stretch.end_m3.min(target_m3);
            while self.pushed_m3 < end_m3 {
                if self.is_all_old(stretch.shape) {
                    self.pushed_m3 = end_m3;
                } else {
                    self.step(stretch.shape, end_m3)?;
                }
            }
            if self.pushed_m3 >= target_m3 {
                break;
            }
        }
        Ok(())
    }

    /// The push after which the outflow stays at or below a level for good.
    ///
    /// A cavity gives a mean of what it held and what flowed in, so once the tube's outflow and all cavities are at
    /// or below the level, nothing can rise above it again. The answer is the last fall through it before that.
    pub(crate) fn push_m3_to_stay_below(
        &mut self,
        outflow: &Outflow<'_>,
        level: f64,
    ) -> Result<f64, PurgeError> {
        let mut last_fall_m3 = 0.0;
        for stretch in outflow.stretches() {
            self.enter(stretch);
            while self.pushed_m3 < stretch.end_m3 {
                if self.is_all_old(stretch.shape) {
                    self.pushed_m3 = stretch.end_m3;
                    continue;
                }
                let was_above = self.outgoing() > level;
                let interval = self.step(stretch.shape, stretch.end_m3)?;
                let is_below = self.outgoing() <= level;
                if is_below && (was_above || legendre::upper_bound(&interval.outflow) > level) {
                    if let Some(share) = legendre::last_fall(&interval.outflow, level) {
                        last_fall_m3 = interval.start_m3 + share * interval.width_m3;
                    } else if was_above {
                        // The level lies in the tiny gap between two polynomials.
                        last_fall_m3 = interval.start_m3;
                    }
                }
                if interval.inflow_at_end.max(stretch.later) <= level
                    && self.states.iter().all(|&state| state <= level)
                {
                    return Ok(last_fall_m3);
                }
            }
        }
        Err(PurgeError::NotSettled { steps: self.steps })
    }

    fn enter(&mut self, stretch: Stretch) {
        match stretch.shape {
            Shape::Constant(_) | Shape::Piece { .. } => self.pace.begin_stretch(),
            Shape::Falling { lead_m3, .. } => self.pace.begin_fall(self.pushed_m3 + lead_m3),
        }
    }

    /// Whether nothing changes because old fluid flows through old fluid.
    fn is_all_old(&self, shape: Shape) -> bool {
        matches!(shape, Shape::Constant(value) if value >= 1.0)
            && self.states.iter().all(|&state| state >= 1.0)
    }

    /// Makes one interval that ends at the limit or before.
    fn step(&mut self, shape: Shape, limit_m3: f64) -> Result<Interval, PurgeError> {
        loop {
            if self.steps >= STEP_LIMIT {
                return Err(PurgeError::NotSettled { steps: self.steps });
            }
            self.steps += 1;
            let trial = self.pace.trial(self.pushed_m3, limit_m3);
            let (start_m3, width_m3) = (trial.start_m3, trial.width_m3);

            let mut signal = shape.over(start_m3, width_m3);
            let mut excess = self.excess(&signal, 0.0);
            for (index, &volume_m3) in self.volumes_m3.iter().enumerate() {
                let start = self.states[index];
                signal = legendre::stir(&signal, start, width_m3 / volume_m3);
                self.trial[index] = legendre::end_value(&signal).clamp(0.0, 1.0);
                excess = excess.max(self.excess(&signal, start));
            }

            if self.pace.accepts(trial, excess) {
                std::mem::swap(&mut self.states, &mut self.trial);
                self.pushed_m3 = if trial.is_landing {
                    limit_m3
                } else {
                    start_m3 + width_m3
                };
                return Ok(Interval {
                    start_m3,
                    width_m3,
                    outflow: signal,
                    inflow_at_end: shape.at(self.pushed_m3),
                });
            }
        }
    }

    /// By how much a signal's neglected part exceeds what is allowed.
    fn excess(&self, signal: &Moments, start: f64) -> f64 {
        // Below this share of the signal itself the last terms are rounding.
        let rounding = 1e-14 * start.max(signal[0].abs());
        legendre::tail(signal) / self.tolerance.max(rounding)
    }
}

/// Whether a cavity is large enough to be followed.
pub(crate) fn is_counted(volume_m3: f64, total_m3: f64) -> bool {
    volume_m3 > total_m3 * NEGLIGIBLE_SHARE
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diffusion::Diffusion;
    use crate::tube::Segment;
    use uom::si::f64::Volume;
    use uom::si::volume::cubic_meter;

    fn tube(parts: &[(f64, f64)]) -> Tube {
        let segments = parts
            .iter()
            .map(|&(contents, pushed)| Segment {
                contents: Volume::new::<cubic_meter>(contents),
                pushed_before: Volume::new::<cubic_meter>(pushed),
            })
            .collect();
        Tube::new(segments).expect("the parts are finite")
    }

    /// The stretches are the tube's rule written out, whatever the history.
    #[test]
    fn stretches_agree_with_the_rule() {
        for parts in [
            vec![],
            vec![(0.0, 1.0)],
            vec![(4.0, 0.0)],
            vec![(4.0, 9.0)],
            vec![(40.0, 100.0), (5.0, 0.0)],
            vec![(3.0, 9.0), (1.0, 2.5), (2.0, 0.0)],
            vec![(3.0, 9.0), (1.0, 8.9), (2.0, 0.1), (0.5, 0.05)],
            vec![(1.0, 50.0), (1.0, 0.4), (1.0, 0.3), (9.0, 0.2)],
        ] {
            let tube = tube(&parts);
            let mut start_m3 = 0.0;
            let mut last_end_m3 = 0.0;
            for stretch in Outflow::kept(&tube, Diffusion::NONE).stretches() {
                last_end_m3 = stretch.end_m3;
                let end_m3 = stretch.end_m3.min(start_m3 + 100.0);
                for i in 1..50 {
                    let pushed_m3 = start_m3 + (end_m3 - start_m3) * f64::from(i) / 50.0;
                    let found = stretch.shape.at(pushed_m3);
                    assert!(
                        (found - tube.fraction_at(pushed_m3)).abs() < 1e-12,
                        "{parts:?} {pushed_m3}"
                    );
                }
                assert!(stretch.end_m3 > start_m3 || stretch.end_m3 <= 0.0);
                start_m3 = stretch.end_m3;
            }
            assert!(last_end_m3.is_infinite(), "{parts:?}");
        }
    }

    #[test]
    fn many_kinks_cost_no_more_than_a_few_intervals_each() {
        let parts: Vec<_> = (0..200).map(|i| (1.0, f64::from(400 - 2 * i))).collect();
        let tube = tube(&parts);
        let mut march = March::new(&tube, std::iter::once((20.0, 1.0)), 1e-9);
        march
            .push_m3_to_stay_below(&Outflow::kept(&tube, Diffusion::NONE), 0.05)
            .expect("it settles");
        assert!(march.steps < 1000, "{}", march.steps);
    }

    #[test]
    fn a_long_chain_stays_affordable() {
        let tube = tube(&[(30.0, 0.0)]);
        let tanks = (0..300).map(|i| (1.0 + f64::from(i % 7), 1.0));
        let mut march = March::new(&tube, tanks, 1e-9);
        march
            .push_m3_to_stay_below(&Outflow::kept(&tube, Diffusion::NONE), 0.05)
            .expect("it settles");
        assert!(march.steps < 2000, "{}", march.steps);
    }
}
