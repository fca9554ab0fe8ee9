//! The fluid: whether it is the right one, and whether its water lets it boil early. [`crate::fluid`] judges both.

use super::{Bench, Found, Group, OfFluid, Remark, State, Wanted, What, kept, written};
use crate::fluid::{
    FluidJudgement, FluidReading, Limit, Property, Subject, Verdict, judge as judge_fluid,
    least_wet,
};
use crate::limit::{BOILING, FLUID_GRADE};
use crate::record::Record;

pub(super) fn judge(record: &Record, bench: &mut Bench) {
    let checks = &record.checks;
    let reading = FluidReading {
        grade: checks.fluid.found().copied(),
        required: record.vehicle.fluid.found().copied(),
        moisture: checks.moisture.found().map(|measured| measured.bounds),
        boiling: checks.boiling_point.found().map(|measured| measured.bounds),
        ..FluidReading::default()
    };
    judge_grade(&reading, bench);
    judge_water(record, &reading, bench);
}

fn judge_grade(reading: &FluidReading, bench: &mut Bench) {
    let check = bench.check(Group::Vehicle, "", What::Fluid, FLUID_GRADE);
    check.found = reading.grade.map_or(Found::Nothing, Found::Grade);
    check.limit = reading.required.map_or(Wanted::Unknown, Wanted::Grade);
    // The grade is judged even where the readings of the fluid cannot be.
    let of_the_grade = FluidReading {
        moisture: None,
        boiling: None,
        ..reading.clone()
    };
    match judge_fluid(&of_the_grade) {
        Ok(judgement) => {
            let (state, reason) = said_of(&judgement, Subject::Grade);
            check.state = state;
            let is_the_same = reading.grade == reading.required;
            let is_told = state != State::Within || !is_the_same;
            check.remark = of_fluid(reason.filter(|_| is_told));
        }
        Err(error) => check.remark = of_fluid([OfFluid::Refused(error)]),
    }
}

/// Water by a tester, or the boiling point, or both, and then the worse of the two. One of them is enough. What is held
/// against a limit is the boiling point, measured or estimated from the water.
fn judge_water(record: &Record, reading: &FluidReading, bench: &mut Bench) {
    let moisture = written(record.checks.moisture.found());
    let boiling = written(record.checks.boiling_point.found());
    let measured = [
        (Subject::Moisture, moisture.is_some()),
        (Subject::Boiling, boiling.is_some()),
    ];
    let is_measured = moisture.is_some() || boiling.is_some();
    let check = bench.check(Group::Vehicle, "", What::Boiling, BOILING);
    let found = |estimated| Found::Fluid {
        moisture: moisture.clone(),
        boiling: boiling.clone(),
        estimated,
    };
    if is_measured {
        check.found = found(None);
    }
    let judgement = match judge_fluid(reading) {
        Ok(judgement) => judgement,
        Err(error) => {
            let (state, reason) = boiling_alone(reading);
            // A reading that cannot be judged takes nothing from one that fails.
            let reason = reason.filter(|_| state == State::Fails);
            check.state = state.max(check.state);
            check.remark = of_fluid(reason.into_iter().chain([OfFluid::Refused(error)]));
            return;
        }
    };
    check.limit = limit(&judgement, reading);
    if let (Some(estimate), None) = (&judgement.boiling, reading.boiling) {
        check.found = found(Some(estimate.boiling.nominal));
    }
    if !is_measured {
        // What to do where a tester is of no use stands in what the judgement says of moisture.
        let takes_water = judgement.limits.iter().any(is_of_moisture);
        let reason = said_of(&judgement, Subject::Moisture).1;
        check.remark = of_fluid(reason.filter(|_| !takes_water));
        return;
    }
    let is_read = |(subject, is_read): (Subject, bool)| is_read.then_some(subject);
    let said = measured.into_iter().filter_map(is_read);
    let said: Vec<(State, Option<OfFluid>)> =
        said.map(|subject| said_of(&judgement, subject)).collect();
    let worst = said.iter().map(|(state, _)| *state).max();
    check.state = worst.unwrap_or(State::NotChecked);
    let told = said
        .into_iter()
        .filter(|(state, _)| *state != State::Within);
    check.remark = of_fluid(told.filter_map(|(_, reason)| reason));
    kept::doubt_sample(record, check);
}

/// The remark that is made of these.
fn of_fluid(said: impl IntoIterator<Item = OfFluid>) -> Option<Remark> {
    let said: Vec<OfFluid> = said.into_iter().collect();
    (!said.is_empty()).then_some(Remark::Fluid(said))
}

/// What the boiling point says where moisture cannot be judged.
fn boiling_alone(reading: &FluidReading) -> (State, Option<OfFluid>) {
    let without_moisture = FluidReading {
        moisture: None,
        ..reading.clone()
    };
    judge_fluid(&without_moisture).map_or((State::NotChecked, None), |judgement| {
        said_of(&judgement, Subject::Boiling)
    })
}

/// What the judgement says of one thing. To be renewed before the vehicle is used as usual is not to be handed over.
fn said_of(judgement: &FluidJudgement, subject: Subject) -> (State, Option<OfFluid>) {
    let item = judgement.items.iter().find(|item| item.subject == subject);
    item.map_or((State::NotChecked, None), |item| {
        let state = match item.verdict {
            Verdict::NotChecked => State::NotChecked,
            Verdict::Fit => State::Within,
            Verdict::RenewSoon => State::LookAgain,
            Verdict::RenewNow | Verdict::Unsafe => State::Fails,
        };
        (state, Some(OfFluid::Car(item.clone())))
    })
}

fn is_of_moisture(limit: &Limit) -> bool {
    limit.property == Property::Moisture
}

/// The boiling point that the maker may count on; none where no law has one.
fn limit(judgement: &FluidJudgement, reading: &FluidReading) -> Wanted {
    let grades = [judgement.grade, reading.required];
    let least = grades.into_iter().flatten();
    least
        .filter_map(|grade| Some((grade, least_wet(grade)?)))
        .reduce(|one, other| if other.1 > one.1 { other } else { one })
        .map_or(Wanted::Unknown, |(grade, least)| {
            Wanted::WetMinimum(grade, least)
        })
}
