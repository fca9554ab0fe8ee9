//! Whether the job is finished: every step of the plan, and everything that it leaves to be done.

use super::{
    Bench, Found, Group, Remark, State, Wanted, What, expected, is_above, person, written,
};
use crate::limit::{PRACTICE, SHEET};
use crate::record::{Answer, Day, Measured, Record, StepEnd, StepReadings, TaskKind, TaskReadings};
use uom::si::f64::Volume;

/// Every step and task that the plan has; one check where no plan is known.
pub(super) fn judge(record: &Record, bench: &mut Bench) {
    let steps = &record.vehicle.steps;
    for (name, step) in expected(steps, &record.steps, |step| &step.name) {
        judge_step(name, &step, bench);
    }
    if steps.is_empty() || record.vehicle.tasks.is_empty() {
        let check = bench.check(Group::Job, "", What::Plan, SHEET);
        check.remark = Some(Remark::NoPlan);
    }
    for (name, task) in expected(&record.vehicle.tasks, &record.tasks, |task| &task.name) {
        judge_task(name, &task, record.work.date.found(), bench);
    }
}

fn judge_step(name: &str, step: &StepReadings, bench: &mut Bench) {
    let screws = step.screws.join(" + ");
    let subject = match screws.as_str() {
        "" => name.to_owned(),
        screws => format!("{name}, {screws}"),
    };
    let done = step.done.found();
    let pushed = step.pushed.found();
    let wanted = step.wanted.found();
    let check = bench.check(Group::Job, &subject, What::Done, SHEET);
    check.limit = written(wanted).map_or(Wanted::Done, Wanted::Pushed);
    if done.is_some() || pushed.is_some() {
        check.found = Found::Step(done.copied(), written(pushed));
    }
    let give_up = step.give_up.found();
    (check.state, check.remark) = judge_end(done.copied(), pushed, wanted, give_up);
    let kept = step.level_kept.found();
    let question = (Group::Job, subject.as_str(), What::LevelKept);
    let check = bench.question(question, kept, Answer::Yes, PRACTICE);
    if check.state == State::Fails {
        check.state = State::NotChecked;
        check.remark = Some(Remark::MayHaveRunDry);
    }
}

fn judge_end(
    done: Option<StepEnd>,
    pushed: Option<&Measured<Volume>>,
    wanted: Option<&Measured<Volume>>,
    give_up: Option<&Measured<Volume>>,
) -> (State, Option<Remark>) {
    let is_short = |wanted: &Measured<Volume>| {
        pushed.is_some_and(|pushed| is_above(wanted.bounds.nominal, pushed.bounds.low))
    };
    let is_given_up = |give_up: &Measured<Volume>| {
        pushed.is_some_and(|pushed| is_above(pushed.bounds.high, give_up.bounds.nominal))
    };
    let open = match done {
        None => Remark::StepOpen,
        Some(StepEnd::LeftOut) => Remark::StepLeftOut,
        Some(_) if wanted.is_none() || give_up.is_none() => Remark::WantedNotGiven,
        Some(_) if wanted.is_some_and(is_short) => Remark::LessThanWanted,
        Some(_) if pushed.is_none() => Remark::PushedNotGiven,
        Some(_) if give_up.is_some_and(is_given_up) => {
            return (State::LookAgain, Some(Remark::BeyondGiveUp));
        }
        Some(_) => return (State::Within, None),
    };
    (State::NotChecked, Some(open))
}

fn judge_task(name: &str, task: &TaskReadings, readings_on: Option<&Day>, bench: &mut Bench) {
    let done = task.done.found();
    let kind = task.kind.found().copied();
    let check = bench.question((Group::Job, name, What::Done), done, Answer::Yes, PRACTICE);
    if check.state != State::Within {
        check.state = State::NotChecked;
        check.remark = Some(Remark::TaskOpen);
        return;
    }
    match kind {
        None => {
            check.state = State::NotChecked;
            check.remark = Some(Remark::TaskKindNotGiven);
        }
        Some(TaskKind::Routine) => judge_routine(name, task, readings_on, bench),
        Some(_) => {}
    }
}

/// A routine that nobody can say how or when it was run was not run.
fn judge_routine(name: &str, task: &TaskReadings, readings_on: Option<&Day>, bench: &mut Bench) {
    let check = bench.check(Group::Job, name, What::RoutineBy, PRACTICE);
    check.limit = Wanted::Routine;
    if !task.by.is_empty() {
        check.found = Found::Written(task.by.clone());
    }
    if person::is_name(&task.by) {
        check.state = State::Within;
    }
    let date = task.date.found();
    let check = bench.check(Group::Job, name, What::RoutineOn, PRACTICE);
    check.limit = Wanted::Stated;
    if let Some(date) = date {
        check.found = Found::Day(*date);
        check.state = State::Within;
        let is_of_the_work = readings_on.is_some_and(|day| date.is_shortly_before(*day));
        if !is_of_the_work {
            check.state = State::LookAgain;
            check.remark = Some(Remark::NotLately);
        }
    }
}
