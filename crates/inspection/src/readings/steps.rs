//! Whether the job is finished: every step of the plan, and everything that it leaves to be done.

use super::{Bench, Group, State, expected, is_above, person, written};
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
        let check = bench.check(Group::Job, "", "plan of the work", SHEET);
        "this record does not say what the plan asked for: start it from the plan"
            .clone_into(&mut check.remark);
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
    let check = bench.check(Group::Job, &subject, "done", SHEET);
    check.limit = match wanted {
        Some(wanted) => format!("at least {}", wanted.text),
        None => "done".to_owned(),
    };
    check.found = [done.map_or("", |end| end_text(*end)), &written(pushed)]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let give_up = step.give_up.found();
    let (state, remark) = judge_end(done.copied(), pushed, wanted, give_up);
    check.state = state;
    remark.clone_into(&mut check.remark);
    let kept = step.level_kept.found();
    let question = (
        Group::Job,
        subject.as_str(),
        "level kept, every stop seen to",
    );
    let check = bench.question(question, kept, Answer::Yes, PRACTICE);
    if check.state == State::Fails {
        check.state = State::NotChecked;
        "a compartment may have run dry: plan again with it run dry".clone_into(&mut check.remark);
    }
}

fn judge_end(
    done: Option<StepEnd>,
    pushed: Option<&Measured<Volume>>,
    wanted: Option<&Measured<Volume>>,
    give_up: Option<&Measured<Volume>>,
) -> (State, &'static str) {
    let is_short = |wanted: &Measured<Volume>| {
        pushed.is_some_and(|pushed| is_above(wanted.bounds.nominal, pushed.bounds.low))
    };
    let is_given_up = |give_up: &Measured<Volume>| {
        pushed.is_some_and(|pushed| is_above(pushed.bounds.high, give_up.bounds.nominal))
    };
    match done {
        None => (State::NotChecked, "NOT FINISHED: this step is open"),
        Some(StepEnd::LeftOut) => (State::NotChecked, "NOT FINISHED: bleed what was left out"),
        Some(_) if wanted.is_none() || give_up.is_none() => {
            (State::NotChecked, "how much the plan wants is not given")
        }
        Some(_) if wanted.is_some_and(is_short) => {
            (State::NotChecked, "NOT FINISHED: less than the plan wants")
        }
        Some(_) if pushed.is_none() => (State::NotChecked, "how much was pushed is not given"),
        Some(_) if give_up.is_some_and(is_given_up) => (
            State::LookAgain,
            "beyond where to give up: find where air enters",
        ),
        Some(_) => (State::Within, ""),
    }
}

fn end_text(end: StepEnd) -> &'static str {
    match end {
        StepEnd::Counted => "counted",
        StepEnd::ByJar => "by the jar, not counted",
        StepEnd::ByStrokes => "by strokes, not counted",
        StepEnd::LeftOut => "LEFT OUT",
    }
}

fn judge_task(name: &str, task: &TaskReadings, readings_on: Option<&Day>, bench: &mut Bench) {
    let done = task.done.found();
    let kind = task.kind.found().copied();
    let check = bench.question((Group::Job, name, "done"), done, Answer::Yes, PRACTICE);
    if check.state != State::Within {
        check.state = State::NotChecked;
        "NOT FINISHED before this is done".clone_into(&mut check.remark);
        return;
    }
    match kind {
        None => {
            check.state = State::NotChecked;
            "what kind of task it is the record does not say".clone_into(&mut check.remark);
        }
        Some(TaskKind::Routine) => judge_routine(name, task, readings_on, bench),
        Some(_) => {}
    }
}

/// A routine that nobody can say how or when it was run was not run.
fn judge_routine(name: &str, task: &TaskReadings, readings_on: Option<&Day>, bench: &mut Bench) {
    let check = bench.check(Group::Job, name, "by what", PRACTICE);
    "the tester or the steps of the manual".clone_into(&mut check.limit);
    check.found.clone_from(&task.by);
    if person::is_name(&task.by) {
        check.state = State::Within;
    }
    let date = task.date.found();
    let check = bench.check(Group::Job, name, "when", PRACTICE);
    "stated".clone_into(&mut check.limit);
    if let Some(date) = date {
        check.found = date.to_string();
        check.state = State::Within;
        let is_of_the_work = readings_on.is_some_and(|day| date.is_shortly_before(*day));
        if !is_of_the_work {
            check.state = State::LookAgain;
            "not within a month before the readings".clone_into(&mut check.remark);
        }
    }
}
