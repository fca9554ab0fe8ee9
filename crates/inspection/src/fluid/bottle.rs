//! The new bottle, item by item.

use super::car::Car;
use super::error::FluidError;
use super::judgement::{BottleJudgement, BottleVerdict, Item, Subject};
use super::limits::{least_dry, least_wet};
use super::printed::{age, share_within, temperature};
use super::reading::BottleReading;
use super::trade::{NEW_PERCENT, OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, reaches};
use bleedwright_network::{Fluid, FluidFamily};
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
    let mut items = vec![grade_item(bottle.grade, wanted)];
    let label = bottle.label;
    items.extend(label_item(Subject::LabelDry, label.dry, grade, least_dry));
    items.extend(label_item(Subject::LabelWet, label.wet, grade, least_wet));
    items.push(moisture_item(bottle, grade));
    items.push(opened_item(bottle, grade));
    Ok(BottleJudgement {
        grade,
        verdict: overall(&items),
        items,
    })
}

/// The worst verdict; fit only by its moisture.
fn overall(items: &[Item<BottleVerdict>]) -> BottleVerdict {
    let worst = items
        .iter()
        .map(|item| item.verdict)
        .max()
        .unwrap_or(BottleVerdict::NotChecked);
    let is_measured = items.iter().any(|item| {
        item.subject == Subject::BottleMoisture && item.verdict != BottleVerdict::NotChecked
    });
    if worst == BottleVerdict::Fit && !is_measured {
        BottleVerdict::NotChecked
    } else {
        worst
    }
}

fn grade_item(stated: Option<Fluid>, wanted: Option<Fluid>) -> Item<BottleVerdict> {
    let say = |verdict, reason| Item {
        subject: Subject::BottleGrade,
        verdict,
        reason,
    };
    match (stated, wanted) {
        (Some(stated), Some(wanted)) if stated.family() != wanted.family() => say(
            BottleVerdict::DoNotUse,
            format!(
                "{} is {}, the car needs {}, which is {}: the two mix with no good, and the seals suffer",
                stated.text(),
                stated.family().text(),
                wanted.text(),
                wanted.family().text()
            ),
        ),
        (Some(stated), Some(wanted)) if least_dry(stated) < least_dry(wanted) => say(
            BottleVerdict::DoNotUse,
            format!("{} is a lower grade than {}", stated.text(), wanted.text()),
        ),
        (Some(stated), Some(wanted)) if stated != wanted => say(
            BottleVerdict::Doubtful,
            format!(
                "{} boils no lower than {}, but the maker decides whether it may replace it",
                stated.text(),
                wanted.text()
            ),
        ),
        (Some(stated), Some(_)) => say(
            BottleVerdict::Fit,
            format!("{}, as the car needs", stated.text()),
        ),
        (None, Some(wanted)) => say(
            BottleVerdict::NotChecked,
            format!("taken for {}; read the label", wanted.text()),
        ),
        (_, None) => say(
            BottleVerdict::NotChecked,
            "not known what the car needs".to_owned(),
        ),
    }
}

fn label_item(
    subject: Subject,
    stated: Option<ThermodynamicTemperature>,
    grade: Option<Fluid>,
    least: impl Fn(Fluid) -> Option<ThermodynamicTemperature>,
) -> Option<Item<BottleVerdict>> {
    let stated = stated?;
    let shown = temperature(stated);
    let (verdict, reason) = match grade.and_then(|grade| Some((grade, least(grade)?))) {
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
    };
    Some(Item {
        subject,
        verdict,
        reason,
    })
}

fn moisture_item(bottle: &BottleReading, grade: Option<Fluid>) -> Item<BottleVerdict> {
    let say = |verdict, reason| Item {
        subject: Subject::BottleMoisture,
        verdict,
        reason,
    };
    let Some(moisture) = bottle.moisture else {
        let reason = match grade.filter(|grade| grade.family() != FluidFamily::Glycol) {
            Some(grade) => format!(
                "{} takes up no water: look for drops and cloudiness in a clear glass",
                grade.text()
            ),
            None => "no reading; a new bottle is worth checking too".to_owned(),
        };
        return say(BottleVerdict::NotChecked, reason);
    };
    let shown = share_within(moisture);
    if reaches(moisture.high.get::<percent>(), NEW_PERCENT) {
        return say(
            BottleVerdict::DoNotUse,
            format!("{shown}: new fluid reads under 1 % (common practice, no source)"),
        );
    }
    let rule = "under 1 %, as new fluid reads (common practice, no source)";
    if grade.is_none() {
        return say(
            BottleVerdict::NotChecked,
            format!("{shown}: {rule}; not judged, since the grade is not known"),
        );
    }
    say(BottleVerdict::Fit, format!("{shown}: {rule}"))
}

fn opened_item(bottle: &BottleReading, grade: Option<Fluid>) -> Item<BottleVerdict> {
    let say = |verdict, reason| Item {
        subject: Subject::OpenedFor,
        verdict,
        reason,
    };
    let Some(time) = bottle.opened_for else {
        let reason = "not stated: fluid is filled in from a sealed bottle".to_owned();
        return say(BottleVerdict::NotChecked, reason);
    };
    let shown = age(time);
    let years = time.get::<year>();
    if grade.is_some_and(|grade| grade.family() != FluidFamily::Glycol) {
        let reason = format!(
            "open for {shown}: dirt and drops get in; the bottle's label says how long it keeps"
        );
        return say(BottleVerdict::NotChecked, reason);
    }
    // Days are counted in years of 365; half a day is no difference.
    if years + 0.5 / 365.0 >= OPENED_LONGEST_YEARS {
        let reason = format!(
            "open for {shown}: a year is too long, whatever it reads (assumption). It takes up water through every \
             opening; the label asks for the original, tightly closed container"
        );
        say(BottleVerdict::DoNotUse, reason)
    } else if years > OPENED_MONTH_YEARS + 0.5 / 365.0 && bottle.moisture.is_none() {
        let reason = format!(
            "open for {shown}, and its moisture was not measured: after a month only a reading vouches for it (assumption)"
        );
        say(BottleVerdict::Doubtful, reason)
    } else {
        let measure = if bottle.moisture.is_some() {
            "its reading holds for today only"
        } else {
            "measure it before use"
        };
        let reason = format!("open for {shown}: close it tightly and use it up soon; {measure}");
        say(BottleVerdict::Fit, reason)
    }
}
