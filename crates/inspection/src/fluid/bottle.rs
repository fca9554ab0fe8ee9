//! The new bottle, item by item.

use super::boiling_lines::is_below;
use super::bottle_reason::{BottleReason, Opened};
use super::car::Car;
use super::error::FluidError;
use super::judgement::{BottleJudgement, Item};
use super::limits::{least_dry, least_wet};
use super::reading::BottleReading;
use super::subject::Subject;
use super::trade::{NEW_PERCENT, OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, reaches};
use super::verdict::BottleVerdict;
use bleedwright_network::{Fluid, FluidFamily, Substitute};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::ratio::percent;
use uom::si::time::year;

pub(super) fn judge(bottle: &BottleReading, car: &Car<'_>) -> Result<BottleJudgement, FluidError> {
    // What was wrongly added to a car says nothing of the bottle.
    let wanted = car.reading.required.or(car.base);
    let grade = bottle.grade.or(wanted);
    if let (Some(_), Some(grade)) = (bottle.moisture, grade)
        && grade.family() != FluidFamily::Glycol
    {
        return Err(FluidError::NoMoisture {
            subject: Subject::BottleMoisture,
            grade,
        });
    }
    let label = bottle.label;
    let dry = label.dry.map(|dry| said_by_label(dry, grade, least_dry));
    let wet = label.wet.map(|wet| said_by_label(wet, grade, least_wet));
    let said = [(Subject::BottleGrade, said_of_grade(bottle.grade, wanted))]
        .into_iter()
        .chain(dry.map(|said| (Subject::LabelDry, said)))
        .chain(wet.map(|said| (Subject::LabelWet, said)))
        .chain([
            (Subject::BottleMoisture, said_of_moisture(bottle, grade)),
            (Subject::OpenedFor, said_of_opening(bottle, grade)),
        ]);
    let items = Item::all(said);
    Ok(BottleJudgement {
        grade,
        verdict: overall(&items),
        items,
    })
}

/// The worst verdict; nothing is found against it only where its grade was read and its moisture measured: a tester for water
/// reads next to nothing in silicone and mineral oil.
fn overall(items: &[Item<BottleVerdict, BottleReason>]) -> BottleVerdict {
    let worst = items.iter().map(|item| item.verdict).max();
    let is_known = |subject| {
        items
            .iter()
            .any(|item| item.subject == subject && item.verdict != BottleVerdict::NotChecked)
    };
    let is_judged = is_known(Subject::BottleMoisture) && is_known(Subject::BottleGrade);
    let is_told = |worst: &BottleVerdict| *worst != BottleVerdict::Fit || is_judged;
    worst.filter(is_told).unwrap_or(BottleVerdict::NotChecked)
}

fn said_of_grade(stated: Option<Fluid>, wanted: Option<Fluid>) -> (BottleVerdict, BottleReason) {
    let (Some(is), Some(wanted)) = (stated, wanted) else {
        let reason = wanted.map_or(BottleReason::NeedNotKnown, BottleReason::TakenFor);
        return (BottleVerdict::NotChecked, reason);
    };
    let substitute = is.in_place_of(wanted);
    let verdict = match substitute {
        Substitute::Same => BottleVerdict::Fit,
        Substitute::IfAllowed { .. } => BottleVerdict::OnlyIfAllowed,
        Substitute::BoilsLower | Substitute::Thicker { .. } | Substitute::OtherFamily => {
            BottleVerdict::DoNotUse
        }
    };
    let reason = BottleReason::Grade {
        is,
        wanted,
        substitute,
    };
    (verdict, reason)
}

fn said_by_label(
    says: ThermodynamicTemperature,
    grade: Option<Fluid>,
    least: impl Fn(Fluid) -> Option<ThermodynamicTemperature>,
) -> (BottleVerdict, BottleReason) {
    let Some((grade, least)) = grade.and_then(|grade| Some((grade, least(grade)?))) else {
        return (BottleVerdict::NotChecked, BottleReason::NoMinimum(says));
    };
    // A label is printed in whole degrees; the minima are whole in degC and in degF.
    let is_less = is_below(says, least);
    let verdict = if is_less {
        BottleVerdict::DoNotUse
    } else {
        BottleVerdict::Fit
    };
    let reason = BottleReason::Label {
        says,
        grade,
        least,
        is_less,
    };
    (verdict, reason)
}

fn said_of_moisture(bottle: &BottleReading, grade: Option<Fluid>) -> (BottleVerdict, BottleReason) {
    let Some(moisture) = bottle.moisture else {
        let without_water = grade.filter(|grade| grade.family() != FluidFamily::Glycol);
        let reason = without_water.map_or(BottleReason::NotRead, BottleReason::NoWater);
        return (BottleVerdict::NotChecked, reason);
    };
    let is_too_much = reaches(moisture.high.get::<percent>(), NEW_PERCENT);
    let verdict = match grade {
        _ if is_too_much => BottleVerdict::DoNotUse,
        None => BottleVerdict::NotChecked,
        Some(_) => BottleVerdict::Fit,
    };
    let reason = BottleReason::Moisture {
        moisture,
        is_too_much,
        lacks_grade: grade.is_none(),
    };
    (verdict, reason)
}

fn said_of_opening(bottle: &BottleReading, grade: Option<Fluid>) -> (BottleVerdict, BottleReason) {
    let Some(time) = bottle.opened_for else {
        return (BottleVerdict::NotChecked, BottleReason::OpeningNotStated);
    };
    // Days are counted in years of 365; half a day is no difference.
    let (years, half_a_day) = (time.get::<year>(), 0.5 / 365.0);
    let (verdict, means) = if grade.is_some_and(|grade| grade.family() != FluidFamily::Glycol) {
        (BottleVerdict::NotChecked, Opened::KeepsByLabel)
    } else if years + half_a_day >= OPENED_LONGEST_YEARS {
        (BottleVerdict::DoNotUse, Opened::TooLong)
    } else if years > OPENED_MONTH_YEARS + half_a_day {
        (BottleVerdict::Doubtful, Opened::Doubtful)
    } else {
        (BottleVerdict::Fit, Opened::ForShort)
    };
    (verdict, BottleReason::Open { time, means })
}
