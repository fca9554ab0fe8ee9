//! A record judged: each check against its limit, and the whole.

mod brake;
mod fluid;
mod found;
mod kept;
mod pedal;
mod person;
mod remark;
mod sister;
mod steps;
mod vehicle;
mod wanted;
mod what;

pub use brake::{LEAST_OF_MOST, MOST_OF_LEAST};
pub use found::Found;
pub use kept::{Doubt, Kept, Pushed, Sample};
pub use pedal::{FORCE_SPREAD, least_moved, pedal_reserve_used};
pub use remark::{OfFluid, Remark};
pub use wanted::Wanted;
pub use what::What;

use crate::limit::{SHEET, Source};
use crate::record::{Answer, Measured, Record};
use crate::words::words;
use std::collections::BTreeMap;
use uom::num_traits::Zero;

words! {
    /// How a check came out, the mildest first.
    #[derive(PartialOrd, Ord)]
    State {
        /// Measured, and within the limit.
        Within = "within";
        /// Measured, and somebody must look again before the vehicle leaves.
        LookAgain = "look_again";
        /// Not measured, or not against any limit, or not in the way the limit asks for.
        NotChecked = "not_checked";
        /// Measured, and beyond the limit.
        Fails = "fails";
    }
}

/// What a check is about, in the order of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The steps of the plan, and what it leaves to be finished.
    Job,
    /// Pedals and levers: travel, feel and the hard press.
    Controls,
    /// Discs, drums, linings.
    Brakes,
    /// Bleed screws.
    Screws,
    /// Reservoir compartments.
    Reservoir,
    /// Leaks, hoses, lamp, fluid.
    Vehicle,
    /// Who and when.
    Record,
}

/// One check.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What it belongs to.
    pub group: Group,
    /// The wheel, screw or compartment; empty where the vehicle has one of it.
    pub subject: String,
    /// What was looked at.
    pub what: What,
    /// What was found.
    pub found: Found,
    /// What it was held against.
    pub limit: Wanted,
    /// Where that stands.
    pub source: Source,
    /// How it came out.
    pub state: State,
    /// What to know about it or to do, where there is anything.
    pub remark: Option<Remark>,
    /// What casts doubt on it beside that.
    pub doubt: Option<Doubt>,
}

/// A record judged.
#[derive(Clone, Debug, PartialEq)]
pub struct HandoverSheet {
    /// The vehicle.
    pub vehicle: String,
    /// What tells it from its like; empty when it is not given.
    pub registration: String,
    /// The day; empty when it is not given.
    pub date: String,
    /// Who did the work.
    pub done_by: String,
    /// Who checked it.
    pub checked_by: String,
    /// The writer's remark.
    pub notes: String,
    /// Whether the work followed a card with amounts that are worked out otherwise today.
    pub is_of_older_plan: bool,
    /// What is kept beside the checks.
    pub kept: Kept,
    /// Every check, in the order of the sheet.
    pub checks: Vec<Check>,
}

impl HandoverSheet {
    /// The worst state of all checks. It is [`State::Within`] only when every check is.
    pub fn state(&self) -> State {
        // A sheet without checks has shown nothing.
        let states = self.checks.iter().map(|check| check.state);
        states.max().unwrap_or(State::NotChecked)
    }

    /// How many checks are in a state.
    pub fn count(&self, state: State) -> usize {
        self.checks
            .iter()
            .filter(|check| check.state == state)
            .count()
    }

    /// The steps and tasks that are not finished, each once; an empty name where the record does not say what the plan asked
    /// for.
    pub fn unfinished(&self) -> Vec<&str> {
        let is_open =
            |check: &&Check| check.group == Group::Job && check.state == State::NotChecked;
        let open = self.checks.iter().filter(is_open);
        let mut subjects: Vec<&str> = open.map(|check| check.subject.as_str()).collect();
        subjects.dedup();
        subjects
    }
}

/// Judges a record.
///
/// The order of its items does not matter. Whatever the vehicle's lists name and the record has no reading for is not
/// checked, and so is a reading for which no limit is known.
pub fn judge_record(record: &Record) -> HandoverSheet {
    let mass = record.vehicle.over_10000_lb.found();
    let mut bench = Bench {
        checks: Vec::new(),
        is_over_10000_lb: mass.map(|answer| *answer == Answer::Yes),
    };
    steps::judge(record, &mut bench);
    let controls = &record.vehicle.controls;
    for (name, control) in expected(controls, &record.controls, |c| &c.name) {
        pedal::judge(name, &control, &mut bench);
    }
    bench.nothing_listed(Group::Controls, controls.is_empty());
    for (name, brake) in expected(&record.vehicle.brakes, &record.brakes, |b| &b.name) {
        brake::judge_brake(name, &brake, &mut bench);
    }
    bench.nothing_listed(Group::Brakes, record.vehicle.brakes.is_empty());
    for (name, screw) in expected(&record.vehicle.screws, &record.screws, |s| &s.name) {
        brake::judge_screw(name, &screw, &mut bench);
    }
    bench.nothing_listed(Group::Screws, record.vehicle.screws.is_empty());
    sister::judge(record, &mut bench);
    let compartments = &record.vehicle.compartments;
    for (name, compartment) in expected(compartments, &record.compartments, |c| &c.name) {
        vehicle::judge_compartment(name, &compartment, &mut bench);
    }
    bench.nothing_listed(Group::Reservoir, compartments.is_empty());
    vehicle::judge_vehicle(record, &mut bench);
    vehicle::judge_who(record, &mut bench);
    kept::judge(record, &mut bench);
    HandoverSheet {
        vehicle: record.vehicle.name.clone(),
        registration: record.vehicle.registration.clone(),
        date: kept::on(&record.work.date),
        done_by: record.work.done_by.clone(),
        checked_by: record.work.checked_by.clone(),
        notes: record.work.notes.clone(),
        is_of_older_plan: record.card.is_of_older_plan(),
        kept: Kept::new(record),
        checks: bench.checks,
    }
}

/// Every name that the vehicle lists or the record has, in alphabetical order, with the item, or a blank one where there is
/// none.
fn expected<'r, T: Clone + Default>(
    listed: &'r [String],
    items: &'r [T],
    name: impl Fn(&T) -> &String,
) -> BTreeMap<&'r str, T> {
    let listed = listed.iter().map(|name| (name.as_str(), T::default()));
    let items = items.iter().map(|item| (name(item).as_str(), item.clone()));
    listed.chain(items).collect()
}

/// Where checks are laid out one after the other.
struct Bench {
    checks: Vec<Check>,
    is_over_10000_lb: Option<bool>,
}

impl Bench {
    /// Begins a check that nobody made; what was found is added to it.
    fn check(&mut self, group: Group, subject: &str, what: What, source: Source) -> &mut Check {
        self.checks.push(Check {
            group,
            subject: subject.to_owned(),
            what,
            found: Found::Nothing,
            limit: Wanted::Unknown,
            source,
            state: State::NotChecked,
            remark: None,
            doubt: None,
        });
        self.checks.last_mut().expect("a check was put there")
    }

    /// A question with one good answer.
    fn question(
        &mut self,
        (group, subject, what): (Group, &str, What),
        answer: Option<&Answer>,
        good: Answer,
        source: Source,
    ) -> &mut Check {
        let check = self.check(group, subject, what, source);
        check.limit = Wanted::Answer(good);
        if let Some(answer) = answer {
            check.found = Found::Answer(*answer);
            check.state = if *answer == good {
                State::Within
            } else {
                State::Fails
            };
        }
        check
    }

    /// A vehicle without brakes, screws or reservoir is one whose lists were lost.
    fn nothing_listed(&mut self, group: Group, is_empty: bool) {
        if is_empty {
            let check = self.check(group, "", What::List, SHEET);
            check.remark = Some(Remark::NoneListed);
        }
    }
}

fn written<Q>(reading: Option<&Measured<Q>>) -> Option<String> {
    reading.map(|measured| measured.text.clone())
}

/// The same as what a check found.
fn as_found<Q>(reading: Option<&Measured<Q>>) -> Found {
    written(reading).map_or(Found::Nothing, Found::Written)
}

/// Values nearer than this share of themselves differ by the rounding of binary numbers alone, as 0.155 m and 155 mm
/// do; no workshop measures so finely.
const ROUNDING: f64 = 1e-9;

/// Whether `a` is above `b` by more than rounding.
fn is_above<Q>(a: Q, b: Q) -> bool
where
    Q: Copy + PartialOrd + Zero + std::ops::Mul<f64, Output = Q> + std::ops::Sub<Output = Q>,
{
    let margin = if b < Q::zero() {
        b * -ROUNDING
    } else {
        b * ROUNDING
    };
    a - b > margin
}
