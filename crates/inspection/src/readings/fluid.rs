//! The fluid: whether it is the right one, and whether its water lets it boil early. [`crate::fluid`] judges both.

use super::{Bench, Group, State, written};
use crate::fluid::{
    FluidJudgement, FluidReading, Limit, LimitValue, Property, Subject, Verdict,
    judge as judge_fluid,
};
use crate::limit::{BOILING, FLUID_GRADE, PRACTICE};
use crate::record::Record;
use bleedwright_network::Fluid;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

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
            check.remark = if state == State::Within && is_the_same {
                String::new()
            } else {
                reason
            };
        }
        Err(error) => check.remark = error.to_string(),
    }
}

/// Water by a tester, or the boiling point, or both, and then the worse of the two. One of them is enough.
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
    let source = if is_boiling_alone { BOILING } else { PRACTICE };
    let check = bench.check(Group::Vehicle, "", "water in the fluid", source);
    let texts: Vec<&str> = measured.iter().map(|(_, text)| text.as_str()).collect();
    check.found = texts.join(", boils at ");
    if is_boiling_alone {
        check.found = format!("boils at {}", check.found);
    }
    let judgement = match judge_fluid(reading) {
        Ok(judgement) => judgement,
        Err(error) => {
            check.remark = error.to_string();
            let (state, reason) = boiling_alone(reading);
            // A reading that cannot be judged takes nothing from one that fails.
            if state == State::Fails {
                check.state = state;
                check.remark = format!("{reason}; {}", check.remark);
            }
            return;
        }
    };
    check.limit = limit(&judgement, is_boiling_alone);
    if measured.is_empty() {
        // What to do where a tester is of no use stands in what the judgement says of moisture.
        let takes_water = judgement.limits.iter().any(is_of_moisture);
        if !takes_water {
            check.remark = said(&judgement, Subject::Moisture).1;
        }
        return;
    }
    let said: Vec<(State, String)> = measured
        .iter()
        .map(|(subject, _)| said(&judgement, *subject))
        .collect();
    let worst = said.iter().map(|(state, _)| *state).max();
    check.state = worst.unwrap_or(State::NotChecked);
    let reasons: Vec<&str> = said
        .iter()
        .filter(|(state, _)| *state != State::Within)
        .map(|(_, reason)| reason.as_str())
        .collect();
    check.remark = reasons.join("; ");
    if check.state == State::Within && is_wetter_than_new(reading, &judgement) {
        "more than new fluid shows; measure again if it was just renewed"
            .clone_into(&mut check.remark);
    }
}

/// What the boiling point says where moisture cannot be judged.
fn boiling_alone(reading: &FluidReading) -> (State, String) {
    let without_moisture = FluidReading {
        moisture: None,
        ..reading.clone()
    };
    judge_fluid(&without_moisture).map_or((State::NotChecked, String::new()), |judgement| {
        said(&judgement, Subject::Boiling)
    })
}

/// What the judgement says of one thing. To be renewed before the vehicle is used as usual is not to be handed over.
fn said(judgement: &FluidJudgement, subject: Subject) -> (State, String) {
    let item = judgement.items.iter().find(|item| item.subject == subject);
    item.map_or((State::NotChecked, String::new()), |item| {
        let state = match item.verdict {
            Verdict::NotChecked => State::NotChecked,
            Verdict::Fit => State::Within,
            Verdict::RenewSoon => State::LookAgain,
            Verdict::RenewNow | Verdict::Unsafe => State::Fails,
        };
        (state, item.reason.clone())
    })
}

fn is_of_moisture(limit: &Limit) -> bool {
    limit.property == Property::MoistureNow
}

/// The limits as the judgement has them; empty where it has none.
fn limit(judgement: &FluidJudgement, is_boiling_alone: bool) -> String {
    let share = |property| {
        let limit = judgement
            .limits
            .iter()
            .find(|limit| limit.property == property);
        match limit?.value {
            LimitValue::ShareBelow(share) => Some(format!("{:.0} %", share.get::<percent>())),
            _ => None,
        }
    };
    if is_boiling_alone {
        let of_the_grade = judgement.grade.and_then(least_wet_degc);
        return of_the_grade.map_or_else(String::new, |least| {
            format!("wet minimum of new fluid {least:.0} degC")
        });
    }
    let shares = (
        share(Property::MoistureSoon),
        share(Property::MoistureNow),
        share(Property::MoistureUnsafe),
    );
    match shares {
        (Some(soon), Some(now), Some(unsafe_from)) => {
            format!("under {soon}; renewed from {now}, unsafe from about {unsafe_from}")
        }
        _ => String::new(),
    }
}

fn least_wet_degc(grade: Fluid) -> Option<f64> {
    crate::fluid::least_wet(grade).map(|least| least.get::<degree_celsius>())
}

fn is_wetter_than_new(reading: &FluidReading, judgement: &FluidJudgement) -> bool {
    let new = judgement
        .limits
        .iter()
        .find(|limit| limit.property == Property::NewMoisture);
    match (reading.moisture, new.map(|limit| limit.value)) {
        (Some(found), Some(LimitValue::ShareBelow(new))) => found.high >= new,
        _ => false,
    }
}
