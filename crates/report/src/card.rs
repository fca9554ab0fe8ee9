//! A plan in words: what every sheet says, whatever it is printed on. Renderers wrap it, tick it and give it ink.

mod after;
mod before;
mod bought;
mod call;
mod caution;
mod filled;
mod head;
mod height;
mod kept;
mod least;
mod level;
mod made;
mod note;
mod opened;
mod otherwise;
mod reason;
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

pub use kept::{KEPT, SIGNED};
pub use second::CardSecond;
pub use step::{CardStep, CardStop, Detail};

use crate::assumed::{AssumedText, assumptions};
use crate::measure::measurable_text;
use crate::number::{duration_within, ml, ml_mark, ml_or_l};
use crate::said::{Said, bare, figure, say};
use crate::text::order_text;
use bleedwright_network::Bounds;
use bleedwright_planner::{Begin, Measurable, Method, Plan, Progress, Purpose, Spread, Step};
use uom::si::f64::{Time, Volume};
use uom::si::ratio::percent;

/// Everything that a sheet says of a plan, in the order of the work.
#[derive(Clone, Debug)]
pub struct Card {
    /// The vehicle.
    pub vehicle: String,
    /// What tells the vehicle from its like, when the user gave it.
    pub registration: Option<String>,
    /// The date, when the user gave one.
    pub date: Option<String>,
    /// Split, fluid, job and circuits in one paragraph.
    pub facts: Said,
    /// The layout's remark.
    pub notes: Option<String>,
    /// An order that the user gave and that breaks a rule of the pipework.
    pub danger: Option<Said>,
    /// Warnings, and what bleeding does not reach.
    pub warnings: Vec<Said>,
    /// What comes before the first screw.
    pub before: Vec<Said>,
    /// How a step goes: who does what, when it is done, when to give up.
    pub rhythm: Said,
    /// The steps in their order.
    pub steps: Vec<CardStep>,
    /// What to do when something goes otherwise.
    pub otherwise: Vec<Said>,
    /// Why not the other way round, how long it takes, what the maker's order says.
    pub order: Vec<Said>,
    /// What to buy.
    pub buy: Said,
    /// What comes after the last screw; where there is a second bleed, up to that.
    pub after: Vec<Said>,
    /// The bleed after the routine of anti-lock units, where one is needed.
    pub second: Option<CardSecond>,
    /// What can hurt.
    pub cautions: Vec<Said>,
    /// What was assumed, each with what it was assumed of.
    pub assumed: Vec<Said>,
    /// What is worth measuring, and whether the order is certain.
    pub certainty: Vec<Said>,
}

impl Card {
    /// The steps, and then those of the second bleed.
    pub fn all_steps(&self) -> impl Iterator<Item = &CardStep> {
        let second = self.second.iter().flat_map(|second| &second.steps);
        self.steps.iter().chain(second)
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
        Self {
            vehicle: plan.head.vehicle.clone(),
            registration: plan.head.registration.clone(),
            date: plan.head.date.clone(),
            facts: head::facts(plan),
            notes: plan.head.notes.clone(),
            danger: plan.is_unsafe_by_options.then(|| {
                say!("UNSAFE ORDER: the order given breaks a rule of the pipework, see below.")
            }),
            warnings: warning::warnings(plan),
            before: plan.preparations.iter().map(before_text).collect(),
            rhythm: rhythm(plan),
            steps,
            otherwise: plan
                .otherwise
                .iter()
                .map(|it| otherwise_text(*it))
                .collect(),
            order,
            buy: buy(plan),
            after: (plan.checks_around_second().0.iter())
                .map(check_text)
                .collect(),
            second: CardSecond::new(plan),
            cautions: plan.cautions.iter().map(caution_text).collect(),
            assumed: assumptions(plan).iter().map(describe).collect(),
            certainty: certainty(plan),
        }
    }
}

/// How a step goes.
fn rhythm(plan: &Plan) -> Said {
    let calls = call_lines(&plan.calls).into_iter();
    let calls = calls.map(|call| match call.says {
        "" => call.does,
        says => say!("{} {}, \"{}\"", call.who, call.does, says),
    });
    let calls = Said::joined(calls, "; ");
    let clear = plan
        .steps
        .first()
        .map_or(Progress::Strokes(0), |step| step.stop_rule.clear);
    match clear {
        Progress::Strokes(clear) => say!(
            "Two people, each stroke: {}. Done: ml reached AND no bubble{} for {} strokes. Top up at \
             the stroke or the mark, whichever is first. Not clear at give-up: stop, see IF. Jar marks \
             count from its level at the start{}; a screw took more: the later marks too.",
            calls,
            match plan.head.purpose {
                Purpose::Renew => ", the new colour,",
                Purpose::Air | Purpose::Fill => "",
            },
            figure(clear),
            match plan.head.purpose {
                Purpose::Renew => "",
                Purpose::Air | Purpose::Fill => " (air raises no jar: count strokes)",
            }
        ),
        Progress::Volume(clear) => say!(
            "Each screw, one person: {}. Done: ml reached AND the last {} ml without a bubble. \
             {}Not so at give-up: stop, see IF.",
            calls,
            figure(ml_mark(clear)),
            match plan.head.method {
                Method::Reverse => {
                    "Draw off at the ml or at the maximum mark, whichever is first. "
                }
                Method::Vacuum | Method::Gravity => {
                    "Top up at the ml or the mark, whichever is first. "
                }
                Method::Pedal | Method::Pressure => "",
            }
        ),
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

fn buy(plan: &Plan) -> Said {
    let bottles = (plan.buy.bottles.iter())
        .map(|(size, count)| figure(format_args!("{count} x {}", ml_or_l(*size))));
    let parts = (plan.buy.parts.iter())
        .map(|(what, volume)| say!("{} {}", use_text(*what), figure(ml_mark(*volume))));
    say!(
        "{} ml sealed: {} ({}). {}.{}",
        figure(ml_mark(plan.buy.needed)),
        Said::joined(bottles, " + "),
        Said::joined(parts, ", "),
        vessels(plan),
        if_routine(plan)
    )
}

/// What a routine that nobody has to run would take.
fn if_routine(plan: &Plan) -> Said {
    plan.buy.if_routine.map_or_else(Said::default, |volume| {
        say!(
            " Not counted: {} ml more if the anti-lock unit's routine is run and its circuits bled again.",
            figure(ml_mark(volume))
        )
    })
}

/// The jars, whose marks count what leaves the screws, and the can for what a
/// syringe draws off.
fn vessels(plan: &Plan) -> Said {
    let jars = plan.jars();
    let each = jars.iter().map(|jar| {
        let volume = figure(ml_or_l(jar.volume));
        match &jar.circuit {
            Some(circuit) => say!("{} ({})", volume, bare(circuit)),
            None => volume,
        }
    });
    let each = Said::joined(each, " + ");
    let jar = match jars.len() {
        0 => say!("No jar"),
        1 => say!("Jar for {}", each),
        _ => say!("Jars for {}", each),
    };
    let drawn_off = plan.drawn_off();
    if drawn_off == Volume::default() {
        return jar;
    }
    say!(
        "{}; waste can for {} drawn off",
        jar,
        figure(ml_or_l(drawn_off))
    )
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
