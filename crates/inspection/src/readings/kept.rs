//! What a record keeps beside its checks, and what of it is in doubt. What nobody wrote down is no check; what somebody did
//! is held against the day of the work and the list of screws.

use super::person::{is_stated, says_none, words};
use super::{Bench, Check, Found, Group, OfFluid, Remark, State, Wanted, What, expected, written};
use crate::fluid::{
    BottleReading, BottleVerdict, FluidReading, RENEWAL_YEARS, Subject, judge as judge_fluid,
};
use crate::limit::{BOTTLE_OPENED, INTERVAL, PRACTICE, SHEET};
use crate::record::{Day, Entry, Interval, Record};
use std::collections::BTreeMap;
use uom::si::f64::Time;
use uom::si::time::day;

/// What is kept beside the checks, as it was written; empty where it was not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// The fluid before the work.
    pub before: Sample,
    /// The fluid after it.
    pub after: Sample,
    /// What tells the bottle from its like.
    pub bottle: String,
    /// The day on which it was opened.
    pub bottle_opened: String,
    /// What went through each screw.
    pub pushed: Vec<Pushed>,
    /// Parts and lines that are new, by the plan.
    pub replaced: Vec<String>,
    /// Compartments that ran dry, by the plan.
    pub ran_dry: Vec<String>,
    /// Screws that were finished before this plan.
    pub bled_earlier: Vec<String>,
    /// Parts that were fitted.
    pub parts_fitted: String,
    /// By what the torques were set.
    pub torque_tool: String,
    /// Work that the owner did not want done.
    pub refused: String,
    /// The day on which the fluid is due again.
    pub next_due: String,
}

/// What a tester showed of the fluid, and where the sample was taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sample {
    /// Water in it.
    pub moisture: String,
    /// Its boiling point.
    pub boiling_point: String,
    /// The place.
    pub place: String,
}

/// What went through one screw.
#[derive(Clone, Debug, PartialEq)]
pub struct Pushed {
    /// The screw.
    pub screw: String,
    /// What each step pushed that says so; none where no step does.
    pub amounts: Vec<String>,
}

/// What casts doubt on something that was written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// A text that says nothing.
    SaysNothing,
    /// The sample was taken from the reservoir, after the work.
    SampleOfReservoir,
    /// It was taken at no screw of this job, after the work.
    SampleElsewhere,
    /// The bottle was opened after the day of the work.
    OpenedAfterWork,
    /// Nobody wrote down the day of the work, against which it would be held.
    WorkNotDated,
    /// The next renewal is due on the day of the work or before it.
    DueNotAfterWork,
    /// It is due later than the maker's interval says, or later than two years where no interval is given.
    DueLate(Option<Interval>),
    /// The owner did not want some work done.
    Refused,
    /// A least thickness of nothing, which no part has.
    LeastIsNothing,
}

impl Kept {
    pub(super) fn new(record: &Record) -> Self {
        let (work, checks) = (&record.work, &record.checks);
        Self {
            before: Sample {
                moisture: written(checks.moisture_before.found()).unwrap_or_default(),
                boiling_point: written(checks.boiling_point_before.found()).unwrap_or_default(),
                place: checks.sample_before.clone(),
            },
            after: Sample {
                moisture: written(checks.moisture.found()).unwrap_or_default(),
                boiling_point: written(checks.boiling_point.found()).unwrap_or_default(),
                place: checks.sample.clone(),
            },
            bottle: checks.bottle.clone(),
            bottle_opened: on(&checks.bottle_opened),
            pushed: pushed(record),
            replaced: work.replaced.clone(),
            ran_dry: work.ran_dry.clone(),
            bled_earlier: work.bled_earlier.clone(),
            parts_fitted: work.parts_fitted.clone(),
            torque_tool: work.torque_tool.clone(),
            refused: work.refused.clone(),
            next_due: on(&work.next_due),
        }
    }

    /// The work that the owner did not want done, where there is any or may be.
    pub fn refused_work(&self) -> Option<&str> {
        (!says_none(&self.refused)).then_some(self.refused.as_str())
    }
}

/// A day as ISO 8601 writes it; empty where there is none.
pub(super) fn on(entry: &Entry<Day>) -> String {
    entry.found().map(ToString::to_string).unwrap_or_default()
}

/// Every screw with what its steps pushed, screws and steps in the order of their names.
fn pushed(record: &Record) -> Vec<Pushed> {
    let screws = record.vehicle.screws.iter().cloned();
    let mut all: BTreeMap<String, Vec<String>> = screws.map(|screw| (screw, Vec::new())).collect();
    for (_, step) in expected(&record.vehicle.steps, &record.steps, |step| &step.name) {
        let amount = written(step.pushed.found()).unwrap_or_default();
        for screw in step.screws {
            let amounts = all.entry(screw).or_default();
            amounts.extend((!amount.is_empty()).then(|| amount.clone()));
        }
    }
    let pushed = |(screw, amounts)| Pushed { screw, amounts };
    all.into_iter().map(pushed).collect()
}

pub(super) fn judge(record: &Record, bench: &mut Bench) {
    let (work, checks) = (&record.work, &record.checks);
    for (what, text, may_be_none) in [
        (What::SampleBefore, &checks.sample_before, false),
        (What::Bottle, &checks.bottle, false),
        (What::TorqueTool, &work.torque_tool, false),
        (What::PartsFitted, &work.parts_fitted, true),
    ] {
        let is_clear = is_stated(text) || (may_be_none && says_none(text));
        if !text.trim().is_empty() && !is_clear {
            let check = bench.check(Group::Record, "", what, SHEET);
            check.found = Found::Written(text.clone());
            check.limit = Wanted::StatedOrBlank;
            check.doubt = Some(Doubt::SaysNothing);
        }
    }
    judge_due(record, bench);
    if !says_none(&work.refused) {
        let check = bench.check(Group::Record, "", What::Refused, SHEET);
        check.found = Found::Written(work.refused.clone());
        check.limit = Wanted::None;
        check.state = State::LookAgain;
        check.doubt = Some(Doubt::Refused);
    }
}

/// A bottle is judged as [`crate::fluid`] judges it, by the days that it had been open.
pub(super) fn judge_opened(record: &Record, bench: &mut Bench) {
    let Some(opened) = record.checks.bottle_opened.found() else {
        return;
    };
    let check = bench.check(Group::Vehicle, "", What::BottleOpened, BOTTLE_OPENED);
    check.found = Found::Day(*opened);
    check.limit = Wanted::OpenedLately;
    let Some(date) = record.work.date.found() else {
        check.doubt = Some(Doubt::WorkNotDated);
        return;
    };
    let days = date.days_since(*opened);
    if days < 0 {
        check.doubt = Some(Doubt::OpenedAfterWork);
        return;
    }
    let grade = record.checks.fluid.found().copied();
    let reading = FluidReading {
        grade,
        bottle: Some(BottleReading {
            grade,
            opened_for: Some(Time::new::<day>(f64::from(days))),
            ..BottleReading::default()
        }),
        ..FluidReading::default()
    };
    let judgement = match judge_fluid(&reading) {
        Ok(judgement) => judgement,
        Err(error) => {
            check.remark = Some(Remark::Fluid(vec![OfFluid::Refused(error)]));
            return;
        }
    };
    let items = judgement.bottle.iter().flat_map(|bottle| &bottle.items);
    for item in items.filter(|item| item.subject == Subject::OpenedFor) {
        check.state = match item.verdict {
            BottleVerdict::Fit => State::Within,
            // Of fluid that takes up no water the label alone says how long it keeps.
            BottleVerdict::NotChecked if days == 0 => State::Within,
            BottleVerdict::NotChecked | BottleVerdict::Doubtful | BottleVerdict::OnlyIfAllowed => {
                State::LookAgain
            }
            BottleVerdict::DoNotUse => State::Fails,
        };
        if check.state != State::Within {
            check.remark = Some(Remark::Fluid(vec![OfFluid::Bottle(item.reason)]));
        }
    }
}

fn judge_due(record: &Record, bench: &mut Bench) {
    let Some(due) = record.work.next_due.found() else {
        return;
    };
    let interval = record.vehicle.interval.found().copied();
    let source = interval.map_or(PRACTICE, |_| INTERVAL);
    let months = interval.map_or((RENEWAL_YEARS * 12.0) as u16, Interval::months);
    let check = bench.check(Group::Record, "", What::NextDue, source);
    check.found = Found::Day(*due);
    let Some(date) = record.work.date.found() else {
        check.doubt = Some(Doubt::WorkNotDated);
        return;
    };
    let latest = date.after_months(months);
    check.limit = Wanted::By(latest);
    if due <= date {
        check.doubt = Some(Doubt::DueNotAfterWork);
    } else if *due > latest {
        check.state = State::LookAgain;
        check.doubt = Some(Doubt::DueLate(interval));
    } else {
        check.state = State::Within;
    }
}

/// A sample says something of the wheels where it came out of a screw of theirs. Where nobody wrote down its place, nothing is
/// said of it.
pub(super) fn doubt_sample(record: &Record, check: &mut Check) {
    let place = &record.checks.sample;
    if place.trim().is_empty() {
        return;
    }
    let (state, doubt) = if !is_stated(place) {
        (State::NotChecked, Doubt::SaysNothing)
    } else if is_reservoir(place, record) {
        (State::LookAgain, Doubt::SampleOfReservoir)
    } else if is_one_of(place, &record.vehicle.screws) {
        return;
    } else {
        (State::LookAgain, Doubt::SampleElsewhere)
    };
    check.state = check.state.max(state);
    check.doubt = Some(doubt);
}

/// Whether a place is a reservoir, or may be: a compartment may have the name of a screw.
fn is_reservoir(place: &str, record: &Record) -> bool {
    let words = words(place);
    let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    has(&["reservoir", "compartment", "bottle", "tank", "cap", "pot"])
        || (!has(&["screw", "nipple"]) && is_one_of(place, &record.vehicle.compartments))
}

/// Whether a place is one of these, whatever stands around its name.
fn is_one_of(place: &str, names: &[String]) -> bool {
    let plain = |text: &str| -> Vec<String> {
        let says = |word: &String| {
            !["at", "bleed", "from", "nipple", "screw", "the"].contains(&word.as_str())
        };
        words(text).into_iter().filter(says).collect()
    };
    let place = plain(place);
    !place.is_empty() && names.iter().any(|name| plain(name) == place)
}
