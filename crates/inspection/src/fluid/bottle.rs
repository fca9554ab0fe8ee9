//! The new bottle, item by item.

use super::car::Car;
use super::error::FluidError;
use super::judgement::{BottleJudgement, BottleVerdict, Item};
use super::limits::{least_dry, least_wet};
use super::printed::{age, share_within, temperature};
use super::reading::BottleReading;
use super::subject::Subject;
use super::trade::{NEW_PERCENT, OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, reaches};
use bleedwright_network::{Fluid, FluidFamily, Substitute};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::year;

/// Judges a bottle for a car.
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
fn overall(items: &[Item<BottleVerdict>]) -> BottleVerdict {
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

fn said_of_grade(stated: Option<Fluid>, wanted: Option<Fluid>) -> (BottleVerdict, String) {
    let (Some(stated), Some(wanted)) = (stated, wanted) else {
        let reason = wanted.map_or_else(
            || "not known what the car needs".to_owned(),
            |wanted| format!("taken for {}; read the label", wanted.text()),
        );
        return (BottleVerdict::NotChecked, reason);
    };
    let substitute = stated.in_place_of(wanted);
    let verdict = match substitute {
        Substitute::Same => BottleVerdict::Fit,
        Substitute::IfAllowed { .. } => BottleVerdict::OnlyIfAllowed,
        Substitute::BoilsLower | Substitute::Thicker { .. } | Substitute::OtherFamily => {
            BottleVerdict::DoNotUse
        }
    };
    (verdict, substitute.text(stated, wanted))
}

fn said_by_label(
    stated: ThermodynamicTemperature,
    grade: Option<Fluid>,
    least: impl Fn(Fluid) -> Option<ThermodynamicTemperature>,
) -> (BottleVerdict, String) {
    let shown = temperature(stated);
    match grade.and_then(|grade| Some((grade, least(grade)?))) {
        None => (
            BottleVerdict::NotChecked,
            format!("{shown}: there is no minimum to hold it against"),
        ),
        // A label is printed in whole degrees; the minima are whole in degC and in degF.
        Some((grade, least))
            if stated.get::<degree_celsius>() < least.get::<degree_celsius>() - 1e-6 =>
        {
            (
                BottleVerdict::DoNotUse,
                format!(
                    "{shown} on the label is less than the least that {} must have, {}: refuse the bottle",
                    grade.text(),
                    temperature(least)
                ),
            )
        }
        Some((grade, least)) => (
            BottleVerdict::Fit,
            format!(
                "{shown} on the label is not less than {} must have, {}; a label speaks for the fluid in the \
                 container, not for the class (FMVSS 116 S5.2.2.2)",
                grade.text(),
                temperature(least)
            ),
        ),
    }
}

fn said_of_moisture(bottle: &BottleReading, grade: Option<Fluid>) -> (BottleVerdict, String) {
    let Some(moisture) = bottle.moisture else {
        let reason = match grade.filter(|grade| grade.family() != FluidFamily::Glycol) {
            Some(grade) => format!(
                "{} takes up no water: look for drops and cloudiness in a clear glass",
                grade.text()
            ),
            None => "no reading; what counts is a sealed bottle within its date".to_owned(),
        };
        return (BottleVerdict::NotChecked, reason);
    };
    let shown = format!("{} read", share_within(moisture));
    if reaches(moisture.high.get::<percent>(), NEW_PERCENT) {
        return (
            BottleVerdict::DoNotUse,
            format!(
                "{shown}: more than we fill in (our own line, assumption); take a sealed bottle within its date"
            ),
        );
    }
    let rule = "nothing against it; what counts is a sealed bottle within its date";
    if grade.is_none() {
        return (
            BottleVerdict::NotChecked,
            format!("{shown}: {rule}; not judged, since the grade is not known"),
        );
    }
    (BottleVerdict::Fit, format!("{shown}: {rule}"))
}

fn said_of_opening(bottle: &BottleReading, grade: Option<Fluid>) -> (BottleVerdict, String) {
    let Some(time) = bottle.opened_for else {
        let reason = "not stated: fluid is filled in from a sealed bottle".to_owned();
        return (BottleVerdict::NotChecked, reason);
    };
    let shown = age(time);
    let years = time.get::<year>();
    if grade.is_some_and(|grade| grade.family() != FluidFamily::Glycol) {
        let reason = format!(
            "open for {shown}: dirt and drops get in; the bottle's label says how long it keeps"
        );
        return (BottleVerdict::NotChecked, reason);
    }
    // Days are counted in years of 365; half a day is no difference.
    if years + 0.5 / 365.0 >= OPENED_LONGEST_YEARS {
        let reason = format!(
            "open for {shown}: a year is too long, whatever it reads (assumption). It takes up water through every \
             opening; the label asks for the original, tightly closed container"
        );
        (BottleVerdict::DoNotUse, reason)
    } else if years > OPENED_MONTH_YEARS + 0.5 / 365.0 {
        let reason =
            format!("open for {shown}: after a month no tester vouches for it (assumption)");
        (BottleVerdict::Doubtful, reason)
    } else {
        let reason = format!("open for {shown}: close it tightly and use it up soon");
        (BottleVerdict::Fit, reason)
    }
}
