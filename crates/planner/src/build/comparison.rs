//! The same job in the other school's order.

use super::Builder;
use crate::options::Begin;
use crate::order::{Authority, Visit, derive};
use crate::plan::{OtherOrder, Step};
use uom::si::f64::Volume;

impl Builder<'_, '_> {
    /// The visits of the other school's order, if they differ. Only for a
    /// derived order that was not resumed: otherwise the comparison would mix
    /// two questions.
    pub(super) fn other_order(&self) -> Option<(Begin, Vec<Visit>)> {
        if self.ordered.authority != Authority::Pipework || !self.request.done.is_empty() {
            return None;
        }
        let begin: Begin = self.request.options.begin.other();
        let other = derive(self.request, self.scope, &self.ordered.constraints, begin);
        (other.screws != self.ordered.order).then(|| (begin, self.visits(&other.screws)))
    }
}

/// What both orders push, at nominal amounts.
pub(super) fn compare(begin: Begin, steps: &[Step], other_push: Volume) -> OtherOrder {
    let this_push = steps.iter().map(|step| step.push.nominal);
    OtherOrder {
        begin,
        this_push: this_push.fold(Volume::default(), |sum, push| sum + push),
        other_push,
    }
}
