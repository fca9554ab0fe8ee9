//! A plan in words: what every sheet says, whatever it is printed on. Renderers wrap it, tick it and give it ink.

mod after;
mod before;
mod bought;
mod call;
mod caution;
mod column;
mod done;
mod filled;
mod head;
mod heading;
mod height;
mod instruction;
mod kept;
mod least;
mod level;
mod made;
mod note;
mod opened;
mod otherwise;
mod ready;
mod reason;
mod run;
mod second;
mod step;
mod tools;
mod warning;
mod worked;

pub(crate) use after::check_text;
pub(crate) use before::before_text;
pub(crate) use bought::use_text;
pub(crate) use call::call_lines;
pub(crate) use caution::caution_text;
pub(crate) use head::bled_text;
pub(crate) use height::height_reason;
pub(crate) use kept::blanks;
pub(crate) use note::told_notes;
pub(crate) use otherwise::otherwise_text;
pub(crate) use reason::{after_text, here_text, order_note};
pub(crate) use warning::{air_text, unit_text};

pub use column::{Row, Titles};
pub use heading::{AFTER, AFTER_SECOND, BEFORE, Heading, LOOK_FIRST, SECOND};
pub(crate) use heading::{headed, headed_in_capitals};
pub use instruction::Instruction;
pub use kept::{KEPT, SIGNED};
pub use otherwise::CardIf;
pub(crate) use run::RUN_TITLES;
pub use run::Run;
pub use second::CardSecond;
pub use step::{CardStep, CardStop};

use crate::assumed::{AssumedText, assumptions};
use crate::measure::measurable_text;
use crate::number::{duration_within, ml, ml_mark};
use crate::said::{Said, bare, figure, say};
use crate::text::order_text;
use bleedwright_network::Bounds;
use bleedwright_planner::{Before, Begin, Measurable, Method, Plan, Spread, Step};
use uom::si::f64::{Time, Volume};
use uom::si::ratio::percent;

/// Everything that a sheet says of a plan, in the order of the work. What hands need stands on its first page, why on its
/// second.
#[derive(Clone, Debug)]
pub struct Card {
    /// The vehicle.
    pub vehicle: String,
    /// What tells the vehicle from its like, when the user gave it.
    pub registration: Option<String>,
    /// The date, when the user gave one.
    pub date: Option<String>,
    /// What is done, with what fluid, by how many, and which circuits stay shut.
    pub job: Said,
    /// The layout's remark.
    pub notes: Option<String>,
    /// What to have at hand.
    pub ready: Said,
    /// What can hurt.
    pub cautions: Vec<Instruction>,
    /// An order that the user gave and that breaks a rule of the pipework.
    pub danger: Option<Said>,
    /// Warnings, and what bleeding does not reach.
    pub warnings: Vec<Said>,
    /// What is looked at before anything else: a "no" ends it.
    pub look: Vec<Instruction>,
    /// What comes then, before the first screw.
    pub before: Vec<Instruction>,
    /// How a stroke goes, or a screw: who does what, in turn, and what must never be.
    pub each: Vec<Said>,
    /// What stands above the columns of the steps.
    pub titles: Titles,
    /// The steps in their order.
    pub steps: Vec<CardStep>,
    /// When a step is done, how low the level may fall, what the counts rest on.
    pub done: Vec<Said>,
    /// What to do when something goes otherwise.
    pub otherwise: Vec<CardIf>,
    /// What comes after the last screw; where there is a second bleed, up to that.
    pub after: Vec<Instruction>,
    /// The bleed after the routine of anti-lock units, where one is needed.
    pub second: Option<CardSecond>,
    /// Page 2: split, fluid, job and circuits in one paragraph.
    pub facts: Said,
    /// Page 2: why not the other way round, how long it takes, what the maker's order says.
    pub order: Vec<Said>,
    /// Page 2: what to buy, as a sum.
    pub buy: Said,
    /// Page 2: what was assumed, each with what it was assumed of.
    pub assumed: Vec<Said>,
    /// Page 2: what is worth measuring, and whether the order is certain.
    pub certainty: Vec<Said>,
}

impl Card {
    /// The steps, and then those of the second bleed.
    pub fn all_steps(&self) -> impl Iterator<Item = &CardStep> + Clone {
        let second = self.second.iter().flat_map(|second| &second.steps);
        self.steps.iter().chain(second)
    }

    /// Whether strokes drive the fluid.
    pub fn is_by_strokes(&self) -> bool {
        self.steps.iter().any(|step| step.strokes.is_some())
    }

    /// What stands above how each of them goes.
    pub fn each_head(&self) -> &'static str {
        if self.is_by_strokes() {
            "Each stroke"
        } else {
            "Each screw"
        }
    }

    /// What comes before the first screw, looks first.
    pub fn all_before(&self) -> impl Iterator<Item = &Instruction> {
        self.look.iter().chain(&self.before)
    }

    /// What comes after the last screw, the second bleed's too.
    pub fn all_after(&self) -> impl Iterator<Item = &Instruction> {
        let second = self.second.iter().flat_map(|second| &second.after);
        self.after.iter().chain(second)
    }

    /// Page 2: what is said of the lines to work by where there is time to read, each behind its line.
    pub fn in_full(&self) -> Vec<Said> {
        let lines = (self.cautions.iter())
            .chain(self.all_before())
            .chain(self.all_after());
        let lines = lines.filter(|line| !line.more.is_empty());
        let otherwise = self.otherwise.iter().filter(|it| !it.then.more.is_empty());
        let otherwise = otherwise.map(CardIf::whole);
        lines.map(Instruction::whole).chain(otherwise).collect()
    }

    /// The assumptions in one sentence, then what is certain.
    pub fn rests_on(&self) -> Vec<Said> {
        let assumed = Said::joined(self.assumed.iter().cloned(), "; ");
        let mut all = vec![say!("{}.", assumed)];
        all.extend(self.certainty.iter().cloned());
        all
    }

    /// Puts a plan into words.
    pub fn new(plan: &Plan) -> Self {
        let mut previous = None;
        let mut steps = Vec::with_capacity(plan.steps.len());
        for step in &plan.steps {
            steps.push(CardStep::new(step, plan, previous));
            previous = Some(step);
        }
        let mut order = vec![time_of(plan)];
        order.extend(
            plan.order_notes
                .iter()
                .map(|note| say!("Order: {}.", order_note(note))),
        );
        let preparations = &plan.preparations;
        let looks = preparations.iter().rposition(Before::is_look);
        let (look, before) = preparations.split_at(looks.map_or(0, |last| last + 1));
        Self {
            vehicle: plan.head.vehicle.clone(),
            registration: plan.head.registration.clone(),
            date: plan.head.date.clone(),
            job: head::job_line(plan),
            notes: plan.head.notes.clone(),
            ready: ready::ready(plan),
            cautions: plan.cautions.iter().map(caution_text).collect(),
            danger: plan.is_unsafe_by_options.then(|| {
                say!("UNSAFE ORDER: the order given breaks a rule of the pipework, see below.")
            }),
            warnings: warning::warnings(plan),
            look: look.iter().map(before_text).collect(),
            before: before.iter().map(before_text).collect(),
            each: call::each(&plan.calls),
            titles: column::titles(plan.head.method),
            steps,
            done: done::done(plan),
            otherwise: plan
                .otherwise
                .iter()
                .map(|it| otherwise_text(*it))
                .collect(),
            after: (plan.checks_around_second().0.iter())
                .map(check_text)
                .collect(),
            second: CardSecond::new(plan),
            facts: head::facts(plan),
            order,
            buy: ready::buy(plan),
            assumed: assumptions(plan).iter().map(describe).collect(),
            certainty: certainty(plan),
        }
    }
}

/// Why a circuit is begun at this end although the other takes less: no amount
/// decides it, and nobody has measured what it is good for.
pub(crate) fn why_this_school(begin: Begin) -> &'static str {
    match begin {
        Begin::Farthest => {
            "Longest run first by rule, not by amount: handbooks disagree, no measurement favours \
             either, and `--begin nearest` turns it round."
        }
        Begin::Nearest => {
            "Shortest run first as asked, not by amount: handbooks disagree, no measurement \
             favours either."
        }
    }
}

/// Why the other school's order was not taken; nothing where there is none.
fn other_order(plan: &Plan) -> Said {
    let Some(other) = &plan.other_order else {
        return Said::default();
    };
    let school = match other.begin {
        Begin::Farthest => "longest run first",
        Begin::Nearest => "shortest run first",
    };
    let (this, that) = (other.this_push, other.other_push);
    let difference = ((that - this) / this).get::<percent>();
    if difference.abs() < 2.0 {
        return say!("Why not {}? It takes almost the same. ", school);
    }
    let more = if difference > 0.0 { "more" } else { "less" };
    let takes = say!(
        "takes {} % {} ({} ml, not {})",
        figure(format_args!("{:.0}", difference.abs())),
        more,
        figure(ml_mark(that)),
        figure(ml_mark(this))
    );
    if difference > 0.0 {
        return say!("Why not {}? It {}. ", school, takes);
    }
    say!(
        "{} The other way {}. ",
        why_this_school(plan.head.begin),
        takes
    )
}

/// The other school's order, and the time; by the pedal method that of the strokes alone.
fn time_of(plan: &Plan) -> Said {
    let alone = match plan.head.method {
        Method::Pedal => "Strokes alone",
        Method::Pressure | Method::Vacuum | Method::Gravity | Method::Reverse => "Flow alone",
    };
    say!(
        "{}{}: {}.",
        other_order(plan),
        alone,
        figure(total_time(&plan.steps))
    )
}

/// The time at the screws with its bounds; the walks are not in it.
fn total_time(steps: &[Step]) -> String {
    let zero = Bounds::exact(Time::default());
    let time = steps
        .iter()
        .fold(zero, |sum, step| sum.zip(step.time, |a, b| a + b));
    duration_within(time)
}

/// What is worth measuring, and whether the order is certain.
fn certainty(plan: &Plan) -> Vec<Said> {
    let narrowed = match plan.best_measurement() {
        Some(best) => Some(narrowed(&plan.spread, &best.what, "what to buy", best.gain)),
        None => contents_narrowed(&plan.spread),
    };
    let texts = narrowed.into_iter();
    texts.chain(order_text(&plan.order_certainty)).collect()
}

/// What would narrow the contents most if it were measured.
pub(crate) fn contents_narrowed(spread: &Spread) -> Option<Said> {
    let source = spread.measure_next.as_ref()?;
    Some(narrowed(
        spread,
        &source.what,
        "the contents",
        source.volume,
    ))
}

fn narrowed(spread: &Spread, measured: &Measurable, what: &'static str, by: Volume) -> Said {
    let assumed = spread.assumed_share().get::<percent>();
    say!(
        "{} % of the spread is assumed; measuring {} would narrow {} most, by {} ml.",
        figure(format_args!("{assumed:.0}")),
        measurable_text(measured),
        what,
        figure(ml(by))
    )
}

/// An assumption and how many parts it concerns; their names are in the JSON.
fn describe(told: &AssumedText) -> Said {
    let text = told.text.clone();
    match told.of.as_slice() {
        [] => text,
        [one] => say!("{} ({})", text, bare(one)),
        several => say!("{} ({} x)", text, figure(several.len())),
    }
}
