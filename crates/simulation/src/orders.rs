//! How much the order of the screws matters: every admissible order, simulated.

use crate::bleed::simulate;
use crate::not_followed::not_followed;
use crate::outcome::NotFollowed;
use crate::parameters::Parameters;
use crate::permutations::{MOST_ORDERS, Permutations};
use crate::stroke::SimulationError;
use bleedwright_network::{Network, ScrewId};
use bleedwright_planner::{Options, Plan, Step, plan};
use uom::si::f64::{Ratio, Time, Volume};

/// The work that all orders together may take where nobody says how many are to be tried, see [`work_of_one`].
///
/// ASSUMPTION: as much as 400 orders of a car with eight screws and an anti-lock unit, so that no such car is cut short.
/// Measured on layouts of 10 to 301 screws: 1 to 6 s on one core, since fluid that mixes at many joints takes longer.
const MOST_WORK: u64 = 40_000;

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
    /// Where the limit ended the search; then `best` and `worst` are those of a
    /// part, and nothing is known of the rest.
    pub part: Option<Part>,
    /// What none of these simulations follows.
    pub not_followed: Vec<NotFollowed>,
}

/// A part of all orders.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// How many different orders were looked at, refused ones among them.
    pub looked_at: usize,
    /// How many orders these screws have; none where a number of JSON holds it
    /// no more.
    pub of: Option<u64>,
    /// The power of ten that this number has at least.
    pub of_power_of_ten: u32,
}

/// Simulates the orders in which the screws of a plan can be opened: up to
/// `most`, else as many as a limited work allows. `show` is told before each
/// order how many were looked at, and of how many.
///
/// # Errors
///
/// As [`simulate`].
pub fn every_order(
    network: &Network,
    options: &Options,
    derived: &Plan,
    parameters: &Parameters,
    most: Option<usize>,
    mut show: impl FnMut(usize, usize),
) -> Result<Orders, SimulationError> {
    let names: Vec<String> = derived.steps.iter().flat_map(Step::screw_names).collect();
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
    let most = most.unwrap_or_else(|| most_orders(network, derived));
    let mut permutations = Permutations::new(names.len(), most);
    while let Some(permutation) = permutations.next_one() {
        show(tried + refused, permutations.most());
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
        is_sampled: permutations.is_sample(),
        part: permutations.is_part().then(|| Part {
            looked_at: tried + refused,
            of: permutations.all(),
            of_power_of_ten: power_of_ten(names.len()),
        }),
        not_followed: not_followed(network, options, derived),
    })
}

/// So many orders are tried where nobody says how many.
fn most_orders(network: &Network, plan: &Plan) -> usize {
    let affordable = MOST_WORK / work_of_one(network, plan);
    usize::try_from(affordable).map_or(MOST_ORDERS, |most| most.clamp(1, MOST_ORDERS))
}

/// What one order costs, in lines and parts passed: once to work out the push of every screw along its whole run, which
/// takes as long as following a hundred strokes along it.
fn work_of_one(network: &Network, plan: &Plan) -> u64 {
    let run = |screw: ScrewId| 2 * u64::from(network.depth(network.screw_place(screw).cell));
    let hundredths = plan.steps.iter().map(|step| {
        let runs: u64 = step.screws.iter().map(|screw| run(screw.id)).sum();
        runs * (100 + strokes_of(step))
    });
    (hundredths.sum::<u64>() / 100).max(1)
}

/// The power of ten that the number of orders of so many screws has at least.
fn power_of_ten(screws: usize) -> u32 {
    (1..=screws).map(|nth| (nth as f64).log10()).sum::<f64>() as u32
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
        screws: plan.steps.iter().flat_map(Step::screw_names).collect(),
        strokes: plan.steps.iter().map(strokes_of).sum(),
        pushed: plan.steps.iter().map(|step| step.push.nominal).sum(),
        time: outcome.time,
        air_left: outcome.air_left,
        old_left_fraction: outcome.old_left_fraction,
    })
}
fn strokes_of(step: &Step) -> u64 {
    step.strokes().map_or(0, |strokes| strokes.nominal)
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
