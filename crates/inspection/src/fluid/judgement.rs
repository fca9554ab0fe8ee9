//! The verdicts.

use super::estimate::BoilingEstimate;
use super::limits::Limit;
use super::subject::Subject;
use crate::words::words;
use bleedwright_network::Fluid;

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
