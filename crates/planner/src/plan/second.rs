//! The bleed after the routine of anti-lock units.

use super::{Change, Check, Plan, Step};
use bleedwright_network::Bounds;
use uom::si::f64::Volume;

/// What is bled once the maker's routine has pumped out what units kept: nobody has finished before.
#[derive(Clone, Debug)]
pub struct SecondBleed {
    /// The units that keep air, or may, by name.
    pub units: Vec<String>,
    /// Changes to the vehicle that it wants again, whatever the routine wanted out of its way.
    pub again: Vec<Change>,
    /// Its steps, numbered on from those of the first bleed. They begin with a full reservoir; the marks of the jar go on.
    pub steps: Vec<Step>,
}

impl SecondBleed {
    /// What is pushed in all.
    pub fn push(&self) -> Bounds<Volume> {
        self.steps.iter().map(|step| step.push).sum()
    }
}

impl Plan {
    /// The steps of the plan, and then those of the second bleed.
    pub fn all_steps(&self) -> impl Iterator<Item = &Step> {
        let second = self.second.iter().flat_map(|second| &second.steps);
        self.steps.iter().chain(second)
    }

    /// The checks that come before the second bleed, and those after it; all of them are before it where there is none.
    pub fn checks_around_second(&self) -> (&[Check], &[Check]) {
        let is_behind = |check: &Check| matches!(check, Check::BleedAgain(_));
        let place = (self.second.as_ref())
            .and_then(|_| self.checks_after.iter().position(is_behind))
            .unwrap_or(self.checks_after.len());
        self.checks_after.split_at(place)
    }
}
