//! What is said of a fluid: of each thing that was looked at, and of the whole.

use super::assumption::FluidAssumption;
use super::bottle_reason::BottleReason;
use super::caution::FluidCaution;
use super::estimate::BoilingEstimate;
use super::limits::Limit;
use super::reason::Reason;
use super::subject::Subject;
use super::verdict::{BottleVerdict, Verdict};
use bleedwright_network::{Bounds, Fluid};
use uom::si::f64::{Ratio, ThermodynamicTemperature};

/// Two readings that cannot both be true: neither is good, and both are measured again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contradiction {
    /// The water read.
    pub moisture: Bounds<Ratio>,
    /// The lowest boiling point that it may leave, and the highest.
    pub leaves: [ThermodynamicTemperature; 2],
    /// The boiling point read.
    pub boiling: Bounds<ThermodynamicTemperature>,
}

/// One thing that was looked at, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Item<V, R> {
    /// What was looked at.
    pub subject: Subject,
    /// What it says by itself.
    pub verdict: V,
    /// Why.
    pub reason: R,
    /// The reading that contradicts it, so that both are measured again.
    pub contradicted_by: Option<Subject>,
}

impl<V, R> Item<V, R> {
    /// Everything that was looked at, each with what it says and why.
    pub(super) fn all(said: impl IntoIterator<Item = (Subject, (V, R))>) -> Vec<Self> {
        let item = |(subject, (verdict, reason))| Self {
            subject,
            verdict,
            reason,
            contradicted_by: None,
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
    pub contradiction: Option<Contradiction>,
    /// Everything that was looked at, and what was not.
    pub items: Vec<Item<Verdict, Reason>>,
    /// The boiling point by the moisture; none without a moisture reading or beyond 8 % of water.
    pub boiling: Option<BoilingEstimate>,
    /// The verdict on the new bottle, where there is one.
    pub bottle: Option<BottleJudgement>,
    /// The limits of the grade and the rules of the trade.
    pub limits: Vec<Limit>,
    /// What was assumed.
    pub assumptions: Vec<FluidAssumption>,
    /// What can hurt or mislead.
    pub cautions: Vec<FluidCaution>,
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
    pub items: Vec<Item<BottleVerdict, BottleReason>>,
}

impl FluidJudgement {
    /// What the verdict rests on: items that say as much as the verdict, the worst.
    pub fn reasons(&self) -> impl Iterator<Item = &Item<Verdict, Reason>> {
        self.items
            .iter()
            .filter(|item| item.verdict == self.verdict)
    }

    /// What was not checked.
    pub fn not_checked(&self) -> impl Iterator<Item = Subject> {
        let is_open = |item: &&Item<Verdict, Reason>| item.verdict == Verdict::NotChecked;
        self.items.iter().filter(is_open).map(|item| item.subject)
    }
}
