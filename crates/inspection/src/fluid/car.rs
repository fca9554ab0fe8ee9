//! The fluid in the car, item by item.

use super::boiling_lines::{Lines, is_below_every_class};
use super::error::{FluidError, instead_of_moisture};
use super::estimate::{BoilingEstimate, is_too_much};
use super::judgement::{Item, Verdict};
use super::limits::{least_dry, least_wet};
use super::printed::{age, share_within, temperature, temperature_within};
use super::reading::{FluidReading, Label, Look};
use super::subject::Subject;
use super::trade::{
    OVERDUE_YEARS, RENEW_NOW_PERCENT, RENEW_SOON_PERCENT, RENEWAL_YEARS, UNSAFE_PERCENT, reaches,
};
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

    pub(super) fn items(&self) -> Vec<Item<Verdict>> {
        let contradiction = self.contradiction();
        // A reading that is contradicted is no reason to trust the fluid, and none to forget what speaks against it.
        let doubted = |(verdict, mut reason): (Verdict, String), other: Subject| {
            if contradiction.is_none() {
                return (verdict, reason);
            }
            reason.push_str(&format!("; the {other} contradicts it: measure both again"));
            let is_fit = verdict == Verdict::Fit;
            (if is_fit { Verdict::NotChecked } else { verdict }, reason)
        };
        Item::all([
            (Subject::Grade, self.grade()),
            (Subject::Mixture, self.mixture()),
            (Subject::Look, self.look()),
            (
                Subject::Moisture,
                doubted(self.moisture(), Subject::Boiling),
            ),
            (Subject::Boiling, doubted(self.boiling(), Subject::Moisture)),
            (Subject::Age, self.age()),
        ])
    }

    fn grade(&self) -> (Verdict, String) {
        let (is, wanted) = match (self.reading.grade, self.reading.required) {
            (None, None) => {
                return (
                    Verdict::NotChecked,
                    "nobody says what is in the car; the reservoir's cap and the service record may".into(),
                );
            }
            (Some(is), None) => {
                let reason = format!(
                    "{} by what is stated; whether the maker asks for it is on the reservoir's cap and in the manual",
                    is.text()
                );
                return (Verdict::NotChecked, reason);
            }
            (None, Some(wanted)) => {
                let reason = format!(
                    "taken for {}, which the layout or the cap asks for; what was filled in is not known",
                    wanted.text()
                );
                return (Verdict::NotChecked, reason);
            }
            (Some(is), Some(wanted)) => (is, wanted),
        };
        if is.family() != wanted.family() {
            let reason = format!(
                "{}. If that is really in it: do not drive, ask the maker, drain, renew the seals it touched. If the \
                 statement is a slip, state it again",
                Substitute::OtherFamily.text(is, wanted)
            );
            return (Verdict::Unsafe, reason);
        }
        if self.is_wrong_family {
            let reason = "what was added to it comes first".to_owned();
            return (Verdict::NotChecked, reason);
        }
        let judged = self.grade.unwrap_or(is);
        let (is, substitute) = self
            .thickest(wanted)
            .map_or((judged, judged.in_place_of(wanted)), |grade| {
                (grade, grade.in_place_of(wanted))
            });
        let reason = substitute.text(is, wanted);
        match substitute {
            Substitute::Thicker { .. } => (
                Verdict::RenewNow,
                format!("{reason}; renew with what the maker asks for"),
            ),
            Substitute::BoilsLower | Substitute::OtherFamily => (
                Verdict::RenewSoon,
                format!("{reason}; renew with what the maker asks for"),
            ),
            Substitute::Same | Substitute::IfAllowed { .. } => (Verdict::Fit, reason),
        }
    }

    fn look(&self) -> (Verdict, String) {
        let (verdict, reason) = match self.reading.look {
            None => (
                Verdict::NotChecked,
                "nobody looked at a sample in a clear glass",
            ),
            Some(Look::Clear) => (
                Verdict::Fit,
                "clear; water in solution cannot be seen, so that is no reading",
            ),
            Some(Look::Water) => (
                Verdict::Unsafe,
                "water to be seen boils at 100 degC: do not drive, drain, find where it came in",
            ),
            Some(Look::Dirt) => (
                Verdict::Unsafe,
                "dirt shuts ports and cuts seals: do not drive, flush, find where it came from",
            ),
        };
        (verdict, reason.to_owned())
    }

    fn moisture(&self) -> (Verdict, String) {
        let Some(moisture) = self.reading.moisture else {
            let reason = match self
                .grade
                .filter(|grade| grade.family() != FluidFamily::Glycol)
            {
                Some(grade) => format!(
                    "{} takes up no water. {}",
                    grade.text(),
                    instead_of_moisture(grade)
                ),
                None => "no reading".to_owned(),
            };
            return (Verdict::NotChecked, reason);
        };
        let mut shown = format!("{} read", share_within(moisture));
        if self.is_wrong_family {
            let reason =
                format!("{shown} means nothing while fluids that do not mix may be in the car");
            return (Verdict::NotChecked, reason);
        }
        let worst_percent = moisture.high.get::<percent>();
        if moisture.low != moisture.high {
            shown.push_str(", judged at the wetter end");
        }
        let mut reason = shown;
        let estimated = self.grade.map_or(Verdict::NotChecked, |grade| {
            self.estimated(grade, &mut reason)
        });
        if is_too_much(moisture.nominal) {
            reason.push_str(": no boiling point is given for so much water");
        }
        let by_water = if reaches(worst_percent, UNSAFE_PERCENT) {
            reason.push_str("; with so much water nobody drives (our own line, assumption)");
            Verdict::Unsafe
        } else if reaches(worst_percent, RENEW_NOW_PERCENT) {
            reason.push_str(
                "; renewed at this reading whatever it boils at (common practice, no source)",
            );
            Verdict::RenewNow
        } else if reaches(worst_percent, RENEW_SOON_PERCENT) {
            reason.push_str("; renewed soon at this reading (our own line, assumption)");
            Verdict::RenewSoon
        } else {
            Verdict::Fit
        };
        let verdict = by_water.max(estimated);
        let verdict = match self.grade {
            Some(_) => verdict,
            None => unless_fit(verdict, &mut reason),
        };
        (verdict, reason)
    }

    /// What the cautious estimate says beside the rule about moisture: below the wet boiling point that the maker counts on it
    /// is no milder than a measured one. Where the boiling point was measured that one speaks for itself.
    fn estimated(&self, grade: Fluid, reason: &mut String) -> Verdict {
        let at_the_wetter_end = |moisture: Bounds<Ratio>| Bounds::exact(moisture.high);
        let strictest = self.strictest(grade);
        let (Some(estimate), Some(least)) = (
            self.estimate_at(self.reading.moisture.map(at_the_wetter_end)),
            least_wet(strictest),
        ) else {
            return Verdict::NotChecked;
        };
        let boils = estimate.boiling.nominal;
        let against = if boils < least { "below" } else { "not below" };
        reason.push_str(&format!(
            ": estimated, cautiously, to boil at {}, {against} the least wet boiling point of new {}, {}",
            temperature(boils),
            strictest.text(),
            temperature(least)
        ));
        if boils >= least {
            return Verdict::NotChecked;
        }
        if self.reading.boiling.is_some() && self.contradiction().is_none() {
            reason.push_str("; the measured one counts");
            return Verdict::NotChecked;
        }
        if is_below_every_class(boils) {
            reason.push_str(
                ", and below that of any class: do not drive, or measure the boiling point",
            );
            return Verdict::Unsafe;
        }
        reason.push_str(": renew now, or measure the boiling point");
        Verdict::RenewNow
    }

    fn boiling(&self) -> (Verdict, String) {
        let Some(boiling) = self.reading.boiling else {
            return (Verdict::NotChecked, "not measured".to_owned());
        };
        let shown = temperature_within(boiling);
        if self.is_wrong_family {
            let reason =
                format!("{shown} tells nothing while fluids that do not mix may be in the car");
            return (Verdict::NotChecked, reason);
        }
        // Without a grade it is held against the lowest, and never found fit.
        let grade = self.grade.unwrap_or(Fluid::Dot3);
        let Some(lines) = Lines::of(self.strictest(grade)) else {
            let reason = format!("{shown}: no law states a boiling point of {}", grade.text());
            if is_below_every_class(boiling.low) {
                let like_water = "; below every class of brake fluid, wet or dry, it boils as if water were in it \
                                  (assumption): do not drive";
                return (Verdict::Unsafe, reason + like_water);
            }
            return (Verdict::NotChecked, reason);
        };
        let (mut verdict, mut reason) = lines.judge(boiling.low, &shown);
        if let (Some(_), Some(dry)) = (self.grade, least_dry(grade)) {
            reason.push_str(&format!(
                "; new and dry it must reach {}{}",
                temperature(dry),
                if boiling.low >= dry {
                    ", and it does"
                } else {
                    ""
                }
            ));
        } else {
            verdict = unless_fit(verdict, &mut reason);
        }
        (verdict, reason)
    }

    fn age(&self) -> (Verdict, String) {
        let Some(time) = self.reading.age else {
            return (Verdict::NotChecked, "not known".to_owned());
        };
        let shown = age(time);
        let is_glycol = |grade: Fluid| grade.family() == FluidFamily::Glycol;
        if !self.grade.is_none_or(is_glycol) {
            let reason = format!(
                "{shown}: the two-year rule is one for fluid that takes up water; the maker states \
                 when this one is renewed"
            );
            return (Verdict::NotChecked, reason);
        }
        // Days are counted in years of 365; half a day is no difference.
        let years = time.get::<year>() + 0.5 / 365.0;
        let (interval, rule) = match self.reading.interval {
            Some(stated) => (
                stated.get::<year>(),
                format!("the maker's interval is {}", age(stated)),
            ),
            None => (
                RENEWAL_YEARS,
                "two years where the maker states no interval (common practice, no source)"
                    .to_owned(),
            ),
        };
        if years >= OVERDUE_YEARS {
            let twice = "four years are overdue whatever the interval (assumption)";
            (Verdict::RenewNow, format!("{shown}: {rule}; {twice}"))
        } else if years >= interval {
            (Verdict::RenewSoon, format!("{shown}: due; {rule}"))
        } else {
            (Verdict::Fit, format!("{shown}: not due yet; {rule}"))
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

/// Without a grade nothing is found good.
fn unless_fit(verdict: Verdict, reason: &mut String) -> Verdict {
    if verdict == Verdict::Fit {
        reason.push_str("; not judged, since the grade is not known");
        Verdict::NotChecked
    } else {
        verdict
    }
}

/// Whether fluids mix at all.
pub(super) fn is_one_family(grades: impl Iterator<Item = Fluid>) -> bool {
    let mut families = grades.map(Fluid::family);
    let first = families.next();
    families.all(|family| Some(family) == first)
}
