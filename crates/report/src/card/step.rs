//! One step in words and figures.

use super::height::height_reason;
use super::least::least;
use super::level::{level, place_of};
use super::note::notes;
use super::reason::{after_text, here_text};
use super::tools::tools;
use crate::number::{
    duration, metres, ml, ml_at_least, ml_mark, ml_range, mm, rounded_ml, two_figures,
};
use crate::said::{Said, bare, figure, say};
use bleedwright_network::Bounds;
use bleedwright_planner::{
    AtLeast, Block, Drive, JarMark, JointRule, LevelAction, LevelStop, Method, Plan, Step,
    StepScrew, Strokes, nothing_to_speak_of,
};
use uom::si::f64::Volume;
use uom::si::ratio::percent;
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
    /// How much to push, and by what.
    pub work: Said,
    /// What the jars hold afterwards.
    pub marks: Said,
    /// Spanner and torque, screw by screw where they differ; empty where the
    /// layout gives neither.
    pub tools: Said,
    /// The least of every screw on whose run a joint was opened, with that joint.
    pub least: Vec<Said>,
    /// The bounds of amount, strokes and time, and when to give up.
    pub bounds: Said,
    /// When to see to the reservoir, in words.
    pub level: Option<Said>,
    /// What to draw back at the end, by the reverse method.
    pub draw_back: Option<Said>,
    /// Why it stands here.
    pub why: Said,
    /// The run of every screw: where, how long, what it holds.
    pub runs: Vec<Said>,
    /// Anything else worth saying at this wheel.
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

/// A sentence below the bold line, for those who set some of them elsewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Detail {
    /// When to see to the reservoir.
    Level(Said),
    /// What to draw back.
    DrawBack(Said),
    /// What else there is to know, behind its lead.
    Note(Said),
    /// Anything else.
    Other(Said),
}

impl Detail {
    /// What stands out before the sentence.
    pub fn lead(&self) -> Option<&'static str> {
        matches!(self, Self::Note(_)).then_some("Note:")
    }

    /// The sentence without its lead.
    pub fn said(&self) -> &Said {
        match self {
            Self::Level(said) | Self::DrawBack(said) | Self::Note(said) | Self::Other(said) => said,
        }
    }

    /// All of it.
    pub fn whole(&self) -> Said {
        match self.lead() {
            Some(lead) => say!("{} {}", lead, self.said().clone()),
            None => self.said().clone(),
        }
    }
}

impl CardStep {
    /// Screws that are opened together have a jar each.
    pub(super) fn new(step: &Step, plan: &Plan, previous: Option<&Step>) -> Self {
        Self {
            number: step.number,
            screws: step
                .screws
                .iter()
                .map(|screw| screw.screw.clone())
                .collect(),
            work: work(step, plan.head.method),
            marks: marks(plan, &step.jars),
            tools: tools(&step.screws),
            least: (step.screws.iter())
                .filter_map(|screw| least(screw, step.screws.len() > 1))
                .collect(),
            bounds: bounds(step),
            level: level(&step.level_rules),
            draw_back: step
                .draw_back
                .map(|back| say!("Then draw {} ml back.", figure(ml_mark(back)))),
            why: why(step, previous),
            runs: step
                .screws
                .iter()
                .map(|screw| run(screw, step.screws.len() > 1))
                .collect(),
            notes: notes(step, plan.head.method),
            strokes: step.strokes().map(|strokes| strokes.nominal),
            push_ml: step.jars.iter().map(|jar| jar.push_ml).sum(),
            jars: step.jars.clone(),
            give_up_ml: rounded_ml(step.stop_rule.give_up),
            stops: step.level_stops.iter().map(card_stop).collect(),
        }
    }

    /// All that stands below the bold line, sentence by sentence.
    pub fn details(&self) -> Vec<Detail> {
        let note = |note: &Said| Detail::Note(say!("{}.", note.clone()));
        let mut details = vec![Detail::Other(self.bounds.clone())];
        details.extend(self.least.iter().cloned().map(Detail::Other));
        details.extend(self.level.iter().cloned().map(Detail::Level));
        details.extend(self.draw_back.iter().cloned().map(Detail::DrawBack));
        details.push(Detail::Other(say!("Why: {}.", self.why.clone())));
        details.extend(self.runs.iter().cloned().map(Detail::Other));
        details.extend(self.notes.iter().map(note));
        details
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

fn marks(plan: &Plan, jars: &[JarMark]) -> Said {
    let marks = Said::joined(jars.iter().map(|jar| figure(jar.mark_ml)), " + ");
    match (plan.head.method, plan.is_paired()) {
        (Method::Reverse, _) => say!("{} so far", marks),
        (_, true) => say!("jars {}", marks),
        (_, false) => say!("jar {}", marks),
    }
}

fn work(step: &Step, method: Method) -> Said {
    let amounts = step.screws.iter().map(StepScrew::push_ml).map(figure);
    let amount = Said::joined(amounts, " + ");
    match step.drive {
        Drive::Strokes { strokes, block, .. } => say!(
            "push {} ml, {} strokes to {}",
            amount,
            figure(counted(strokes)),
            match block {
                Block::At(travel) => figure(mm(travel)),
                Block::FirmPedal => say!("the block"),
            }
        ),
        Drive::Steady { .. } if method == Method::Reverse => say!("push in {} ml", amount),
        Drive::Steady { .. } => say!("let out {} ml", amount),
    }
}

/// The strokes to count to. They are worked out with the smallest stroke that
/// the tolerances allow; where little is known of the cylinder that is many
/// more than it will take, and both are said.
fn counted(strokes: Strokes) -> String {
    if strokes.nominal * 4 > strokes.expected * 5 + 4 {
        format!("{}-{}", strokes.expected, strokes.nominal)
    } else {
        strokes.nominal.to_string()
    }
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

/// What the bold line leaves out.
fn bounds(step: &Step) -> Said {
    let time = figure(duration(step.time));
    let give_up = figure(ml(step.stop_rule.give_up));
    let printed = step.screws.iter().map(StepScrew::push_ml);
    let range = figure(range_around(printed.sum(), above_least(step)));
    match step.drive {
        Drive::Strokes {
            strokes, brought, ..
        } => {
            let Strokes { low, high, .. } = strokes;
            let least = figure(ml_at_least(brought.low));
            // Where a stroke may bring nothing, no number of them is the most.
            let count = match (brought.low < nothing_to_speak_of(), low == high) {
                (true, _) => say!("{} strokes or more", figure(low)),
                (false, true) => say!("{} strokes of {}+ ml", figure(low), least),
                (false, false) => say!(
                    "{} strokes of {}+ ml",
                    figure(format_args!("{low}-{high}")),
                    least
                ),
            };
            say!(
                "{} ml, {}, {}; give up at {} ml.",
                range,
                count,
                time,
                give_up
            )
        }
        Drive::Steady { flow, reynolds, .. } => {
            let rate = flow.nominal.get::<milliliter_per_second>() * 60.0;
            let doubt = if reynolds > LAMINAR_LIMIT {
                " (may be slower: the flow is not laminar)"
            } else {
                ""
            };
            say!(
                "{} ml at {} ml a minute, {}{}; give up at {} ml.",
                range,
                figure(two_figures(rate)),
                time,
                doubt,
                give_up
            )
        }
    }
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

/// The run of a screw; its name is repeated where a step has two.
fn run(screw: &StepScrew, is_named: bool) -> Said {
    let name = if is_named {
        let push_ml = figure(screw.push_ml());
        say!("{} {} ml: ", bare(&screw.screw), push_ml)
    } else {
        Said::default()
    };
    let contents = &screw.contents;
    let parts: Vec<Said> = [
        (contents.shared.nominal, "shared"),
        (contents.own.nominal, "own"),
        (contents.cavities.nominal, "cavity"),
    ]
    .into_iter()
    .filter(|(volume, _)| *volume > Volume::default())
    .map(|(volume, what)| say!("{} {}", figure(ml(volume)), what))
    .collect();
    let holds = if parts.is_empty() {
        figure(0)
    } else {
        Said::joined(parts, " + ")
    };
    let mut text = say!(
        "{}{}, {}, {}: {} ml (plug {})",
        name,
        bare(&screw.part),
        bare(&screw.circuit),
        figure(metres(screw.run_length.nominal)),
        holds,
        figure(ml(screw.plug))
    );
    if let Some(left) = screw.old_left
        && left.high.get::<percent>() >= 0.5
    {
        let [low, high] = [left.low, left.high].map(|left| left.get::<percent>());
        let stays = figure(format_args!("{low:.0}-{high:.0}"));
        text.extend(say!("; {} % old stays", stays));
    }
    if screw.joints == Some(JointRule::Mixed) {
        text.extend(say!("; mixed at the joints"));
    }
    text.extend(say!("."));
    text
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
