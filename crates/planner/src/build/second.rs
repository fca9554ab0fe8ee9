//! The bleed after the routine of anti-lock units: planned like any other, with what the routine pumps out of a unit for
//! air in its passages.

use super::ordered::Ordered;
use super::visited::{Visited, hold_all, longest_hold};
use super::{Builder, circuits_of};
use crate::amount::{KnownPushes, Unreachable};
use crate::options::{Options, Purpose};
use crate::order::Visit;
use crate::plan::{Check, Kept, LeftInUnit, SecondBleed, Step};
use crate::request::{Request, Target};
use crate::scope::Scope;
use crate::sheet::{is_wanted_again, units};
use bleedwright_network::{Bounds, CircuitId, Element, ScrewId};
use std::collections::{BTreeSet, HashSet};
use uom::si::f64::{Time, Volume};

impl Builder<'_, '_> {
    /// What anti-lock units keep on the circuits of the job. A circuit that was finished earlier counts: what its passage
    /// keeps, it still keeps.
    pub(super) fn units(&self) -> Vec<LeftInUnit> {
        units(self.request, &self.drained, &self.job())
    }

    fn job(&self) -> BTreeSet<CircuitId> {
        circuits_of(self.network(), &self.ordered.order)
    }

    /// The steps of the second bleed, and the longest count before a screw is shut, those of the `first` bleed among them.
    pub(super) fn second_steps(
        &self,
        units: &[LeftInUnit],
        first: &[Option<Visited>],
    ) -> Result<(Vec<Step>, Option<Time>), Unreachable> {
        let steps = self.after_routine(units, Kept::may_be_air, |second, visits| {
            let mut visited = second.visit_all(visits, &[]).visited?;
            let hold = [longest_hold(first), longest_hold(&visited)];
            let hold = hold.into_iter().flatten().reduce(Time::max);
            hold_all(&mut visited, hold);
            let mut steps = second.steps(visits, visited, &[]).0;
            for step in &mut steps {
                // Why its run is bled at all is the same for every one, and nothing was opened.
                step.why_here = None;
            }
            Ok((steps, hold))
        });
        steps.unwrap_or_else(|| Ok((Vec::new(), longest_hold(first))))
    }

    /// What the bleed after the routine of the units that keep this takes.
    pub(super) fn pushed_after_routine(
        &self,
        units: &[LeftInUnit],
        is_wanted: fn(Kept) -> bool,
    ) -> Result<Bounds<Volume>, Unreachable> {
        let pushed = self.after_routine(units, is_wanted, |second, visits| {
            let needs = second.needs(visits, &KnownPushes::default())?;
            Ok(super::purchase::pushed(&needs))
        });
        pushed.unwrap_or_else(|| Ok(Bounds::exact(Volume::default())))
    }

    /// Asks the planning of a bleed of all that lies on or behind these units. The pipework above them stays full, and what
    /// was drained, clamped or given as an order belongs to the first bleed. None where no screw lies there.
    fn after_routine<T>(
        &self,
        units: &[LeftInUnit],
        is_wanted: fn(Kept) -> bool,
        ask: impl FnOnce(&Builder<'_, '_>, &[Visit]) -> T,
    ) -> Option<T> {
        let network = self.network();
        let wanted: Vec<&str> = (units.iter())
            .filter(|unit| is_wanted(unit.kept))
            .map(|unit| unit.part.as_str())
            .collect();
        if wanted.is_empty() {
            return None;
        }
        let options = Options {
            purpose: Some(Purpose::Air),
            opened: wanted.iter().map(|unit| (*unit).to_owned()).collect(),
            drained: Vec::new(),
            replaced: Vec::new(),
            clamped: Vec::new(),
            plugged: Vec::new(),
            // Nothing runs out above a unit that nobody takes off.
            propped: true,
            ran_dry: Vec::new(),
            order: None,
            done: Vec::new(),
            ..self.request.options.clone()
        };
        let mut findings = Vec::new();
        let mut request = Request::new(network, &options, &mut findings);
        // A line may have the name of a part.
        request.opened.retain(|target| target.part().is_some());
        request.freed_units = request.opened.iter().filter_map(Target::part).collect();
        let mut scope = Scope::new(&request, &mut findings);
        let (job, opened) = (self.job(), request.opened.iter());
        let passages: HashSet<Element> = (opened.flat_map(|unit| request.elements_of(unit)))
            .filter(|passage| match passage {
                Element::Cell(cell) => {
                    (network.circuit_of_cell(*cell)).is_some_and(|circuit| job.contains(&circuit))
                }
                Element::Link(_) => false,
            })
            .collect();
        let is_behind =
            |screw: &ScrewId| network.run(*screw).iter().any(|it| passages.contains(it));
        scope.screws.retain(is_behind);
        if scope.screws.is_empty() {
            return None;
        }
        let (ordered, _) = Ordered::new(&request, &scope);
        let mut second = Builder::new(&request, &scope, &ordered);
        // The block stays where it was.
        second.blocks = self.blocks.clone();
        let visits = second.visits(&ordered.order);
        Some(ask(&second, &visits))
    }
}

/// The screws of some steps, one after the other.
pub(super) fn screws_of(steps: &[Step]) -> Vec<ScrewId> {
    let screws = steps.iter().flat_map(|step| &step.screws);
    screws.map(|screw| screw.id).collect()
}

/// The second bleed as these checks have it, going on where the first one ends, and what it pushes; none without steps.
pub(super) fn second_bleed(
    checks_after: &[Check],
    mut steps: Vec<Step>,
    first: &[Step],
) -> (Option<SecondBleed>, Bounds<Volume>) {
    if steps.is_empty() {
        return (None, Bounds::exact(Volume::default()));
    }
    for step in &mut steps {
        step.number += first.len();
    }
    let units = checks_after.iter().filter_map(|check| match check {
        Check::BleedAgain(unit) => Some(unit.clone()),
        _ => None,
    });
    let undone = checks_after.iter().filter_map(Check::undoes);
    let second = SecondBleed {
        units: units.collect(),
        again: undone.filter(|it| is_wanted_again(it)).cloned().collect(),
        steps,
    };
    let push = second.push();
    (Some(second), push)
}
