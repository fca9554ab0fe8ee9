//! What was added to the fluid in the car.

use super::car::{Car, is_one_family};
use super::reason::MixtureReason;
use super::verdict::Verdict;
use bleedwright_network::{Fluid, Substitute};

impl Car<'_> {
    pub(super) fn mixture(&self) -> (Verdict, MixtureReason) {
        let added = self.reading.mixed_with.clone();
        if added.is_empty() {
            return (Verdict::NotChecked, MixtureReason::NotAdded);
        }
        let all = self.base.into_iter().chain(added.iter().copied());
        if !is_one_family(all) {
            let base = self.base;
            return (Verdict::Unsafe, MixtureReason::OtherFamily { base, added });
        }
        let Some(base) = self.base else {
            return (Verdict::NotChecked, MixtureReason::ToUnknown(added));
        };
        if let Some(is) = self.thickest(base) {
            let substitute = is.in_place_of(base);
            let reason = MixtureReason::TooThick {
                is,
                base,
                substitute,
            };
            return (Verdict::RenewSoon, reason);
        }
        let falls_to = self.grade.filter(|judged| *judged != base);
        let verdict = falls_to.map_or(Verdict::Fit, |_| Verdict::RenewSoon);
        let reason = MixtureReason::Mixes {
            base,
            added,
            falls_to,
        };
        (verdict, reason)
    }

    /// Of everything in the car a grade that is too thick for what is asked for, the first.
    pub(super) fn thickest(&self, wanted: Fluid) -> Option<Fluid> {
        let all = self.base.into_iter();
        all.chain(self.reading.mixed_with.iter().copied())
            .find(|grade| matches!(grade.in_place_of(wanted), Substitute::Thicker { .. }))
    }
}
