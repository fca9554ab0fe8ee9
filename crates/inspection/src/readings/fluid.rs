//! The fluid: whether it is the right one, and whether its water lets it boil early. [`crate::fluid`] judges both.

use super::{Bench, Group, State, kept, written};
use crate::fluid::{
    BottleReason, FluidError, FluidJudgement, FluidReading, Item, Limit, Property, Reason, Subject,
    Verdict, judge as judge_fluid, least_wet,
};
use crate::limit::{BOILING, FLUID_GRADE};
use crate::record::Record;
use uom::si::thermodynamic_temperature::degree_celsius;

/// What [`crate::fluid`] says of the fluid of a record.
#[derive(Clone, Debug, PartialEq)]
pub enum OfFluid {
    /// Of one thing that was looked at.
    Car(Item<Verdict, Reason>),
    /// Of the bottle.
    Bottle(BottleReason),
    /// A reading that is not judged.
    Refused(FluidError),
}

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
    let check = bench.check(Group::Vehicle, "", "fluid filled in", FLUID_GRADE);
    check.found = reading
        .grade
        .map_or_else(String::new, |grade| grade.text().to_owned());
    check.limit = reading
        .required
        .map_or_else(String::new, |grade| grade.text().to_owned());
    // The grade is judged even where the readings of the fluid cannot be.
    let of_the_grade = FluidReading {
        moisture: None,
        boiling: None,
        ..reading.clone()
    };
    match judge_fluid(&of_the_grade) {
        Ok(judgement) => {
            let (state, reason) = said(&judgement, Subject::Grade);
            check.state = state;
            let is_the_same = reading.grade == reading.required;
            let is_told = state != State::Within || !is_the_same;
            check.fluid.extend(reason.filter(|_| is_told));
        }
        Err(error) => check.fluid.push(OfFluid::Refused(error)),
    }
}

/// Water by a tester, or the boiling point, or both, and then the worse of the two. One of them is enough. What is held
/// against a limit is the boiling point, measured or estimated from the water.
fn judge_water(record: &Record, reading: &FluidReading, bench: &mut Bench) {
    let measured: Vec<(Subject, String)> = [
        (Subject::Moisture, written(record.checks.moisture.found())),
        (
            Subject::Boiling,
            written(record.checks.boiling_point.found()),
        ),
    ]
    .into_iter()
    .filter(|(_, text)| !text.is_empty())
    .collect();
    let is_boiling_alone = matches!(measured.as_slice(), [(Subject::Boiling, _)]);
    let check = bench.check(Group::Vehicle, "", "boiling point of the fluid", BOILING);
    let texts: Vec<&str> = measured.iter().map(|(_, text)| text.as_str()).collect();
    check.found = texts.join(", boils at ");
    if is_boiling_alone {
        check.found = format!("boils at {}", check.found);
    } else if !measured.is_empty() {
        check.found = format!("water read: {}", check.found);
    }
    let judgement = match judge_fluid(reading) {
        Ok(judgement) => judgement,
        Err(error) => {
            let (state, reason) = boiling_alone(reading);
            // A reading that cannot be judged takes nothing from one that fails.
            if state == State::Fails {
                check.state = state;
                check.fluid.extend(reason);
            }
            check.fluid.push(OfFluid::Refused(error));
            return;
        }
    };
    check.limit = limit(&judgement, reading);
    if let (Some(estimate), None) = (&judgement.boiling, reading.boiling) {
        let boils_degc = estimate.boiling.nominal.get::<degree_celsius>();
        check.found = format!("{}, estimated to boil at {boils_degc:.0} degC", check.found);
    }
    if measured.is_empty() {
        // What to do where a tester is of no use stands in what the judgement says of moisture.
        let takes_water = judgement.limits.iter().any(is_of_moisture);
        if !takes_water {
            check.fluid.extend(said(&judgement, Subject::Moisture).1);
        }
        return;
    }
    let mut worst = None;
    for (subject, _) in &measured {
        let (state, reason) = said(&judgement, *subject);
        worst = worst.max(Some(state));
        check
            .fluid
            .extend(reason.filter(|_| state != State::Within));
    }
    check.state = worst.unwrap_or(State::NotChecked);
    kept::doubt_sample(record, check);
}

/// What the boiling point says where moisture cannot be judged.
fn boiling_alone(reading: &FluidReading) -> (State, Option<OfFluid>) {
    let without_moisture = FluidReading {
        moisture: None,
        ..reading.clone()
    };
    judge_fluid(&without_moisture).map_or((State::NotChecked, None), |judgement| {
        said(&judgement, Subject::Boiling)
    })
}

/// What the judgement says of one thing. To be renewed before the vehicle is used as usual is not to be handed over.
fn said(judgement: &FluidJudgement, subject: Subject) -> (State, Option<OfFluid>) {
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

/// The boiling point that the maker may count on; empty where no law has one.
fn limit(judgement: &FluidJudgement, reading: &FluidReading) -> String {
    let grades = [judgement.grade, reading.required];
    let least = grades
        .into_iter()
        .flatten()
        .filter_map(|grade| Some((least_wet(grade)?.get::<degree_celsius>(), grade)))
        .reduce(|one, other| if other.0 > one.0 { other } else { one });
    least.map_or_else(String::new, |(least_degc, grade)| {
        format!(
            "not below {least_degc:.0} degC, the wet minimum of new {}",
            grade.text()
        )
    })
}
