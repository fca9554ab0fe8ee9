//! How well an amount of air explains the readings, everything unknown being free to help.
//!
//! Formula: `chi2(a) = min over u of sum_i ((y_i - g_i(a, u)) / s_i)^2 + sum_k ((u_k - m_k) / d_k)^2`, the minimum by
//! linearising `g` in `u` (twice) and taking the readings one after the other, as in a Kalman filter.
//!
//! Symbols: `a` volume of air (ml); `u_k` where an unknown stands between its low (0) and its high bound (1), spread
//! evenly around `m_k = 1/2` and so with a variance `d_k^2` of 1/12; or the share of the air that is in one place, as
//! likely all or nothing, with a variance of 1/4; or where on a scale of ratios a force stands that was not measured, evenly
//! too; `y_i` measured and `g_i` computed travel (mm); `s_i` standard
//! deviation of a reading (mm).
//!
//! Source: [Gelb1974](crate#sources) for the filter, [Pawitan2001](crate#sources) for bounds from a profile.

use crate::equilibrium::Rest;
use crate::mechanism::{Mechanism, SettledMechanism};
use crate::tangent::{Neighbourhood, PlainReading, Tangent, choice};
use crate::whereabouts::Whereabouts;
use bleedwright_mechanism::Unknown;

/// Variance of a value that lies evenly anywhere between 0 and 1.
const EVEN_VARIANCE: f64 = 1.0 / 12.0;

/// Variance of a value that is 0 or 1.
const EITHER_VARIANCE: f64 = 1.0 / 4.0;

/// Where an unknown stands before anything was read.
const MIDDLE: f64 = 0.5;

/// Linearisations where a piston may be on its stop, at most.
const STEPS_NEAR_A_STOP: u32 = 8;

/// Parts of a step that are tried, the first that gains anything is taken.
const PARTS_OF_A_STEP: [f64; 3] = [1.0, 0.5, 0.2];

/// What a further linearisation must gain.
const WORTH_A_STEP: f64 = 0.02;

/// The readings, and the mechanism with every unknown in the middle of its range.
pub(crate) struct Surroundings<'m> {
    mechanism: &'m Mechanism,
    readings: &'m [PlainReading],
    unknowns: Vec<Unknown>,
    /// How many of the forces were not measured.
    rough_forces: usize,
    middle: Neighbourhood,
    endless: Neighbourhood,
}

impl<'m> Surroundings<'m> {
    pub(crate) fn new(mechanism: &'m Mechanism, readings: &'m [PlainReading]) -> Self {
        let unknowns = mechanism.unknowns();
        let shares = vec![MIDDLE; unknowns.len()];
        Self {
            mechanism,
            readings,
            rough_forces: readings
                .iter()
                .filter(|reading| reading.force_from_end.is_some())
                .count(),
            middle: Neighbourhood::new(mechanism, &unknowns, &shares),
            endless: Neighbourhood::new(mechanism, &unknowns, &shares).endless(),
            unknowns,
        }
    }
}

/// How well an amount of air explains the readings.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fit {
    pub(crate) misfit: f64,
    /// Whether every reading leaves a piston on its stop, so that more air would not show.
    pub(crate) is_hidden: bool,
    /// What is left of the stroke of the piston that is nearest to its stop under any of the readings, in mm.
    pub(crate) left_mm: f64,
}

impl Default for Fit {
    fn default() -> Self {
        Self {
            misfit: f64::INFINITY,
            is_hidden: false,
            left_mm: f64::INFINITY,
        }
    }
}

impl Fit {
    fn or(self, other: Self) -> Self {
        if other.misfit < self.misfit {
            other
        } else {
            self
        }
    }
}

/// What the readings say about amounts of air in some circuits.
pub(crate) struct Profile<'m> {
    around: &'m Surroundings<'m>,
    whereabouts: Whereabouts,
    /// Shares of the air to begin with, and of the forces that were not measured.
    starts: Vec<Vec<f64>>,
}

impl<'m> Profile<'m> {
    pub(crate) fn new(around: &'m Surroundings<'m>, whereabouts: Whereabouts) -> Self {
        let mut starts = whereabouts.starts();
        for start in &mut starts {
            start.extend(vec![MIDDLE; around.rough_forces]);
        }
        Self {
            around,
            whereabouts,
            starts,
        }
    }

    /// How well an amount of air can explain the readings.
    pub(crate) fn fit(&self, air_ml: f64) -> Fit {
        let mut best = Fit::default();
        for (nth, start) in self.starts.iter().enumerate() {
            let is_on_stop = self
                .rests(&self.around.middle.here, air_ml, start)
                .iter()
                .any(Rest::is_on_stop);
            if is_on_stop {
                let tangent = self.tangent(&self.around.middle, air_ml, start);
                best = best.or(self.led_on(tangent, air_ml, start));
            }
            // Before the stops travels are straight lines in the shares, and one start says it all.
            if nth == 0 {
                let tangent = self.tangent(&self.around.endless, air_ml, start);
                best = best.or(self.led_on(tangent, air_ml, start));
            }
        }
        best
    }

    fn rests(&self, at: &SettledMechanism, air_ml: f64, shares: &[f64]) -> Vec<Rest> {
        let air = self.whereabouts.air(air_ml, shares);
        self.around
            .readings
            .iter()
            .map(|reading| at.press(&reading.press(air.clone(), shares)))
            .collect()
    }

    fn tangent(&self, at: &Neighbourhood, air_ml: f64, shares: &[f64]) -> Tangent {
        at.tangent(self.around.readings, &self.whereabouts, air_ml, shares)
    }

    /// The fit where the readings lead to along a tangent from the middle of everything.
    fn led_on(&self, mut tangent: Tangent, air_ml: f64, start: &[f64]) -> Fit {
        let around = self.around;
        let count = around.unknowns.len();
        let first = self.filter(&tangent, &[&vec![MIDDLE; count][..], start].concat());
        let there = first.place();
        let (rests, left_mm) = self.rests_at(&there, air_ml);
        if !tangent.is_on_stop && !rests.iter().any(Rest::is_on_stop) {
            // Before the stops the slopes hardly change.
            tangent.travels = rests.iter().map(|rest| rest.travel_mm).collect();
            return Fit {
                misfit: self.filter(&tangent, &there).misfit,
                is_hidden: false,
                left_mm,
            };
        }
        // A straight line leads astray there: only what a place itself explains counts.
        let mut best = self.explained(&there, &rests, left_mm);
        let mut place = there;
        for _ in 0..STEPS_NEAR_A_STOP {
            let (unknowns, shares) = place.split_at(count);
            let near = Neighbourhood::new(around.mechanism, &around.unknowns, unknowns);
            let aim = self.aim(&self.tangent(&near, air_ml, shares), &place);
            let mut is_better = false;
            // Where a whole step leads across a stop, a part of it may not.
            for part in PARTS_OF_A_STEP {
                let between = |(from, to): (&f64, &f64)| from + part * (to - from);
                let there: Vec<f64> = place.iter().zip(&aim).map(between).collect();
                let (rests, left_mm) = self.rests_at(&there, air_ml);
                let here = self.explained(&there, &rests, left_mm);
                is_better = here.misfit < best.misfit - WORTH_A_STEP;
                best = best.or(here);
                if is_better {
                    place = there;
                    break;
                }
            }
            if !is_better {
                break;
            }
        }
        best
    }

    /// Where everything comes to rest at one place of everything unknown, and how near a piston is to its stop, in mm.
    fn rests_at(&self, place: &[f64], air_ml: f64) -> (Vec<Rest>, f64) {
        let around = self.around;
        let (unknowns, shares) = place.split_at(around.unknowns.len());
        let here = around.mechanism.settle(&choice(&around.unknowns, unknowns));
        let rests = self.rests(&here, air_ml, shares);
        let left = rests.iter().map(|rest| here.stroke_left_mm(rest));
        let left_mm = left.fold(f64::INFINITY, f64::min);
        (rests, left_mm)
    }

    /// What one place of everything unknown explains.
    fn explained(&self, place: &[f64], rests: &[Rest], left_mm: f64) -> Fit {
        let prior = self.prior();
        let unlikely: f64 = (0..place.len())
            .map(|nth| (place[nth] - prior.mean[nth]).powi(2) / prior.covariance[nth][nth])
            .sum();
        let missed: f64 = self
            .around
            .readings
            .iter()
            .zip(rests)
            .map(|(it, rest)| ((it.travel_mm - rest.travel_mm) / it.deviation_mm).powi(2))
            .sum();
        Fit {
            misfit: unlikely + missed,
            is_hidden: rests.iter().all(Rest::is_on_stop),
            left_mm,
        }
    }

    /// Where the readings lead to along a tangent while every unknown keeps to its range: one that would leave it is held at
    /// its end, and the others are found again.
    fn aim(&self, tangent: &Tangent, from: &[f64]) -> Vec<f64> {
        let mut held: Vec<Option<f64>> = vec![None; from.len()];
        loop {
            let mut prior = self.prior();
            for (nth, end) in held.iter().enumerate() {
                if let Some(end) = end {
                    prior.hold(nth, *end);
                }
            }
            let found = self.filtered(prior, tangent, from).mean;
            let mut is_inside = true;
            for (mean, held) in found.iter().zip(&mut held) {
                if held.is_none() && !(0.0..=1.0).contains(mean) {
                    *held = Some(mean.clamp(0.0, 1.0));
                    is_inside = false;
                }
            }
            if is_inside {
                return found;
            }
        }
    }

    fn prior(&self) -> Filter {
        Filter::new(
            self.around.unknowns.len(),
            &self.starts[0],
            self.around.rough_forces,
        )
    }

    /// Takes the readings one after the other.
    fn filter(&self, tangent: &Tangent, from: &[f64]) -> Filter {
        self.filtered(self.prior(), tangent, from)
    }

    fn filtered(&self, mut estimate: Filter, tangent: &Tangent, from: &[f64]) -> Filter {
        let rows = tangent.slopes.iter().zip(&tangent.travels);
        for (reading, (slopes, travel_mm)) in self.around.readings.iter().zip(rows) {
            let moved: f64 = slopes
                .iter()
                .zip(estimate.mean.iter().zip(from))
                .map(|(slope, (mean, from))| slope * (mean - from))
                .sum();
            let surprise = reading.travel_mm - travel_mm - moved;
            estimate.take(slopes, surprise, reading.deviation_mm);
        }
        estimate
    }
}

/// Means and covariances of the unknowns, and the misfit so far.
struct Filter {
    mean: Vec<f64>,
    covariance: Vec<Vec<f64>>,
    misfit: f64,
}

impl Filter {
    fn new(unknowns: usize, shares: &[f64], rough_forces: usize) -> Self {
        let count = unknowns + shares.len();
        let of_air = unknowns..count - rough_forces;
        let mut covariance = vec![vec![0.0; count]; count];
        for (index, row) in covariance.iter_mut().enumerate() {
            row[index] = if of_air.contains(&index) {
                EITHER_VARIANCE
            } else {
                EVEN_VARIANCE
            };
        }
        let mut mean = vec![MIDDLE; unknowns];
        mean.extend(shares);
        Self {
            mean,
            covariance,
            misfit: 0.0,
        }
    }

    /// Takes one of the unknowns for known.
    fn hold(&mut self, nth: usize, value: f64) {
        self.mean[nth] = value;
        for row in &mut self.covariance {
            row[nth] = 0.0;
        }
        self.covariance[nth].fill(0.0);
    }

    /// The means, within their ranges.
    fn place(&self) -> Vec<f64> {
        self.mean.iter().map(|mean| mean.clamp(0.0, 1.0)).collect()
    }

    /// Takes one reading: how it depends on the unknowns, by how much it surprises, how far it is trusted.
    fn take(&mut self, slope: &[f64], surprise: f64, deviation: f64) {
        let gain: Vec<f64> = self
            .covariance
            .iter()
            .map(|row| row.iter().zip(slope).map(|(a, b)| a * b).sum())
            .collect();
        let variance =
            deviation * deviation + gain.iter().zip(slope).map(|(a, b)| a * b).sum::<f64>();
        self.misfit += surprise * surprise / variance;
        for (mean, gain) in self.mean.iter_mut().zip(&gain) {
            *mean += gain * surprise / variance;
        }
        for (row, left) in self.covariance.iter_mut().zip(&gain) {
            for (entry, right) in row.iter_mut().zip(&gain) {
                *entry -= left * right / variance;
            }
        }
    }
}
