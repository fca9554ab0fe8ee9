//! A record judged: each check against its limit, and the whole.

mod brake;
mod fluid;
mod kept;
mod pedal;
mod person;
mod sister;
mod steps;
mod vehicle;

pub use fluid::OfFluid;
pub use kept::{Doubt, Kept, Pushed, Sample};
pub use pedal::pedal_reserve_used;

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
        Within = "within", "within limit";
        /// Measured, and somebody must look again before the vehicle leaves.
        LookAgain = "look_again", "LOOK AGAIN";
        /// Not measured, or not against any limit, or not in the way the limit asks for.
        NotChecked = "not_checked", "NOT CHECKED";
        /// Measured, and beyond the limit.
        Fails = "fails", "FAILS";
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

impl Group {
    /// The heading.
    pub fn text(self) -> &'static str {
        match self {
            Self::Job => "Steps, and what is left to finish",
            Self::Controls => "Pedals and levers",
            Self::Brakes => "Brakes",
            Self::Screws => "Bleed screws",
            Self::Reservoir => "Reservoir",
            Self::Vehicle => "Vehicle",
            Self::Record => "Who and when",
        }
    }
}

/// One check.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What it belongs to.
    pub group: Group,
    /// The wheel, screw or compartment; empty where the vehicle has one of it.
    pub subject: String,
    /// What was looked at.
    pub what: &'static str,
    /// What was found, as written; empty when nobody looked.
    pub found: String,
    /// What it was held against.
    pub limit: String,
    /// Where that stands.
    pub source: Source,
    /// How it came out.
    pub state: State,
    /// What to know about it or to do; empty where there is nothing.
    pub remark: String,
    /// What is said of its fluid, beside that.
    pub fluid: Vec<OfFluid>,
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
    /// What is to be known of the plan that the work followed; none where there is nothing. No verdict depends on it.
    pub fn plan_remark(&self) -> Option<&'static str> {
        self.is_of_older_plan.then_some(
            "Made from an older plan: today's amounts are others. Make a new plan before any more is bled by it.",
        )
    }

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

    /// The steps and tasks that are not finished, each once.
    pub fn unfinished(&self) -> Vec<&str> {
        let open = self
            .checks
            .iter()
            .filter(|check| check.group == Group::Job && check.state == State::NotChecked);
        let mut subjects: Vec<&str> = open
            .map(|check| match check.subject.as_str() {
                "" => check.what,
                subject => subject,
            })
            .collect();
        subjects.dedup();
        subjects
    }

    /// The verdict in a sentence or two. It never says that the brakes are safe.
    pub fn verdict(&self) -> String {
        let all = self.checks.len();
        let state = self.state();
        let count = self.count(state);
        let number = |one, more| if count == 1 { one } else { more };
        let open = match self.count(State::NotChecked) {
            0 => String::new(),
            open => format!(" {open} not checked."),
        };
        let unfinished = match self.unfinished().as_slice() {
            [] => String::new(),
            list => format!("NOT FINISHED: {}. ", list.join("; ")),
        };
        match state {
            State::Fails => format!(
                "DO NOT HAND OVER: {count} of {all} checks {}.{open} {unfinished}",
                number("fails", "fail")
            )
            .trim_end()
            .to_owned(),
            State::NotChecked => format!(
                "{unfinished}NOT COMPLETE: {count} of {all} checks {} not made, or not against a limit. What was not checked is not \
                 fine.",
                number("was", "were")
            ),
            State::LookAgain => format!(
                "LOOK AGAIN: {count} of {all} checks {} a second look before the vehicle leaves.",
                number("needs", "need")
            ),
            State::Within => format!(
                "All {all} checks of this sheet are within their limits. That does not prove that the brakes are safe."
            ),
        }
    }

    /// What the sheet assumes of every vehicle.
    pub fn assumptions(&self) -> &'static [&'static str] {
        &[
            "The US figures are those of 49 CFR 570.55 and 570.59 for a vehicle over 10,000 lb in use, else those of 570.5 \
             (second-hand, its pedal from memory); 1.6 mm of lining by 49 CFR 393.47, for commercial vehicles, is applied to \
             all. What nobody says is light or riveted is held against the figure for a heavy one, bonded. Local law may ask for more.",
            "A torque may be 10 % from a maker's figure that has no tolerance; one with a tolerance of more than 30 % is no \
             figure to hold against.",
            "Figures that no part has are refused: discs are taken to have 2 to 60 mm, drums 75 to 500 mm, linings up to \
             30 mm and their least thickness 0.5 to 15 mm, wanted torques 1 to 60 N m.",
            "A disc or drum exactly at its figure fails (common practice, stricter than the law's words), a lining too \
             (assumption).",
            "A pedal travel beyond 80 % is looked at again, instead of failing, when the force was more than 5 % above \
             222 N. A pedal within 1 mm of the floor touches it and fails at any force; one that \
             moves by less than 5 mm is looked at again.",
            "A figure far from that of the other side is looked at again, and so is a disc of more than twice its least \
             thickness, a drum of less than nine tenths of its largest diameter, or a day before 2000 or after 2099.",
            "Fluid is held against the wet minimum of its grade by its boiling point, measured, else estimated cautiously from \
             the water read; a little above it is looked at again, and below 140 degC it fails whatever the grade. A \
             tester's reading alone can fail fluid that the estimate lets pass.",
            "Fluid is due again after the maker's interval, else after two years (common practice, no source). A bottle open for \
             more than a month is looked at again, after a year it fails.",
            "A reading with a tolerance counts at its worse end.",
        ]
    }

    /// What holds for every sheet, the most important first.
    pub fn cautions(&self) -> &'static [&'static str] {
        &[
            "The maker's manual and local rules govern where they differ from this sheet. The work is done or checked \
             by a competent, where required licensed, person, who signs it.",
            "This sheet repeats what somebody wrote down. It has not seen the vehicle and does not prove that the \
             brakes are safe.",
            "Firm pedal before the vehicle moves. First drive slow, away from traffic; then look for leaks again.",
            "Vehicle on proper stands, never on a jack alone. No dry brushing or blowing of brake dust. Fluid harms \
             eyes, skin and paint; bled fluid is never used again.",
        ]
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
    fn check(
        &mut self,
        group: Group,
        subject: &str,
        what: &'static str,
        source: Source,
    ) -> &mut Check {
        self.checks.push(Check {
            group,
            subject: subject.to_owned(),
            what,
            found: String::new(),
            limit: String::new(),
            source,
            state: State::NotChecked,
            remark: String::new(),
            fluid: Vec::new(),
            doubt: None,
        });
        self.checks.last_mut().expect("a check was put there")
    }

    /// A question with one good answer.
    fn question(
        &mut self,
        (group, subject, what): (Group, &str, &'static str),
        answer: Option<&Answer>,
        good: Answer,
        source: Source,
    ) -> &mut Check {
        let check = self.check(group, subject, what, source);
        good.word().clone_into(&mut check.limit);
        if let Some(answer) = answer {
            answer.word().clone_into(&mut check.found);
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
            let check = self.check(group, "", "list of the vehicle", SHEET);
            "the vehicle's list in `readings_of` names none".clone_into(&mut check.remark);
        }
    }
}

/// As it was written; empty where there is nothing.
fn written<Q>(reading: Option<&Measured<Q>>) -> String {
    reading
        .map(|measured| measured.text.clone())
        .unwrap_or_default()
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
