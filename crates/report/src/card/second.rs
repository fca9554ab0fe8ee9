//! The second bleed in words.

use super::instruction::Instruction;
use super::least::at_least;
use super::step::CardStep;
use super::total_time;
use super::worked::of_one;
use crate::said::{Said, figure, name, names, say};
use bleedwright_planner::{Change, Check, LeastFrom, Plan, SecondBleed, StepScrew};

/// The bleed after the routine of anti-lock units, and what comes after it.
#[derive(Clone, Debug)]
pub struct CardSecond {
    /// How it goes: when, what is set again, how long it takes.
    pub how: Said,
    /// Its steps, numbered on from those of the first bleed.
    pub steps: Vec<CardStep>,
    /// What comes after it.
    pub after: Vec<Instruction>,
    /// Which of the checks before it are the routines that it waits for, counted from zero.
    pub waits_for: Vec<usize>,
}

impl CardSecond {
    pub(super) fn new(plan: &Plan) -> Option<Self> {
        let second = plan.second.as_ref()?;
        let (before, after) = plan.checks_around_second();
        let mut previous = None;
        let mut steps = Vec::with_capacity(second.steps.len());
        for step in &second.steps {
            let mut words = CardStep::new(step, plan, previous);
            words.why = why(second, &words.why);
            let is_named = step.screws.len() > 1;
            let least = step
                .screws
                .iter()
                .filter_map(|screw| least(second, screw, is_named));
            words.least = least.collect();
            steps.push(words);
            previous = Some(step);
        }
        let is_routine =
            |check: &Check| matches!(check, Check::Routine(unit) if unit.kept.may_be_air());
        let routines = before
            .iter()
            .enumerate()
            .filter(|(_, check)| is_routine(check));
        Some(Self {
            how: how(second),
            steps,
            after: after.iter().map(super::check_text).collect(),
            waits_for: routines.map(|(place, _)| place).collect(),
        })
    }
}

fn how(second: &SecondBleed) -> Said {
    let again: Vec<Said> = second.again.iter().filter_map(set_again).collect();
    let again = match again.as_slice() {
        [] => Said::default(),
        again => say!(" Again: {}.", Said::joined(again.to_vec(), "; ")),
    };
    say!(
        "Only after the routine of {}: what it pumped out leaves here, as in the first bleed, from a full reservoir. Tester off, pump and system asleep again, as before \
         the first screw.{} Jar marks go on from the first bleed, also in an emptied jar. Without the walks: {}.",
        names(&second.units),
        again,
        figure(total_time(&second.steps))
    )
}

/// What was set before the first screw, and may have been in the way of the routine.
fn set_again(change: &Change) -> Option<Said> {
    Some(match change {
        Change::PedalBlock(cylinders) => say!("block or stop of {}", of_one(cylinders)),
        Change::LeverTied(valve) => say!("lever of {} tied toward laden", name(valve)),
        Change::MeteringHeld(valve) => say!("{} held open", name(valve)),
        Change::Spacer(part) => say!("{} tilted on its spacer when its turn comes", name(part)),
        Change::PressureReleased(owner) => {
            say!(
                "stored pressure of {} released before any screw is opened",
                name(owner)
            )
        }
        Change::TankOn => say!("tank on"),
        Change::ReverseLockSet(cylinder) => say!("reverse lock-out of {} set", name(cylinder)),
        Change::ServiceMode
        | Change::Clamp(_)
        | Change::Plug(_)
        | Change::Propped(_)
        | Change::OnSupports(_)
        | Change::CapsOff
        | Change::UnionLoosened(_)
        | Change::BanjoCracked(_)
        | Change::BreakawayOff => return None,
    })
}

/// Nothing was opened here: the air came out of the unit.
fn least(second: &SecondBleed, screw: &StepScrew, is_named: bool) -> Option<Said> {
    at_least(screw, is_named, |least| match &least.from {
        LeastFrom::Joint => say!(
            "so much lies between {} and the screw",
            names(&second.units)
        ),
        LeastFrom::HighPoint(high) => say!(
            "its air may climb to {}, and has to come back from there",
            name(high)
        ),
        LeastFrom::Swept => {
            say!("so much lies between what is pushed through already and the screw")
        }
        LeastFrom::Screw => say!("from the screw up to the reservoir"),
    })
}

/// Its place among the others, where there is more to say than that it lies behind the unit.
fn why(second: &SecondBleed, place: &Said) -> Said {
    let behind = say!(
        "on the way of what the routine frees in {}",
        names(&second.units)
    );
    if place.is_empty() {
        return behind;
    }
    say!("{}; {}", behind, place.clone())
}
