//! The words of when a step is done.

use super::filled::lowest_text;
use super::level::without_block;
use crate::number::{ml_mark, spelt};
use crate::said::{Said, figure, say};
use bleedwright_planner::{Before, Method, Plan, Progress, Purpose};

/// When a step is done, and what holds in each of them.
pub(super) fn done(plan: &Plan) -> Vec<Said> {
    let clear = plan
        .steps
        .first()
        .map_or(Progress::Strokes(0), |step| step.stop_rule.clear);
    let colour = match plan.head.purpose {
        Purpose::Renew => ", new colour",
        Purpose::Air | Purpose::Fill => "",
    };
    let mut done = vec![match clear {
        Progress::Strokes(clear) => say!(
            "DONE when the ml are out AND {} strokes ran clear, no bubble{}.",
            figure(spelt(clear as f64)),
            colour
        ),
        Progress::Volume(clear) => say!(
            "DONE when the ml are out AND the last {} ran clear, no bubble{}.",
            figure(format_args!("{} ml", ml_mark(clear))),
            colour
        ),
    }];
    let preparations = plan.preparations.iter();
    let level = preparations.filter_map(|before| match (before, plan.head.method) {
        (_, Method::Pressure | Method::Reverse) => None,
        (Before::NewFluid { take_offs, .. }, _) => Some(lowest_text(take_offs)),
        _ => None,
    });
    let rules = plan.all_steps().flat_map(|step| &step.level_rules);
    let level: Vec<Said> = level.chain(without_block(rules)).collect();
    done.push(Said::paragraph(&level));
    if plan.head.method != Method::Reverse {
        done.push(say!(
            "Jar runs on; a screw took more: add that to its later marks."
        ));
    }
    if plan.head.method != Method::Reverse && plan.head.purpose != Purpose::Renew {
        done.push(say!("Air raises no jar."));
    }
    done.retain(|it| !it.is_empty());
    done
}
