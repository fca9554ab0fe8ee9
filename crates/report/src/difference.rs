//! The words of what changes from one plan to another.

use crate::card::here_text;
use crate::said::{Said, bare, bares, figure, name, names, say};
use bleedwright_network::Split;
use bleedwright_planner::{Method, WhyHere};
use bleedwright_simulation::{Difference, WhyAmount};
use uom::si::f64::Volume;
use uom::si::ratio::percent;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// One thing that is not the same, and why.
pub(crate) fn difference_text(difference: &Difference) -> Said {
    match difference {
        Difference::Circuits { splits, circuits } => {
            let [one, other] = circuits.each_ref().map(|circuits| {
                let circuits = circuits.iter();
                let circuits =
                    circuits.map(|(name, screws)| say!("{}: {}", bare(name), bares(screws)));
                Said::joined(circuits, "; ")
            });
            let [split, other_split] = splits.map(Split::word);
            say!(
                "the circuits are others, so other screws share pipes and go together: split {} ({}) \
                 against {} ({})",
                split,
                one,
                other_split,
                other
            )
        }
        Difference::Order { place, there } => {
            let [one, other] = there.each_ref().map(|there| there_text(there.as_ref()));
            say!(
                "the order parts at place {}: {} against {}",
                figure(place),
                one,
                other
            )
        }
        Difference::OnlyIn { screw, is_first } => {
            let side = if *is_first { "first" } else { "second" };
            say!("{} is opened only in the {}", name(screw), side)
        }
        Difference::Amount { screw, pushes, why } => {
            let why = why.as_ref().map_or_else(Said::default, why_text);
            say!("{} takes {}{}", name(screw), against_ml(pushes), why)
        }
        Difference::PushedTheSame => say!("in all both push almost the same"),
        Difference::Pushed(more) => say!(
            "in all the second pushes {} % {}",
            figure(format_args!("{:.0}", more.get::<percent>().abs())),
            if more.value > 0.0 { "more" } else { "less" }
        ),
        Difference::Buy { needed, pushed } => {
            let [one, other] = pushed.map(|volume| volume.get::<milliliter>());
            say!(
                "to buy: {}, of which pushed at most {} ml and {} ml; the \
                 rest fills reservoir and tank, or is spilt",
                against_ml(needed),
                figure(format_args!("{one:.0}")),
                figure(format_args!("{other:.0}"))
            )
        }
        Difference::Time(times) => {
            let [one, other] = times.map(|time| time.get::<second>());
            say!(
                "time at the screws: {} s against {} s",
                figure(format_args!("{one:.0}")),
                figure(format_args!("{other:.0}"))
            )
        }
        Difference::AirLeft(air) => {
            let [one, other] = air.map(|volume| volume.get::<milliliter>());
            say!(
                "air left when simulated: {} ml against {} ml",
                figure(format_args!("{one:.1}")),
                figure(format_args!("{other:.1}"))
            )
        }
        Difference::Hands {
            hands: [one, other],
            methods,
        } => {
            let [method, other_method] = methods.map(Method::word);
            say!(
                "people needed: {} against {}, by the {} and the {} method",
                figure(one),
                figure(other),
                method,
                other_method
            )
        }
    }
}

fn there_text(there: Option<&(String, Option<WhyHere>)>) -> Said {
    there.map_or_else(
        || say!("nothing"),
        |(screw, why)| {
            let why = why.as_ref().map_or_else(Said::default, here_text);
            say!("{} ({})", name(screw), why)
        },
    )
}

fn why_text(why: &WhyAmount) -> Said {
    let named = |those: &[String]| match those {
        [] => say!("nothing"),
        _ => names(those),
    };
    match why {
        WhyAmount::NotPushedBefore([one, other]) => say!(
            ": {} ml of its run were not pushed through before, against {} ml",
            figure(format_args!("{:.0}", one.get::<milliliter>())),
            figure(format_args!("{:.0}", other.get::<milliliter>()))
        ),
        WhyAmount::RunHolds(contents) => say!(": its run holds {}", against_ml(contents)),
        WhyAmount::Together([one, other]) => {
            say!(
                ": opened together with {} against {}",
                named(one),
                named(other)
            )
        }
        WhyAmount::RightBefore([one, other]) => say!(
            ": right before it in its circuit {} against {}",
            named(one.as_slice()),
            named(other.as_slice())
        ),
    }
}

fn against_ml(volumes: &[Volume; 2]) -> Said {
    let [one, other] = volumes.map(|volume| volume.get::<milliliter>());
    say!(
        "{} ml against {} ml",
        figure(format_args!("{one:.0}")),
        figure(format_args!("{other:.0}"))
    )
}
