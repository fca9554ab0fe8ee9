//! The words of what changes from one plan to another.

use crate::card::here_text;
use crate::words::{listed, quoted};
use bleedwright_network::Split;
use bleedwright_planner::{Method, WhyHere};
use bleedwright_simulation::{Difference, WhyAmount};
use uom::si::f64::Volume;
use uom::si::ratio::percent;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// One thing that is not the same, and why.
pub(crate) fn difference_text(difference: &Difference) -> String {
    match difference {
        Difference::Circuits { splits, circuits } => {
            let [one, other] = circuits.each_ref().map(|circuits| {
                listed(circuits, "; ", |(name, screws)| {
                    format!("{name}: {}", screws.join(", "))
                })
            });
            let [split, other_split] = splits.map(Split::word);
            format!(
                "the circuits are others, so other screws share pipes and go together: split {split} ({one}) \
                 against {other_split} ({other})"
            )
        }
        Difference::Order { place, there } => {
            let [one, other] = there.each_ref().map(|there| there_text(there.as_ref()));
            format!("the order parts at place {place}: {one} against {other}")
        }
        Difference::OnlyIn { screw, is_first } => {
            let side = if *is_first { "first" } else { "second" };
            format!("`{screw}` is opened only in the {side}")
        }
        Difference::Amount { screw, pushes, why } => {
            let why = why.as_ref().map_or_else(String::new, why_text);
            format!("`{screw}` takes {}{why}", against_ml(pushes))
        }
        Difference::PushedTheSame => "in all both push almost the same".to_owned(),
        Difference::Pushed(more) => format!(
            "in all the second pushes {:.0} % {}",
            more.get::<percent>().abs(),
            if more.value > 0.0 { "more" } else { "less" }
        ),
        Difference::Buy { needed, pushed } => {
            let [one, other] = pushed.map(|volume| volume.get::<milliliter>());
            format!(
                "to buy: {}, of which pushed at most {one:.0} ml and {other:.0} ml; the \
                 rest fills reservoir and tank, or is spilt",
                against_ml(needed)
            )
        }
        Difference::Time(times) => {
            let [one, other] = times.map(|time| time.get::<second>());
            format!("time at the screws: {one:.0} s against {other:.0} s")
        }
        Difference::AirLeft(air) => {
            let [one, other] = air.map(|volume| volume.get::<milliliter>());
            format!("air left when simulated: {one:.1} ml against {other:.1} ml")
        }
        Difference::Hands {
            hands: [one, other],
            methods,
        } => {
            let [method, other_method] = methods.map(Method::word);
            format!(
                "people needed: {one} against {other}, by the {method} and the {other_method} method"
            )
        }
    }
}

fn there_text(there: Option<&(String, Option<WhyHere>)>) -> String {
    there.map_or_else(
        || "nothing".to_owned(),
        |(screw, why)| {
            let why = why.as_ref().map_or_else(String::new, here_text);
            format!("`{screw}` ({why})")
        },
    )
}

fn why_text(why: &WhyAmount) -> String {
    let named = |names: &[String]| match names {
        [] => "nothing".to_owned(),
        _ => quoted(names),
    };
    match why {
        WhyAmount::NotPushedBefore([one, other]) => format!(
            ": {:.0} ml of its run were not pushed through before, against {:.0} ml",
            one.get::<milliliter>(),
            other.get::<milliliter>()
        ),
        WhyAmount::RunHolds(contents) => format!(": its run holds {}", against_ml(contents)),
        WhyAmount::Together([one, other]) => {
            format!(
                ": opened together with {} against {}",
                named(one),
                named(other)
            )
        }
        WhyAmount::RightBefore([one, other]) => format!(
            ": right before it in its circuit {} against {}",
            named(one.as_slice()),
            named(other.as_slice())
        ),
    }
}

fn against_ml(volumes: &[Volume; 2]) -> String {
    let [one, other] = volumes.map(|volume| volume.get::<milliliter>());
    format!("{one:.0} ml against {other:.0} ml")
}
