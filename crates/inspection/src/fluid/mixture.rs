//! What was added to the fluid in the car.

use super::car::{Car, is_one_family};
use super::judgement::Verdict;
use bleedwright_network::{Fluid, Substitute};

impl Car<'_> {
    pub(super) fn mixture(&self) -> (Verdict, String) {
        let added = &self.reading.mixed_with;
        if added.is_empty() {
            let reason = "taken as never topped up with another grade".to_owned();
            return (Verdict::NotChecked, reason);
        }
        let names: Vec<&str> = added.iter().map(|grade| grade.text()).collect();
        let names = names.join(" and ");
        let all = self.base.into_iter().chain(added.iter().copied());
        if !is_one_family(all) {
            let base = self.base.map_or("other fluid", Fluid::text);
            let reason = format!(
                "{base} was mixed with {names}: glycol, silicone and mineral oil mix with none of the others, \
                 and seals swell, shrink or soften. Do not drive. Drain and flush all of it, renew \
                 every seal and hose that it touched, and ask the maker"
            );
            return (Verdict::Unsafe, reason);
        }
        match (self.base, self.grade) {
            (None, _) => (
                Verdict::NotChecked,
                format!("{names} was added to a fluid that is not known"),
            ),
            (Some(base), _) if self.thickest(base).is_some() => {
                let thick = self.thickest(base).unwrap_or(base);
                (
                    Verdict::RenewSoon,
                    thick.in_place_of(base).text(thick, base),
                )
            }
            (Some(base), Some(judged)) if judged != base => (
                Verdict::RenewSoon,
                format!(
                    "{} with {names} mixes without harm, but counts as {} only: the grade falls to the \
                     lowest",
                    base.text(),
                    judged.text()
                ),
            ),
            (Some(base), _) => (
                Verdict::Fit,
                format!(
                    "{} with {names} mixes without harm and keeps its grade",
                    base.text()
                ),
            ),
        }
    }

    /// Of everything in the car a grade that is too thick for what is asked for, the first.
    pub(super) fn thickest(&self, wanted: Fluid) -> Option<Fluid> {
        let all = self.base.into_iter();
        all.chain(self.reading.mixed_with.iter().copied())
            .find(|grade| matches!(grade.in_place_of(wanted), Substitute::Thicker { .. }))
    }
}
