//! Comparisons as JSON.

use super::simulation::NotFollowedJson;
use super::{SCHEMA_VERSION, each, ml};
use crate::difference::difference_text;
use crate::said::Said;
use bleedwright_planner::Plan;
use bleedwright_simulation::{OrderOutcome, Orders, Part, Side, changes};
use schemars::JsonSchema;
use serde::Serialize;
use uom::si::ratio::ratio;
use uom::si::time::second;

/// Two plans or more side by side.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ComparisonJson {
    /// The version of this document.
    pub schema_version: u32,
    /// What is compared.
    pub sides: Vec<SideJson>,
    /// What changes from the first to each of the others.
    pub changes: Vec<ChangesJson>,
}

/// One plan and what following it comes to.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SideJson {
    /// The file, or the options.
    pub label: String,
    /// The vehicle.
    pub vehicle: String,
    /// How its circuits are shared among the wheels.
    pub split: String,
    /// `renew`, `air` or `fill`.
    pub purpose: String,
    /// `pedal`, `pressure`, `vacuum`, `gravity` or `reverse`.
    pub method: String,
    /// The screws in their order.
    pub order: Vec<String>,
    /// Fluid pushed.
    pub pushed_ml: f64,
    /// Strokes to count to; null where none are counted.
    pub strokes: Option<u64>,
    /// How long the steps take.
    pub time_s: f64,
    /// How many people it takes.
    pub hands: u8,
    /// New fluid drawn at most.
    pub buy_ml: f64,
    /// Air left by the simulation.
    pub air_left_ml: f64,
    /// Whether that is the least, since places in `not_followed` may hold air.
    pub is_air_left_the_least: bool,
    /// Air that left by gravity before the first step; none where that was left
    /// out.
    pub air_by_gravity_ml: f64,
    /// What the simulation does not follow.
    pub not_followed: Vec<NotFollowedJson>,
    /// Old fluid left by the simulation, as a share of the contents.
    pub old_left_fraction: Option<f64>,
}

/// What changes from the first side to another.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChangesJson {
    /// The other side, counted from zero.
    pub to: usize,
    /// What changes, and why.
    pub changes: Vec<Said>,
}

impl ComparisonJson {
    /// The document of a comparison.
    pub fn new(sides: &[Side]) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            changes: (1..sides.len())
                .map(|to| ChangesJson {
                    to,
                    changes: each(&changes(&sides[0], &sides[to]), difference_text),
                })
                .collect(),
            sides: each(sides, side),
        }
    }
}

fn side(side: &Side) -> SideJson {
    let head = &side.plan.head;
    SideJson {
        label: side.label.clone(),
        vehicle: head.vehicle.clone(),
        split: head.split.word().to_owned(),
        purpose: head.purpose.word().to_owned(),
        method: head.method.word().to_owned(),
        order: side.order().into_iter().map(str::to_owned).collect(),
        pushed_ml: ml(side.pushed()),
        strokes: side.strokes(),
        time_s: side.time().get::<second>(),
        hands: side.plan.hands,
        buy_ml: ml(side.plan.buy.needed),
        air_left_ml: ml(side.outcome.air_left),
        is_air_left_the_least: side.outcome.is_air_left_the_least(),
        air_by_gravity_ml: ml(side.outcome.air_by_gravity),
        not_followed: NotFollowedJson::list(&side.outcome.not_followed),
        old_left_fraction: side.outcome.old_left_fraction.map(|old| old.get::<ratio>()),
    }
}

/// Every admissible order of the screws, simulated.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OrdersJson {
    /// The version of this document.
    pub schema_version: u32,
    /// The vehicle.
    pub vehicle: String,
    /// How many orders were simulated.
    pub tried: usize,
    /// How many break a rule of the pipework.
    pub refused: usize,
    /// Whether there are more orders than were tried.
    pub is_sampled: bool,
    /// Where the limit ended the search: how much of all orders was looked at.
    /// `best` and `worst` are then those of this part, and nothing is known of
    /// the rest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<PartJson>,
    /// What none of these simulations follows.
    pub not_followed: Vec<NotFollowedJson>,
    /// The order of the plan: the user's, the maker's, or the one that the
    /// pipework gives.
    pub default: OrderJson,
    /// The maker's, where the layout has one.
    pub maker: Option<OrderJson>,
    /// Least air left, then least old fluid left, then least fluid pushed, then
    /// fewest strokes.
    pub best: OrderJson,
    /// The opposite.
    pub worst: OrderJson,
}

/// A part of all orders.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PartJson {
    /// How many different orders were looked at, `tried` and `refused` together.
    pub looked_at: usize,
    /// How many orders these screws have; null from 19 screws on, where a number
    /// of JSON holds it no more.
    pub of: Option<u64>,
    /// The power of ten that this number has at least.
    pub of_power_of_ten: u32,
}

/// One order and what it comes to.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OrderJson {
    /// The screws in this order.
    pub screws: Vec<String>,
    /// Strokes to count to.
    pub strokes: u64,
    /// Fluid pushed.
    pub pushed_ml: f64,
    /// How long the simulated bleed took.
    pub time_s: f64,
    /// Air left.
    pub air_left_ml: f64,
    /// Old fluid left as a share of the contents.
    pub old_left_fraction: Option<f64>,
    /// Whether it is the order of the plan.
    pub is_of_plan: bool,
}

impl OrdersJson {
    /// The document of every order.
    pub fn new(plan: &Plan, orders: &Orders) -> Self {
        let order = |this: &OrderOutcome| order(this, &orders.of_plan);
        Self {
            schema_version: SCHEMA_VERSION,
            vehicle: plan.head.vehicle.clone(),
            tried: orders.tried,
            refused: orders.refused,
            is_sampled: orders.is_sampled,
            part: orders.part.map(part),
            not_followed: NotFollowedJson::list(&orders.not_followed),
            default: order(&orders.of_plan),
            maker: orders.maker.as_ref().map(order),
            best: order(&orders.best),
            worst: order(&orders.worst),
        }
    }
}

fn part(part: Part) -> PartJson {
    PartJson {
        looked_at: part.looked_at,
        of: part.of,
        of_power_of_ten: part.of_power_of_ten,
    }
}

fn order(order: &OrderOutcome, of_plan: &OrderOutcome) -> OrderJson {
    OrderJson {
        screws: order.screws.clone(),
        strokes: order.strokes,
        pushed_ml: ml(order.pushed),
        time_s: order.time.get::<second>(),
        air_left_ml: ml(order.air_left),
        old_left_fraction: order.old_left_fraction.map(|old| old.get::<ratio>()),
        is_of_plan: order.screws == of_plan.screws,
    }
}
