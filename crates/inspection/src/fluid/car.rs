//! The fluid in the car, item by item.

use super::boiling_lines::{BoilingLines, is_below, is_below_every_class};
use super::error::FluidError;
use super::estimate::{BoilingEstimate, is_too_much};
use super::judgement::Item;
use super::limits::{least_dry, least_wet};
use super::reading::{FluidReading, Label, Look};
use super::reason::{
    AgeReason, BoilingReason, Due, EstimateSays, EstimatedBoiling, GradeReason, MoistureReason,
    Reason,
};
use super::subject::Subject;
use super::trade::{
    OVERDUE_YEARS, RENEW_NOW_PERCENT, RENEW_SOON_PERCENT, RENEWAL_YEARS, UNSAFE_PERCENT, reaches,
};
use super::verdict::Verdict;
use bleedwright_network::{Bounds, Fluid, FluidFamily, Substitute};
use uom::si::f64::Ratio;
use uom::si::ratio::percent;
use uom::si::time::year;

/// The fluid in the car, with the questions of grade answered.
pub(super) struct Car<'r> {
    pub(super) reading: &'r FluidReading,
    /// The grade that it is judged as: of a mixture the lowest.
    pub(super) grade: Option<Fluid>,
    /// What was in it before something was added.
    pub(super) base: Option<Fluid>,
    /// Fluids that must not meet, or one that the maker does not ask for, are in it.
    pub(super) is_wrong_family: bool,
    label: Option<Label>,
}

impl<'r> Car<'r> {
    pub(super) fn new(reading: &'r FluidReading) -> Result<Self, FluidError> {
        let base = reading.grade.or(reading.required);
        let lowest = |one: Fluid, other: Fluid| {
            if least_dry(other) < least_dry(one) {
                other
            } else {
                one
            }
        };
        let all = base.into_iter().chain(reading.mixed_with.iter().copied());
        let is_mixed_wrongly = !is_one_family(all.clone());
        let is_wrong_family = !is_one_family(all.clone().chain(reading.required));
        // Where the first fill is unknown, what was added says nothing of the rest.
        let grade = base.filter(|_| !is_mixed_wrongly).and(all.reduce(lowest));
        let grade = if is_mixed_wrongly { base } else { grade };
        if let (Some(_), Some(grade), false) = (reading.moisture, grade, is_wrong_family)
            && grade.family() != FluidFamily::Glycol
        {
            return Err(FluidError::NoMoisture {
                subject: Subject::Moisture,
                grade,
            });
        }
        let label = reading.bottle.as_ref().map(|bottle| bottle.label);
        Ok(Self {
            reading,
            grade,
            base,
            is_wrong_family,
            label: label.filter(|_| reading.is_of_the_label),
        })
    }

    /// The boiling point by the moisture.
    pub(super) fn estimate(&self) -> Option<BoilingEstimate> {
        self.estimate_at(self.reading.moisture)
    }

    fn estimate_at(&self, moisture: Option<Bounds<Ratio>>) -> Option<BoilingEstimate> {
        if self.is_wrong_family {
            return None;
        }
        BoilingEstimate::new(self.grade?, moisture?, self.label)
    }

    pub(super) fn items(&self) -> Vec<Item<Verdict, Reason>> {
        let (graded, grade) = self.grade();
        let (mixed, mixture) = self.mixture();
        let (looked, look) = self.look();
        let (read, moisture) = self.moisture();
        let (measured, boiling) = self.boiling();
        let (aged, age) = self.age();
        let mut items = Item::all([
            (Subject::Grade, (graded, Reason::Grade(grade))),
            (Subject::Mixture, (mixed, Reason::Mixture(mixture))),
            (Subject::Look, (looked, Reason::Look(look))),
            (Subject::Moisture, (read, Reason::Moisture(moisture))),
            (Subject::Boiling, (measured, Reason::Boiling(boiling))),
            (Subject::Age, (aged, Reason::Age(age))),
        ]);
        let is_contradicted = self.contradiction().is_some();
        for item in items.iter_mut().filter(|_| is_contradicted) {
            item.contradicted_by = match item.subject {
                Subject::Moisture => Some(Subject::Boiling),
                Subject::Boiling => Some(Subject::Moisture),
                _ => None,
            };
            // It is no reason to trust the fluid, and none to forget what speaks against it.
            if item.contradicted_by.is_some() && item.verdict == Verdict::Fit {
                item.verdict = Verdict::NotChecked;
            }
        }
        items
    }

    fn grade(&self) -> (Verdict, GradeReason) {
        let (is, wanted) = match (self.reading.grade, self.reading.required) {
            (None, None) => return (Verdict::NotChecked, GradeReason::Unknown),
            (Some(is), None) => return (Verdict::NotChecked, GradeReason::Stated(is)),
            (None, Some(wanted)) => return (Verdict::NotChecked, GradeReason::Asked(wanted)),
            (Some(is), Some(wanted)) => (is, wanted),
        };
        let is_other_family = is.family() != wanted.family();
        if self.is_wrong_family && !is_other_family {
            return (Verdict::NotChecked, GradeReason::AddedFirst);
        }
        let judged = self.thickest(wanted).or(self.grade).unwrap_or(is);
        let is = if is_other_family { is } else { judged };
        let substitute = is.in_place_of(wanted);
        let verdict = match substitute {
            Substitute::OtherFamily => Verdict::Unsafe,
            Substitute::Thicker { .. } => Verdict::RenewNow,
            Substitute::BoilsLower => Verdict::RenewSoon,
            Substitute::Same | Substitute::IfAllowed { .. } => Verdict::Fit,
        };
        let reason = GradeReason::Held {
            is,
            wanted,
            substitute,
        };
        (verdict, reason)
    }

    fn look(&self) -> (Verdict, Option<Look>) {
        let verdict = match self.reading.look {
            None => Verdict::NotChecked,
            Some(Look::Clear) => Verdict::Fit,
            Some(Look::Water | Look::Dirt) => Verdict::Unsafe,
        };
        (verdict, self.reading.look)
    }

    fn moisture(&self) -> (Verdict, MoistureReason) {
        let Some(moisture) = self.reading.moisture else {
            let is_without_water = |grade: &Fluid| grade.family() != FluidFamily::Glycol;
            let grade = self.grade.filter(is_without_water);
            let reason = grade.map_or(MoistureReason::NotRead, MoistureReason::NoWater);
            return (Verdict::NotChecked, reason);
        };
        if self.is_wrong_family {
            return (Verdict::NotChecked, MoistureReason::Meaningless(moisture));
        }
        let worst_percent = moisture.high.get::<percent>();
        let by_water = if reaches(worst_percent, UNSAFE_PERCENT) {
            Verdict::Unsafe
        } else if reaches(worst_percent, RENEW_NOW_PERCENT) {
            Verdict::RenewNow
        } else if reaches(worst_percent, RENEW_SOON_PERCENT) {
            Verdict::RenewSoon
        } else {
            Verdict::Fit
        };
        let boils = self.grade.and_then(|grade| self.estimated(grade));
        let by_estimate = match boils.map(|boils| boils.says) {
            None | Some(EstimateSays::NotBelow | EstimateSays::MeasuredCounts) => {
                Verdict::NotChecked
            }
            Some(EstimateSays::Below) => Verdict::RenewNow,
            Some(EstimateSays::BelowEveryClass) => Verdict::Unsafe,
        };
        let (verdict, lacks_grade) = self.unless_fit(by_water.max(by_estimate));
        let reason = MoistureReason::Read {
            moisture,
            boils,
            is_too_much: is_too_much(moisture.nominal),
            by_water,
            lacks_grade,
        };
        (verdict, reason)
    }

    /// What the cautious estimate says beside the rule about moisture: below the wet boiling point that the maker counts on it
    /// is no milder than a measured one. Where the boiling point was measured that one speaks for itself.
    fn estimated(&self, grade: Fluid) -> Option<EstimatedBoiling> {
        let at_the_wetter_end = |moisture: Bounds<Ratio>| Bounds::exact(moisture.high);
        let grade = self.strictest(grade);
        let least_wet = least_wet(grade)?;
        let moisture = self.reading.moisture.map(at_the_wetter_end);
        let point = self.estimate_at(moisture)?.boiling.nominal;
        let is_measured = self.reading.boiling.is_some() && self.contradiction().is_none();
        let says = if point >= least_wet {
            EstimateSays::NotBelow
        } else if is_measured {
            EstimateSays::MeasuredCounts
        } else if is_below_every_class(point) {
            EstimateSays::BelowEveryClass
        } else {
            EstimateSays::Below
        };
        Some(EstimatedBoiling {
            point,
            grade,
            least_wet,
            says,
        })
    }

    fn boiling(&self) -> (Verdict, BoilingReason) {
        let Some(boiling) = self.reading.boiling else {
            return (Verdict::NotChecked, BoilingReason::NotMeasured);
        };
        if self.is_wrong_family {
            return (Verdict::NotChecked, BoilingReason::Meaningless(boiling));
        }
        // Without a grade it is held against the lowest, and never found fit.
        let grade = self.grade.unwrap_or(Fluid::Dot3);
        let Some(lines) = BoilingLines::of(self.strictest(grade)) else {
            let is_below_every_class = is_below_every_class(boiling.low);
            let verdict = if is_below_every_class {
                Verdict::Unsafe
            } else {
                Verdict::NotChecked
            };
            let reason = BoilingReason::NoLaw {
                boiling,
                grade,
                is_below_every_class,
            };
            return (verdict, reason);
        };
        let least_dry = self.grade.and_then(least_dry);
        let (verdict, lacks_grade) = self.unless_fit(lines.judge(boiling.low));
        let reason = BoilingReason::Held {
            boiling,
            lines,
            is_below_wet: is_below(boiling.low, lines.least_wet),
            least_dry,
            reaches_dry: least_dry.is_some_and(|dry| boiling.low >= dry),
            lacks_grade,
        };
        (verdict, reason)
    }

    fn age(&self) -> (Verdict, AgeReason) {
        let Some(age) = self.reading.age else {
            return (Verdict::NotChecked, AgeReason::NotKnown);
        };
        let is_glycol = |grade: Fluid| grade.family() == FluidFamily::Glycol;
        if !self.grade.is_none_or(is_glycol) {
            return (Verdict::NotChecked, AgeReason::NoRule(age));
        }
        // Days are counted in years of 365; half a day is no difference.
        let years = age.get::<year>() + 0.5 / 365.0;
        let interval = self.reading.interval;
        let (verdict, due) = if years >= OVERDUE_YEARS {
            (Verdict::RenewNow, Due::Overdue)
        } else if years >= interval.map_or(RENEWAL_YEARS, |stated| stated.get::<year>()) {
            (Verdict::RenewSoon, Due::Now)
        } else {
            (Verdict::Fit, Due::NotYet)
        };
        (verdict, AgeReason::Held { age, interval, due })
    }

    /// Without a grade nothing is found good; whether that is why.
    fn unless_fit(&self, verdict: Verdict) -> (Verdict, bool) {
        if self.grade.is_none() && verdict == Verdict::Fit {
            (Verdict::NotChecked, true)
        } else {
            (verdict, false)
        }
    }

    /// The grade whose minima count: the fluid's or the one that the maker asks for, whichever must boil higher wet.
    fn strictest(&self, grade: Fluid) -> Fluid {
        match self.reading.required {
            Some(wanted) if least_wet(wanted) > least_wet(grade) => wanted,
            _ => grade,
        }
    }
}

/// Whether fluids mix at all.
pub(super) fn is_one_family(grades: impl Iterator<Item = Fluid>) -> bool {
    let mut families = grades.map(Fluid::family);
    let first = families.next();
    families.all(|family| Some(family) == first)
}
