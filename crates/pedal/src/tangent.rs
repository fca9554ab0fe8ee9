//! Travels under the readings' forces, and how they change with everything unknown.

use crate::equilibrium::{Press, Rest};
use crate::mechanism::{Mechanism, SettledMechanism};
use crate::whereabouts::Whereabouts;
use bleedwright_mechanism::AirPocket;
use bleedwright_mechanism::{Choice, Unknown};

/// A reading in plain numbers.
#[derive(Clone, Debug)]
pub(crate) struct PlainReading {
    /// Least and most.
    pub(crate) force_n: [f64; 2],
    /// Which of the shares says where between them it lies, counted from the last one; none where it is known.
    pub(crate) force_from_end: Option<usize>,
    pub(crate) travel_mm: f64,
    pub(crate) deviation_mm: f64,
    pub(crate) is_pumped: bool,
    pub(crate) is_boosted: bool,
}

impl PlainReading {
    /// The press at one place of the air and of the forces.
    pub(crate) fn press(&self, air: Vec<AirPocket>, shares: &[f64]) -> Press {
        let [least, most] = self.force_n;
        let force_n = match self.force_from_end {
            Some(from_end) => least * (most / least).powf(shares[shares.len() - 1 - from_end]),
            None => least,
        };
        Press {
            force_n,
            is_boosted: self.is_boosted,
            is_pumped: self.is_pumped,
            lost: None,
            air,
        }
    }
}

/// A mechanism with its unknowns at one place, and with each of them moved a step.
pub(crate) struct Neighbourhood {
    pub(crate) here: SettledMechanism,
    moved: Vec<(SettledMechanism, f64)>,
}

/// Travels at one place, and their slopes there.
pub(crate) struct Tangent {
    /// By readings, in mm.
    pub(crate) travels: Vec<f64>,
    /// By readings, then by the mechanism's unknowns, the shares of the air and those of the forces.
    pub(crate) slopes: Vec<Vec<f64>>,
    /// Whether a piston is on its stop in any of the readings.
    pub(crate) is_on_stop: bool,
}

/// Step for derivatives, as a share of the range of an unknown.
const STEP: f64 = 0.05;

/// Steps lead towards the middle of a range.
const MIDDLE: f64 = 0.5;

impl Neighbourhood {
    pub(crate) fn new(mechanism: &Mechanism, unknowns: &[Unknown], shares: &[f64]) -> Self {
        let choice = choice(unknowns, shares);
        let moved = unknowns
            .iter()
            .zip(shares)
            .map(|(unknown, share)| {
                let step = inwards(*share);
                let there = choice.clone().with(*unknown, share + step);
                (mechanism.settle(&there), step)
            })
            .collect();
        Self {
            here: mechanism.settle(&choice),
            moved,
        }
    }

    /// The same with pistons that can pass their stops: on a stop nothing changes, and so nothing points to what would
    /// free it.
    pub(crate) fn endless(mut self) -> Self {
        self.here.take_stops_away();
        for (moved, _) in &mut self.moved {
            moved.take_stops_away();
        }
        self
    }

    pub(crate) fn tangent(
        &self,
        readings: &[PlainReading],
        whereabouts: &Whereabouts,
        air_ml: f64,
        shares: &[f64],
    ) -> Tangent {
        let air = whereabouts.air(air_ml, shares);
        let elsewhere: Vec<(Vec<AirPocket>, Vec<f64>, f64)> = (0..shares.len())
            .map(|index| {
                let mut moved = shares.to_vec();
                let step = inwards(moved[index]);
                moved[index] += step;
                (whereabouts.air(air_ml, &moved), moved, step)
            })
            .collect();
        let mut tangent = Tangent {
            travels: Vec::with_capacity(readings.len()),
            slopes: Vec::with_capacity(readings.len()),
            is_on_stop: false,
        };
        for reading in readings {
            let press = reading.press(air.clone(), shares);
            let here = self.here.press(&press);
            tangent.is_on_stop |= here.is_on_stop();
            let slope = |there: &Rest, step: f64| (there.travel_mm - here.travel_mm) / step;
            let of_mechanism = self
                .moved
                .iter()
                .map(|(moved, step)| slope(&moved.press(&press), *step));
            let of_shares = elsewhere.iter().map(|(air, moved, step)| {
                let press = reading.press(air.clone(), moved);
                slope(&self.here.press(&press), *step)
            });
            tangent.slopes.push(of_mechanism.chain(of_shares).collect());
            tangent.travels.push(here.travel_mm);
        }
        tangent
    }
}

fn inwards(share: f64) -> f64 {
    if share > MIDDLE { -STEP } else { STEP }
}

/// The unknowns at shares of their ranges.
pub(crate) fn choice(unknowns: &[Unknown], shares: &[f64]) -> Choice {
    unknowns
        .iter()
        .zip(shares)
        .fold(Choice::nominal(), |choice, (unknown, share)| {
            choice.with(*unknown, *share)
        })
}
