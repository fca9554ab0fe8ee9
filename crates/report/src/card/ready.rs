//! The words of what to have at hand, and of what to buy.

use super::bought::use_text;
use super::tools::spanners;
use crate::number::{ml_mark, ml_or_l};
use crate::said::{Said, bare, figure, say};
use bleedwright_planner::Plan;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// What stands in a jar at its zero, over the end of the hose (common practice, no source).
const UNDER_ZERO_ML: u64 = 50;

/// What to have at hand before the work begins.
pub(super) fn ready(plan: &Plan) -> Said {
    let mut ready = vec![say!("{} fluid", bottles(plan))];
    ready.extend(vessels(plan));
    ready.extend(spanners(plan.all_steps().flat_map(|step| &step.screws)));
    Said::joined(ready, ", ")
}

fn bottles(plan: &Plan) -> Said {
    let bottles = (plan.buy.bottles.iter()).map(|(size, count)| match count {
        1 => figure(ml_or_l(*size)),
        _ => figure(format_args!("{count} x {}", ml_or_l(*size))),
    });
    Said::joined(bottles, " + ")
}

/// What to buy, as a sum.
pub(super) fn buy(plan: &Plan) -> Said {
    let parts = (plan.buy.parts.iter())
        .map(|(what, volume)| say!("{} {}", use_text(*what), figure(ml_mark(*volume))));
    let routine = plan.buy.if_routine.map_or_else(Said::default, |volume| {
        say!(
            " Not counted: {} ml more if the anti-lock unit's routine is run and its circuits bled again.",
            figure(ml_mark(volume))
        )
    });
    say!(
        "{} ml = {}. Bottles: {}.{}",
        figure(ml_mark(plan.buy.needed)),
        Said::joined(parts, " + "),
        bottles(plan),
        routine
    )
}

/// The jars, which hold what a step may come to, and the can for what a syringe draws off.
fn vessels(plan: &Plan) -> Vec<Said> {
    let mut vessels: Vec<Said> = (plan.jars().iter())
        .map(|jar| {
            // With what stands under its zero, in a size that there is.
            let holds_ml = (jar.holds_ml + UNDER_ZERO_ML).div_ceil(50) * 50;
            let holds = figure(ml_or_l(Volume::new::<milliliter>(holds_ml as f64)));
            let of = jar.circuit.as_deref();
            let of = of.map(|circuit| say!(" ({})", bare(circuit)));
            say!("jar {}{}", holds, of.unwrap_or_default())
        })
        .collect();
    let drawn_off = plan.drawn_off();
    if drawn_off > Volume::default() {
        vessels.push(say!("waste can {}", figure(ml_or_l(drawn_off))));
    }
    vessels
}
