//! The verdicts.

use super::advice;
use super::bottle;
use super::car;
use super::error::FluidError;
use super::estimate::BoilingEstimate;
use super::limits::{Limit, limits_of};
use super::reading::FluidReading;
use super::trade;
use crate::words::words;
use bleedwright_network::{Fluid, FluidFamily};
use std::fmt;

words! {
    /// What is said of the fluid in the car. A later one is worse than an earlier one; what was not checked stands outside.
    #[derive(PartialOrd, Ord, Hash)]
    Verdict {
        /// Nothing was measured that tells.
        NotChecked = "not_checked", "not checked";
        /// No reason was found against it, as far as was checked: one reading at one place makes no fluid fit.
        Fit = "no_reason_found", "no reason found";
        /// To be renewed at the next opportunity.
        RenewSoon = "renew_soon", "renew soon";
        /// To be renewed before the car is used as usual.
        RenewNow = "renew_now", "renew now";
        /// Not to be driven.
        Unsafe = "unsafe", "unsafe, do not drive";
    }
}

words! {
    /// Whether the fluid in the bottle may be filled in. A later one is worse than an earlier one.
    #[derive(PartialOrd, Ord, Hash)]
    BottleVerdict {
        /// Its moisture was not measured.
        NotChecked = "not_checked", "not checked";
        /// No reason was found against it.
        Fit = "no_reason_found", "no reason found";
        /// Open a sealed bottle instead.
        Doubtful = "doubtful", "doubtful, open a sealed one";
        /// Another grade than the car needs, which no other bottle of it cures: the maker decides.
        OnlyIfAllowed = "only_if_allowed", "another grade, only where the maker allows it";
        /// Not to be filled in.
        DoNotUse = "do_not_use", "do not use";
    }
}

words! {
    /// What is judged, or stated.
    #[derive(Hash)]
    #[non_exhaustive]
    Subject {
        /// Whether it is the grade that the maker asks for.
        Grade = "grade", "grade";
        /// What was added to it.
        Mixture = "mixture", "topping up";
        /// Water in the fluid in the car.
        Moisture = "moisture", "moisture";
        /// Boiling point of the fluid in the car.
        Boiling = "boiling_point", "boiling point";
        /// What a sample of it looks like.
        Look = "look", "look of a sample";
        /// How long it has been in the car.
        Age = "age", "age";
        /// The maker's interval.
        Interval = "interval", "the maker's interval";
        /// Grade of the new bottle.
        BottleGrade = "bottle_grade", "grade of the bottle";
        /// Water in the new bottle.
        BottleMoisture = "bottle_moisture", "moisture of the bottle";
        /// How long the bottle has been open.
        OpenedFor = "opened_for", "time since the bottle was opened";
        /// Dry boiling point on the label.
        LabelDry = "label_dry", "dry boiling point on the label";
        /// Wet boiling point on the label.
        LabelWet = "label_wet", "wet boiling point on the label";
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.text())
    }
}

/// One thing that was looked at, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Item<V> {
    /// What was looked at.
    pub subject: Subject,
    /// What it says by itself.
    pub verdict: V,
    /// Why.
    pub reason: String,
}

impl<V> Item<V> {
    /// Everything that was looked at, each with what it says and why.
    pub(super) fn all(said: impl IntoIterator<Item = (Subject, (V, String))>) -> Vec<Self> {
        let item = |(subject, (verdict, reason))| Self {
            subject,
            verdict,
            reason,
        };
        said.into_iter().map(item).collect()
    }
}

/// What is said of the fluid in the car, and of the bottle.
#[derive(Clone, Debug, PartialEq)]
pub struct FluidJudgement {
    /// The grade that it is judged as: of a mixture the lowest.
    pub grade: Option<Fluid>,
    /// The verdict on the fluid in the car: the worst of `items`. No reason is found against it only where moisture or
    /// boiling point were measured.
    pub verdict: Verdict,
    /// Why moisture and boiling point cannot both be true: then neither counts as good.
    pub contradiction: Option<String>,
    /// Everything that was looked at, and what was not.
    pub items: Vec<Item<Verdict>>,
    /// The boiling point by the moisture; none without a moisture reading or beyond 8 % of water.
    pub boiling: Option<BoilingEstimate>,
    /// The verdict on the new bottle, where there is one.
    pub bottle: Option<BottleJudgement>,
    /// The limits of the grade and the rules of the trade.
    pub limits: Vec<Limit>,
    /// What was assumed.
    pub assumptions: Vec<String>,
    /// What can hurt or mislead.
    pub cautions: Vec<String>,
}

/// What is said of a bottle.
#[derive(Clone, Debug, PartialEq)]
pub struct BottleJudgement {
    /// The grade that it is judged as.
    pub grade: Option<Fluid>,
    /// The verdict: the worst of `items`. No reason is found against it only where its moisture was
    /// measured.
    pub verdict: BottleVerdict,
    /// Everything that was looked at, and what was not.
    pub items: Vec<Item<BottleVerdict>>,
}

impl FluidJudgement {
    /// The verdict as printed for people.
    pub fn text(&self) -> &'static str {
        match self.verdict {
            Verdict::NotChecked if self.contradiction.is_some() => "measure again",
            verdict => verdict.text(),
        }
    }

    /// What the verdict rests on: items that say as much as the verdict, the worst.
    pub fn reasons(&self) -> impl Iterator<Item = &Item<Verdict>> {
        self.items
            .iter()
            .filter(|item| item.verdict == self.verdict)
    }

    /// What was not checked.
    pub fn not_checked(&self) -> impl Iterator<Item = Subject> {
        let is_open = |item: &&Item<Verdict>| item.verdict == Verdict::NotChecked;
        self.items.iter().filter(is_open).map(|item| item.subject)
    }
}

/// Judges the fluid in a car and the bottle beside it.
///
/// The verdict is the worst that any item says. Nothing measured is [not checked](Verdict::NotChecked); a tolerance counts
/// at its worse end. The rules of the trade and their standing are in [`FluidJudgement::limits`].
///
/// Errors: a moisture reading of fluid that takes up no water, and readings that no fluid can have.
///
/// Source: limits [FMVSS116](crate#sources), [ISO4925](crate#sources); the rules of the trade have none.
pub fn judge(reading: &FluidReading) -> Result<FluidJudgement, FluidError> {
    reading.check()?;
    let car = car::Car::new(reading)?;
    let items = car.items();
    let boiling = car.estimate();
    let bottle = match &reading.bottle {
        Some(bottle) => Some(bottle::judge(bottle, &car)?),
        None => None,
    };
    let mut limits = car.grade.map(limits_of).unwrap_or_default();
    if car
        .grade
        .is_none_or(|grade| grade.family() == FluidFamily::Glycol)
    {
        limits.extend(trade::rules());
    }
    Ok(FluidJudgement {
        grade: car.grade,
        verdict: overall(&items),
        contradiction: car.contradiction(),
        assumptions: advice::assumptions(reading, &car, boiling.as_ref()),
        cautions: advice::cautions(&car, overall(&items), boiling.as_ref()),
        boiling,
        bottle,
        limits,
        items,
    })
}

/// The worst verdict; nothing is found against it only by a measurement.
fn overall(items: &[Item<Verdict>]) -> Verdict {
    let worst = items.iter().map(|item| item.verdict).max();
    let is_measured = items.iter().any(|item| {
        matches!(item.subject, Subject::Moisture | Subject::Boiling)
            && item.verdict != Verdict::NotChecked
    });
    let is_told = |worst: &Verdict| *worst != Verdict::Fit || is_measured;
    worst.filter(is_told).unwrap_or(Verdict::NotChecked)
}
