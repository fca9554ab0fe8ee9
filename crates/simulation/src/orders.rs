//! How much the order of the screws matters: every admissible order, simulated.

use crate::bleed::{SimulationError, simulate};
use crate::not_followed::not_followed;
use crate::outcome::NotFollowed;
use crate::parameters::Parameters;
use bleedwright_network::Network;
use bleedwright_planner::{Drive, Options, Plan, plan};
use uom::si::f64::{Ratio, Time, Volume};

/// Orders tried before a sample stands for all of them.
pub const MOST_ORDERS: usize = 400;

/// One order and what it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderOutcome {
    /// The screws in this order.
    pub screws: Vec<String>,
    /// Strokes of the plan in this order; nothing where none are counted.
    pub strokes: u64,
    /// Fluid pushed by the plan.
    pub pushed: Volume,
    /// How long the simulated bleed took.
    pub time: Time,
    /// Air left by the simulation.
    pub air_left: Volume,
    /// Old fluid left by the simulation, as a share of the contents.
    pub old_left_fraction: Option<Ratio>,
}

/// Every admissible order, or a sample of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Orders {
    /// The order of the plan: the user's, the maker's, or the one that the
    /// pipework gives.
    pub of_plan: OrderOutcome,
    /// The maker's, where the layout has one.
    pub maker: Option<OrderOutcome>,
    /// The best of all: least air left, then least old fluid left, then least
    /// fluid pushed, then fewest strokes. Of equals the plan's own.
    pub best: OrderOutcome,
    /// The worst.
    pub worst: OrderOutcome,
    /// How many orders were simulated.
    pub tried: usize,
    /// How many broke a rule of the pipework and were left out.
    pub refused: usize,
    /// Whether there are more orders than were tried.
    pub is_sampled: bool,
    /// What none of these simulations follows.
    pub not_followed: Vec<NotFollowed>,
}

/// Simulates the orders in which the screws of a plan can be opened.
///
/// # Errors
///
/// As [`simulate`].
pub fn every_order(
    network: &Network,
    options: &Options,
    derived: &Plan,
    parameters: &Parameters,
) -> Result<Orders, SimulationError> {
    let names: Vec<String> = derived
        .steps
        .iter()
        .flat_map(|step| step.screws.iter().map(|screw| screw.screw.clone()))
        .collect();
    let of_plan = outcome(network, options, derived, parameters)?;
    let maker = match &network.layout().maker_order {
        Some(order) if options.order.is_none() => {
            let options = with_order(options, order.clone());
            match plan(network, &options).plan {
                Some(plan) => Some(outcome(network, &options, &plan, parameters)?),
                None => None,
            }
        }
        _ => None,
    };
    let (mut best, mut worst) = (of_plan.clone(), of_plan.clone());
    let (mut tried, mut refused) = (0, 0);
    let mut permutations = Permutations::new(names.len());
    while let Some(permutation) = permutations.next_one() {
        if tried + refused >= MOST_ORDERS {
            break;
        }
        let order = permutation.iter().map(|nth| names[*nth].clone()).collect();
        let options = with_order(options, order);
        let planned = plan(network, &options);
        let Some(plan) = planned.plan.filter(|plan| !plan.is_unsafe_by_options) else {
            refused += 1;
            continue;
        };
        tried += 1;
        let this = outcome(network, &options, &plan, parameters)?;
        if this.is_better_than(&best) {
            best = this.clone();
        }
        if worst.is_better_than(&this) {
            worst = this;
        }
    }
    Ok(Orders {
        of_plan,
        maker,
        best,
        worst,
        tried,
        refused,
        is_sampled: permutations.is_sample,
        not_followed: not_followed(network, options, derived),
    })
}

fn with_order(options: &Options, order: Vec<String>) -> Options {
    Options {
        order: Some(order),
        ..options.clone()
    }
}

fn outcome(
    network: &Network,
    options: &Options,
    plan: &Plan,
    parameters: &Parameters,
) -> Result<OrderOutcome, SimulationError> {
    let outcome = simulate(network, options, plan, parameters)?;
    Ok(OrderOutcome {
        screws: plan
            .steps
            .iter()
            .flat_map(|step| step.screws.iter().map(|screw| screw.screw.clone()))
            .collect(),
        strokes: plan
            .steps
            .iter()
            .map(|step| match step.drive {
                Drive::Strokes { strokes, .. } => strokes.nominal,
                Drive::Steady { .. } => 0,
            })
            .sum(),
        pushed: plan
            .steps
            .iter()
            .fold(Volume::default(), |sum, step| sum + step.push.nominal),
        time: outcome.time,
        air_left: outcome.air_left,
        old_left_fraction: outcome.old_left_fraction,
    })
}

/// Air that nobody could measure tells no two orders apart.
const SAME_AIR_M3: f64 = 1e-9;

/// So much old fluid more or less, as a share of the contents, is the same.
const SAME_OLD_SHARE: f64 = 0.005;

/// So much fluid more or less is the same.
const SAME_PUSH_SHARE: f64 = 0.001;

impl OrderOutcome {
    fn is_better_than(&self, other: &Self) -> bool {
        let air = self.air_left.value - other.air_left.value;
        if air.abs() > SAME_AIR_M3 {
            return air < 0.0;
        }
        let old = |one: &Self| one.old_left_fraction.map_or(0.0, |old| old.value);
        let old = old(self) - old(other);
        if old.abs() > SAME_OLD_SHARE {
            return old < 0.0;
        }
        let pushed = self.pushed - other.pushed;
        if pushed.abs() > self.pushed * SAME_PUSH_SHARE {
            return pushed < Volume::default();
        }
        self.strokes < other.strokes
    }
}

/// All permutations in order, or random ones where there are too many.
struct Permutations {
    current: Option<Vec<usize>>,
    is_sample: bool,
    seed: u64,
}

impl Permutations {
    fn new(count: usize) -> Self {
        let all = (1..=count).try_fold(1_usize, usize::checked_mul);
        Self {
            current: Some((0..count).collect()),
            is_sample: all.is_none_or(|all| all > MOST_ORDERS),
            seed: 1,
        }
    }

    fn next_one(&mut self) -> Option<Vec<usize>> {
        let this = self.current.clone()?;
        self.current = if self.is_sample {
            Some(self.shuffled(&this))
        } else {
            following(this.clone())
        };
        Some(this)
    }

    /// The same sample every time: a linear congruential generator with the
    /// constants of MMIX (Knuth 1997) moves Fisher and Yates' cards.
    fn shuffled(&mut self, cards: &[usize]) -> Vec<usize> {
        let mut cards = cards.to_vec();
        for last in (1..cards.len()).rev() {
            self.seed = self
                .seed
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let pick = (self.seed >> 33) as usize % (last + 1);
            cards.swap(last, pick);
        }
        cards
    }
}

/// The next permutation in lexicographic order.
fn following(mut cards: Vec<usize>) -> Option<Vec<usize>> {
    let pivot = cards.windows(2).rposition(|pair| pair[0] < pair[1])?;
    let larger = cards.iter().rposition(|card| *card > cards[pivot])?;
    cards.swap(pivot, larger);
    cards[pivot + 1..].reverse();
    Some(cards)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_permutation_comes_once() {
        let mut permutations = Permutations::new(4);
        let mut seen = BTreeSet::new();
        while let Some(permutation) = permutations.next_one() {
            assert!(seen.insert(permutation));
        }
        assert_eq!(seen.len(), 24);
    }

    #[test]
    fn a_sample_is_said_to_be_one() {
        assert!(!Permutations::new(5).is_sample);
        let mut many = Permutations::new(8);
        assert!(many.is_sample);
        let first: Vec<_> = (0..3).filter_map(|_| many.next_one()).collect();
        let mut sorted = first[2].clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..8).collect::<Vec<_>>());
        assert_ne!(first[1], first[2]);
    }
}
