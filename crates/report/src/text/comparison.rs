//! Plans side by side, and every order of one.

use super::paper::Paper;
use super::simulation::not_followed_text;
use crate::card::why_this_school;
use crate::difference::difference_text;
use crate::number::{duration, ml, ml_mark, ml_or_l, two_figures};
use crate::words::listed;
use bleedwright_network::Bounds;
use bleedwright_planner::Plan;
use bleedwright_simulation::{OrderOutcome, Orders, Part, Side, changes};
use uom::si::f64::Volume;
use uom::si::ratio::percent;

/// Reads a value of one side as it is printed.
type Read = fn(&Side) -> String;

/// Writes two plans or more for a sheet of `paper`'s width.
pub fn comparison_text(sides: &[Side], mut paper: Paper) -> String {
    paper.heading("COMPARED");
    for (nth, side) in sides.iter().enumerate() {
        paper.item(
            &format!("{}  ", letter(nth)),
            &format!("{}: {}", side.plan.head.vehicle, side.label),
        );
    }
    let rows: [(&str, Read); 10] = [
        ("split", |side| side.plan.head.split.word().to_owned()),
        ("for, method", |side| {
            let head = &side.plan.head;
            format!("{}, {}", head.purpose.word(), head.method.word())
        }),
        ("screws opened", |side| side.order().len().to_string()),
        ("pushed", |side| format!("{} ml", ml_mark(side.pushed()))),
        ("strokes", |side| {
            side.strokes()
                .map_or("-".to_owned(), |strokes| strokes.to_string())
        }),
        ("time at the screws", |side| {
            duration(Bounds::exact(side.time()))
        }),
        ("people", |side| side.plan.hands.to_string()),
        ("to buy", |side| ml_or_l(side.plan.buy.needed)),
        ("air left, simulated", |side| {
            let least = if side.outcome.is_air_left_the_least() {
                " at least"
            } else {
                ""
            };
            format!("{} ml{least}", ml(side.outcome.air_left))
        }),
        ("old fluid left", |side| {
            side.outcome
                .old_left_fraction
                .map_or("-".to_owned(), |old| {
                    format!("{} %", two_figures(old.get::<percent>()))
                })
        }),
    ];
    for (label, read) in rows {
        let values = listed(sides.iter().enumerate(), " ", |(nth, side)| {
            format!("{} {:<14}", letter(nth), read(side))
        });
        paper.item(&format!("{label:<21}"), values.trim_end());
    }
    for (nth, side) in sides.iter().enumerate() {
        if !side.outcome.not_followed.is_empty() {
            let text = not_followed_text(&side.outcome.not_followed);
            paper.warning(&format!("{} {text}", letter(nth)));
        }
    }
    for (nth, side) in sides.iter().enumerate() {
        if !side.plan.gravity_first.is_empty() && side.outcome.air_by_gravity <= Volume::default() {
            let text = "simulated without the filling by gravity that the plan asks for.";
            paper.paragraph(&format!("{} {text}", letter(nth)));
        }
    }
    paper.heading("ORDER");
    for (nth, side) in sides.iter().enumerate() {
        paper.item(&format!("{}  ", letter(nth)), &side.order().join(", "));
    }
    for nth in 1..sides.len() {
        paper.heading(&format!(
            "WHAT CHANGES FROM {} TO {}",
            letter(0),
            letter(nth)
        ));
        let changes = changes(&sides[0], &sides[nth]);
        if changes.is_empty() {
            paper.item("-  ", "nothing.");
        }
        for change in &changes {
            paper.item("-  ", &format!("{}.", difference_text(change)));
        }
    }
    paper.into_text()
}

/// The name of a side.
pub(crate) fn letter(nth: usize) -> char {
    char::from(b'A' + (nth % 26) as u8)
}

/// Writes what every order comes to.
pub fn orders_text(plan: &Plan, orders: &Orders, mut paper: Paper) -> String {
    let title = if orders.part.is_some() {
        "SOME ORDERS"
    } else {
        "EVERY ORDER"
    };
    paper.heading(&format!("{title}: {}", plan.head.vehicle));
    paper.paragraph(&format!(
        "{} For {}, {} method; each order planned and then simulated.",
        how_many(orders),
        plan.head.purpose.word(),
        plan.head.method.word()
    ));
    let plans = &orders.of_plan;
    write_order(&mut paper, "the plan", plans, plans);
    if let Some(maker) = &orders.maker {
        write_order(&mut paper, "maker's", maker, plans);
    }
    let [best, worst] = match orders.part {
        Some(Part { looked_at, .. }) => ["best", "worst"].map(|it| format!("{it} of {looked_at} ")),
        None => ["best", "worst"].map(str::to_owned),
    };
    write_order(&mut paper, &best, &orders.best, plans);
    write_order(&mut paper, &worst, &orders.worst, plans);
    if !orders.not_followed.is_empty() {
        paper.warning(&not_followed_text(&orders.not_followed));
    }
    if let Some(why) = why_the_plans(plan, orders) {
        paper.strong_start("WHY THE PLAN'S ORDER ", &why);
    }
    paper.strong_start("HOW MUCH IT MATTERS ", &verdict(orders));
    paper.into_text()
}

/// How many orders were tried, and of how many.
fn how_many(orders: &Orders) -> String {
    let (tried, refused) = (orders.tried, orders.refused);
    if let Some(Part {
        looked_at,
        of,
        of_power_of_ten,
    }) = orders.part
    {
        let all = of.map_or_else(
            || format!("more than 10^{of_power_of_ten}"),
            |of| of.to_string(),
        );
        return format!(
            "{looked_at} of {all} orders, the rest not looked at: the limit was reached (`--most-orders` sets it). {tried} \
             break no rule of the pipework, {refused} would."
        );
    }
    let all = if orders.is_sampled {
        format!("{tried} orders, a sample: there are too many to try all")
    } else {
        format!("all {tried} orders")
    };
    format!("{all} that break no rule of the pipework ({refused} more would).")
}

/// Why the order of the plan is planned, where another takes less fluid.
fn why_the_plans(plan: &Plan, orders: &Orders) -> Option<String> {
    let least = [&orders.best, &orders.worst]
        .into_iter()
        .chain(&orders.maker)
        .map(|order| order.pushed)
        .fold(orders.of_plan.pushed, Volume::min);
    let (least, pushed) = (ml_mark(least), ml_mark(orders.of_plan.pushed));
    (least != pushed).then(|| {
        format!(
            "Another takes less ({least} ml, not {pushed}), but no amount decides: an order that \
             is given comes first, then the rules of the pipework, then the length of the runs. {}",
            why_this_school(plan.head.begin)
        )
    })
}

fn write_order(paper: &mut Paper, label: &str, order: &OrderOutcome, plans: &OrderOutcome) {
    let strokes = match order.strokes {
        0 => String::new(),
        strokes => format!("{strokes} strokes, "),
    };
    let old = order.old_left_fraction.map_or(String::new(), |old| {
        format!(", {} % old fluid left", two_figures(old.get::<percent>()))
    });
    // The plan's own line needs no mark.
    let is_marked = !std::ptr::eq(order, plans) && order.screws == plans.screws;
    let mark = if is_marked { "the plan's: " } else { "" };
    paper.item(
        &format!("{label:<9}"),
        &format!(
            "{mark}{strokes}{} ml, {}, {} ml air left{old}: {}",
            ml_mark(order.pushed),
            duration(Bounds::exact(order.time)),
            ml(order.air_left),
            order.screws.join(", ")
        ),
    );
}

/// Of fewer orders than this, out of many, nothing can be said.
const LEAST_SAMPLE: usize = 20;

/// A difference below this is nothing to anybody.
const LITTLE_PERCENT: f64 = 5.0;

fn verdict(orders: &Orders) -> String {
    let (best, worst) = (&orders.best, &orders.worst);
    let more = if best.pushed.value > 0.0 {
        ((worst.pushed - best.pushed) / best.pushed)
            .get::<percent>()
            .abs()
    } else {
        0.0
    };
    let air = worst.air_left - best.air_left;
    let is_airless = air.value < 1e-7;
    if orders.is_sampled && orders.tried < LEAST_SAMPLE {
        return format!(
            "Not known: only {} admissible orders were found among those tried.",
            orders.tried
        );
    }
    if let Some(Part { looked_at, .. }) = orders.part {
        return format!(
            "Not known: the other orders were not looked at. Of these {looked_at} the worst takes {} % more or less fluid \
             than the best and leaves {} ml more air.",
            two_figures(more),
            ml(air)
        );
    }
    if best == worst {
        return "Not at all: every order comes to the same.".to_owned();
    }
    match (more < LITTLE_PERCENT, is_airless) {
        (true, true) => format!(
            "Almost nothing: the worst order takes {more:.1} % more or less fluid than the best \
             and leaves no more air. What the order does change: which screw carries the shared pipe, \
             and what is pushed past a clear branch if one stops short."
        ),
        (false, true) => format!(
            "The worst order takes {} % more or less fluid than the best and leaves no more air.",
            two_figures(more)
        ),
        (_, false) => format!(
            "The worst order leaves {} ml more air than the best.",
            ml(air)
        ),
    }
}
