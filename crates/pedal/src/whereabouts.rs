//! Where air can be: how it may be shared between circuits, and in each between the ends.

use crate::mechanism::Mechanism;
use bleedwright_mechanism::{AirPocket, Curve};

/// Circuits that may hold air. Its shares are unknown, each between 0 and 1: first what every circuit but the last one
/// has of the whole, then, for circuits with a valve that holds pressure, how much of theirs is behind the valve.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Whereabouts {
    circuits: Vec<InCircuit>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct InCircuit {
    chamber: (usize, usize),
    /// The last zone behind a valve that holds pressure; none without one.
    behind: Option<usize>,
}

/// Shares to begin with beside even ones, for one circuit.
const MOST_IN_ONE: [f64; 2] = [0.8, 1.0];

/// What is behind a valve to begin with.
const HALF: f64 = 0.5;

impl Whereabouts {
    /// Air in these chambers, by their places in the mechanism.
    pub(crate) fn new(mechanism: &Mechanism, is_meant: impl Fn((usize, usize)) -> bool) -> Self {
        let circuits = mechanism
            .places()
            .into_iter()
            .zip(mechanism.chambers())
            .filter(|(place, _)| is_meant(*place))
            .map(|(chamber, pedal_chamber)| InCircuit {
                chamber,
                behind: pedal_chamber.zones.iter().rposition(|zone| {
                    matches!(zone.curve, Curve::Residual { .. } | Curve::Metering { .. })
                }),
            });
        Self {
            circuits: circuits.collect(),
        }
    }

    /// Shares from which everything else is found: even ones first, then most of the air in one place.
    pub(crate) fn starts(&self) -> Vec<Vec<f64>> {
        let count = self.circuits.len();
        let valves = self
            .circuits
            .iter()
            .filter(|it| it.behind.is_some())
            .count();
        let even = vec![1.0 / count as f64; count - 1];
        let start = |of_circuits: &[f64], behind: f64| -> Vec<f64> {
            let behind = std::iter::repeat_n(behind, valves);
            of_circuits.iter().copied().chain(behind).collect()
        };
        let mut starts = vec![start(&even, HALF)];
        if count > 1 {
            for one in 0..count {
                for most in MOST_IN_ONE {
                    let others = (1.0 - most) / (count - 1) as f64;
                    let shares: Vec<f64> = (0..count - 1)
                        .map(|it| if it == one { most } else { others })
                        .collect();
                    starts.push(start(&shares, HALF));
                }
            }
        }
        if valves > 0 {
            starts.extend([0.0, 1.0].map(|behind| start(&even, behind)));
        }
        starts
    }

    /// The pockets of an amount of air.
    pub(crate) fn air(&self, air_ml: f64, shares: &[f64]) -> Vec<AirPocket> {
        let (of_circuits, of_behind) = shares.split_at(self.circuits.len() - 1);
        let rest = (1.0 - of_circuits.iter().sum::<f64>()).max(0.0);
        let mut of_behind = of_behind.iter();
        let mut pockets = Vec::with_capacity(2 * self.circuits.len());
        for (circuit, share) in self.circuits.iter().zip(of_circuits.iter().chain([&rest])) {
            let mut add = |zone, part: f64| {
                pockets.push(AirPocket {
                    chamber: circuit.chamber,
                    zone,
                    volume_ml: air_ml * share * part,
                });
            };
            match circuit.behind {
                Some(zone) => {
                    let behind = of_behind.next().copied().unwrap_or(HALF);
                    add(0, 1.0 - behind);
                    add(zone, behind);
                }
                None => add(0, 1.0),
            }
        }
        pockets
    }
}
