//! One step in words and figures.

use super::column::{Row, rows};
use super::height::height_reason;
use super::least::least;
use super::level::place_of;
use super::note::{hands, notes};
use super::reason::{after_text, here_text};
use super::run::{Run, run};
use crate::number::{duration_within, ml_at_least, ml_range, rounded_ml, two_figures};
use crate::said::{Said, bare, figure, say};
use bleedwright_network::Bounds;
use bleedwright_planner::{
    AtLeast, Drive, JarMark, LevelAction, LevelStop, Plan, Step, StepScrew, Strokes,
    nothing_to_speak_of,
};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;
use uom::si::volume_rate::milliliter_per_second;

/// Above this Reynolds number the flow model does not hold.
const LAMINAR_LIMIT: f64 = 2000.0;

/// One visit to a wheel, as a sheet says it.
#[derive(Clone, Debug)]
pub struct CardStep {
    /// Counted from one.
    pub number: usize,
    /// The screws that are opened, by name.
    pub screws: Vec<String>,
    /// What a hand needs, in columns.
    pub rows: Vec<Row>,
    /// What else changes what hands do, a line each.
    pub hands: Vec<Said>,
    /// Why it stands here.
    pub why: Said,
    /// The bounds of its amount, of its strokes or its flow, and of its time.
    pub bounds: [Said; 3],
    /// The least of every screw on whose run a joint was opened, with that joint.
    pub least: Vec<Said>,
    /// The run of every screw.
    pub runs: Vec<Run>,
    /// What else there is to know, in full.
    pub notes: Vec<Said>,
    /// The strokes to count; none where no strokes drive the fluid.
    pub strokes: Option<u64>,
    /// What goes into the jars in this step, in whole millilitres as printed.
    pub push_ml: u64,
    /// The jar of each screw.
    pub jars: Vec<JarMark>,
    /// When to give up, in millilitres of this step as printed.
    pub give_up_ml: f64,
    /// The stops for the reservoir, as figures.
    pub stops: Vec<CardStop>,
}

/// A stop for the level in the reservoir.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardStop {
    /// The compartment.
    pub compartment: String,
    /// After so many strokes, or millilitres where no strokes are counted;
    /// zero is before the first.
    pub after: u64,
    /// Whether fluid is poured in; else it is drawn off.
    pub is_top_up: bool,
}

impl CardStep {
    /// Screws that are opened together have a jar each.
    pub(super) fn new(step: &Step, plan: &Plan, previous: Option<&Step>) -> Self {
        let is_named = step.screws.len() > 1;
        Self {
            number: step.number,
            screws: step.screw_names().collect(),
            rows: rows(step),
            hands: hands(step, plan),
            why: why(step, previous),
            bounds: bounds(step),
            least: (step.screws.iter())
                .filter_map(|screw| least(screw, is_named))
                .collect(),
            runs: step.screws.iter().map(run).collect(),
            notes: notes(step, plan.head.method),
            strokes: step.strokes().map(|strokes| strokes.nominal),
            push_ml: step.jars.iter().map(|jar| jar.push_ml).sum(),
            jars: step.jars.clone(),
            give_up_ml: rounded_ml(step.stop_rule.give_up),
            stops: step.level_stops.iter().map(card_stop).collect(),
        }
    }

    /// Why it stands here, what its amounts may be, and what else there is to know, in one paragraph.
    pub fn in_full(&self) -> Said {
        let [push, effort, time] = self.bounds.clone();
        let mut all = say!(
            "Step {}, {}: {}. {} ml, {}, {}.",
            figure(self.number),
            bare(&self.name()),
            self.why.clone(),
            push,
            effort,
            time
        );
        for more in &self.least {
            all.extend(say!(" {}", more.clone()));
        }
        for note in &self.notes {
            all.extend(say!(" {}.", note.clone()));
        }
        all
    }

    /// Its screws as one name.
    pub fn name(&self) -> String {
        self.screws.join(" + ")
    }
}

fn card_stop(stop: &LevelStop) -> CardStop {
    CardStop {
        compartment: stop.compartment.clone(),
        after: place_of(stop.after),
        is_top_up: stop.action == LevelAction::TopUp,
    }
}

fn whole_ml(volume: Volume) -> u64 {
    volume.get::<milliliter>().round() as u64
}

/// Inside a circuit the comparison with the step before says it all.
fn why(step: &Step, previous: Option<&Step>) -> Said {
    let is_same_circuit =
        previous.is_some_and(|previous| previous.screws[0].circuit_id == step.screws[0].circuit_id);
    let mut why = Vec::new();
    let here = step.why_here.as_ref().map(here_text);
    let after = step.after_previous.as_ref().map(after_text);
    if !is_same_circuit || after.is_none() {
        why.extend(here.clone());
    }
    why.extend(after.filter(|after| here.as_ref() != Some(after) || why.is_empty()));
    why.extend(step.heights.iter().filter_map(height_reason));
    Said::joined(why, "; ")
}

/// The bounds of an amount that is printed in whole millilitres. Where their
/// two figures would leave it outside, they are whole millilitres as well.
fn range_around(printed_ml: u64, push: Bounds<Volume>) -> String {
    let printed = printed_ml as f64;
    if rounded_ml(push.low) <= printed && printed <= rounded_ml(push.high) {
        return ml_range(push);
    }
    // Of two screws the printed sum may be one more or less than the sum.
    let low = whole_ml(push.low).min(printed_ml);
    let high = whole_ml(push.high).max(printed_ml);
    if low == high {
        low.to_string()
    } else {
        format!("{low}-{high}")
    }
}

/// Amount, strokes or flow, and time, each with its bounds.
fn bounds(step: &Step) -> [Said; 3] {
    let printed = step.screws.iter().map(StepScrew::push_ml);
    let range = figure(range_around(printed.sum(), above_least(step)));
    let effort = match step.drive {
        Drive::Strokes {
            strokes, brought, ..
        } => {
            let Strokes { low, high, .. } = strokes;
            let least = figure(ml_at_least(brought.low));
            // Where a stroke may bring nothing, no number of them is the most.
            match (brought.low < nothing_to_speak_of(), low == high) {
                (true, _) => say!("{} or more", figure(low)),
                (false, true) => say!("{} of {} ml or more", figure(low), least),
                (false, false) => say!(
                    "{} of {} ml or more",
                    figure(format_args!("{low}-{high}")),
                    least
                ),
            }
        }
        Drive::Steady { flow, reynolds, .. } => {
            let rate = flow.nominal.get::<milliliter_per_second>() * 60.0;
            let doubt = if reynolds > LAMINAR_LIMIT {
                " or less: not laminar"
            } else {
                ""
            };
            say!("{} ml a minute{}", figure(two_figures(rate)), doubt)
        }
    };
    [range, effort, figure(duration_within(step.time))]
}

/// The bounds of a push, none of which is printed below the least of its screws.
fn above_least(step: &Step) -> Bounds<Volume> {
    let least = step
        .screws
        .iter()
        .filter_map(|screw| screw.at_least.as_ref());
    let least_ml: u64 = least.map(AtLeast::whole_ml).sum();
    let least = Volume::new::<milliliter>(least_ml as f64);
    step.push.map(|push| push.max(least))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_stands_within_its_bounds_as_printed() {
        let ml = Volume::new::<milliliter>;
        let shown = |low, nominal: f64, high| {
            let push = Bounds {
                low: ml(low),
                nominal: ml(nominal),
                high: ml(high),
            };
            range_around(whole_ml(ml(nominal)), push)
        };
        assert_eq!(shown(9.3, 9.6, 9.9), "9-10");
        assert_eq!(shown(9.3, 9.6, 10.2), "9.3-10");
        assert_eq!(shown(103.0, 104.0, 104.4), "103-104");
        assert_eq!(shown(128.0, 160.0, 198.0), "130-200");
        assert_eq!(shown(0.4, 0.4, 0.4), "0");
    }
}
