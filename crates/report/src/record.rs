//! The record of a job: blank, with everything that its plan asks for.

use crate::card::{Card, CardStep};
use crate::words::and_more;
use bleedwright_inspection::record::{Entry, Measured, StepReadings, TaskKind, TaskReadings};
use bleedwright_inspection::{Job, Record, blank_record};
use bleedwright_network::{Bounds, Network};
use bleedwright_planner::{Change, Check, Options, Plan, Standing};
use std::collections::BTreeSet;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// So many names stand in the name of a task, and the rest is counted.
const MOST_NAMES: usize = 4;

/// The blank record of a plan's job; the options are those of the plan. What the plan leaves to be finished stands in it, so that a blank is not finished.
pub fn record_of(network: &Network, plan: &Plan, options: &Options) -> Record {
    let done: BTreeSet<&str> = plan.head.done.iter().map(String::as_str).collect();
    let now = plan.all_steps().flat_map(|step| &step.screws);
    let now: BTreeSet<&str> = now.map(|screw| screw.screw.as_str()).collect();
    // What was left out is to be bled, and asked for like the rest.
    let left_out = plan.checks_after.iter().flat_map(|check| match check {
        Check::LeftOut(screws) => screws.as_slice(),
        _ => &[],
    });
    let left_out: BTreeSet<&str> = left_out.map(String::as_str).collect();
    let is_opened =
        |name: &str| now.contains(name) || done.contains(name) || left_out.contains(name);
    let card = Card::new(plan);
    let is_second = |step: &CardStep| step.number > plan.steps.len();
    let job = Job {
        registration: plan.head.registration.clone().unwrap_or_default(),
        screws: network
            .screws()
            .map(|(id, _)| id)
            .filter(|id| is_opened(&network.screw(*id).id))
            .collect(),
        steps: (card.all_steps())
            .map(|step| step_of(step, is_second(step)))
            .collect(),
        tasks: plan.checks_after.iter().filter_map(task_of).collect(),
        replaced: plan.head.replaced.clone(),
        ran_dry: options.ran_dry.clone(),
        bled_earlier: plan.head.done.clone(),
    };
    blank_record(network, &job)
}

fn step_of(step: &CardStep, is_second: bool) -> StepReadings {
    let ml = |figure: f64| {
        Entry::Found(Measured {
            bounds: Bounds::exact(Volume::new::<milliliter>(figure)),
            text: format!("{figure} ml"),
        })
    };
    StepReadings {
        name: format!(
            "{}step {}",
            if is_second { "second bleed, " } else { "" },
            step.number
        ),
        screws: step.screws.clone(),
        wanted: ml(step.push_ml as f64),
        give_up: ml(step.give_up_ml),
        ..StepReadings::default()
    }
}

/// The task that a check after the last screw is, in the words of a record; none where a reading of its own, or nothing,
/// tells of it.
pub(crate) fn task_of(check: &Check) -> Option<TaskReadings> {
    let (kind, name) = match check {
        Check::UnsafeOrder => (TaskKind::Bleed, "bleed again in a sound order".to_owned()),
        Check::LeftOut(screws) => (TaskKind::Bleed, format!("bleed {}", some(screws))),
        Check::Undo(change) => (TaskKind::Undo, undoing(change)?),
        Check::FaultMemory { .. } => (TaskKind::FaultMemory, "read the fault memory".to_owned()),
        Check::AntiLockLamp => (TaskKind::Lamp, "see the anti-lock lamp out".to_owned()),
        Check::Routine(unit) if unit.kept.may_be_air() => (
            TaskKind::Routine,
            format!("run the routine of {}", unit.part),
        ),
        Check::BleedAgain(unit) => (
            TaskKind::Bleed,
            format!("bleed the circuits of {unit} again"),
        ),
        Check::RenewedAgainSoon => (
            TaskKind::Bleed,
            "book the second renewal of the fluid".to_owned(),
        ),
        Check::Air(parts) => (TaskKind::Air, format!("see to the air in {}", some(parts))),
        _ => return None,
    };
    Some(TaskReadings {
        name,
        kind: Entry::Found(kind),
        ..TaskReadings::default()
    })
}

/// The caps of the screws have readings of their own, and nobody drives off with chocks.
fn undoing(change: &Change) -> Option<String> {
    Some(match change {
        Change::CapsOff | Change::OnSupports(Standing::WheelsOn) => return None,
        Change::ServiceMode => "end the service mode of the parking brake".to_owned(),
        Change::LeverTied(valve) => format!("untie the lever of {valve}"),
        Change::Clamp(line) => format!("take the clamp off {line}"),
        Change::Plug(at) => format!("take the plug out at {at}"),
        Change::Propped(of) => format!("take the prop of {} away", of.join(" + ")),
        Change::PedalBlock(of) => format!("take the block of {} away", of.join(" + ")),
        Change::MeteringHeld(valve) => format!("release the stem of {valve}"),
        Change::Spacer(part) => format!("take the spacer out of {part}"),
        Change::PressureReleased(owner) => format!("recharge {owner}"),
        Change::TankOn => "take the tank off".to_owned(),
        Change::OnSupports(Standing::CarOnStands | Standing::TrailerOnStands) => {
            "refit the wheels to torque".to_owned()
        }
        Change::OnSupports(Standing::MotorcycleOnStand) => {
            "tighten axles and calipers to torque".to_owned()
        }
        Change::BanjoCracked(cylinder) => format!("tighten the banjo of {cylinder} to torque"),
        Change::ReverseLockSet(cylinder) => format!("see the reverse lock-out of {cylinder} work"),
        Change::BreakawayOff => "refit the breakaway cable".to_owned(),
        Change::UnionLoosened(_) => "tighten the loosened unions".to_owned(),
    })
}

fn some(names: &[String]) -> String {
    let shown = names.iter().take(MOST_NAMES).map(String::as_str);
    let shown = shown.collect::<Vec<_>>().join(", ");
    shown + &and_more(names.len(), MOST_NAMES)
}
