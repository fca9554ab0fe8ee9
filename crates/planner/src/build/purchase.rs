//! How much new fluid a plan draws, at least and at most.

use super::Builder;
use super::ordered::{Ordered, sound_request};
use super::visited::Needs;
use crate::amount::{KnownPushes, Unreachable};
use crate::options::{Method, Options};
use crate::plan::{Kept, Shopping, Use};
use crate::reservoir::DrawOff;
use crate::scope::circuit_of;
use bleedwright_network::{Bounds, Element, Network, ScrewId};
use std::collections::{BTreeSet, HashSet};
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// A tank must not run empty, or it blows air into the reservoir.
///
/// ASSUMPTION: a quarter of a litre stays in it.
pub(crate) const LEFT_IN_TANK_ML: f64 = 250.0;

/// The new fluid that a plan with these options draws, at least and at most:
/// [`Shopping::needed_at_least`] and [`Shopping::needed`] without the rest of
/// the plan. None where nothing can be planned. Pushes are kept for the next
/// time: for many layouts that differ in few figures.
pub(crate) fn fluid_to_buy_knowing(
    network: &Network,
    options: &Options,
    known: &KnownPushes,
) -> Option<[Volume; 2]> {
    let (request, scope) = sound_request(network, options)?;
    let (ordered, _) = Ordered::new(&request, &scope);
    let mut builder = Builder::new(&request, &scope, &ordered);
    builder.settle_blocks(known);
    builder.weigh_rinses(known);
    let bought = builder.bought(known).ok()?;
    Some([bought.needed_at_least, bought.needed])
}

/// Added up visit by visit like the steps, to the last bit.
pub(super) fn pushed(needs: &[Needs]) -> Bounds<Volume> {
    let of_visit = |needs: &Needs| needs.iter().map(|(_, _, amount)| amount.push).sum();
    needs.iter().map(of_visit).sum()
}

impl Builder<'_, '_> {
    /// The amounts alone, added up as in a whole plan.
    fn bought(&self, known: &KnownPushes) -> Result<Shopping, Unreachable> {
        let needs = self.needs(&self.visits(&self.ordered.order), known)?;
        let again = self.pushed_after_routine(&self.units(), Kept::may_be_air)?;
        let now: Vec<ScrewId> = needs.iter().flatten().map(|(screw, _, _)| *screw).collect();
        let gravity_first = self.gravity_first(&now);
        Ok(self.shopping(pushed(&needs), self.draw_offs_now(), &gravity_first, again))
    }

    /// What is drawn off now: a resumed job finds its reservoir drawn off
    /// already.
    pub(super) fn draw_offs_now(&self) -> &[DrawOff] {
        if self.request.done.is_empty() {
            &self.draw_offs
        } else {
            &[]
        }
    }

    pub(super) fn shopping(
        &self,
        pushed: Bounds<Volume>,
        draw_offs: &[DrawOff],
        gravity_first: &[ScrewId],
        again: Bounds<Volume>,
    ) -> Shopping {
        let network = self.network();
        let drawn_off: Volume = draw_offs.iter().map(|draw_off| draw_off.drawn).sum();
        let empty = self.empty_compartments();
        let kept = self.kept.iter().filter(|(at, _)| !empty.contains(at));
        let lowered: Volume = kept
            .map(|((r, c), kept)| network.layout().reservoirs[*r].compartments[*c].usable() - *kept)
            .sum();
        let in_tank = match self.request.options.method {
            Method::Pressure => Volume::new::<milliliter>(LEFT_IN_TANK_ML),
            _ => Volume::default(),
        };
        let filled: Vec<[Volume; 2]> = empty.iter().map(|at| self.filled(*at)).collect();
        let by_gravity = self.filled_by_gravity(gravity_first);
        let least = pushed.low
            + again.low
            + by_gravity[0]
            + in_tank
            + draw_offs
                .iter()
                .map(|it| it.poured_at_least)
                .sum::<Volume>()
            + filled.iter().map(|[least, _]| *least).sum::<Volume>();
        Shopping::new(
            vec![
                (Use::Pushed, pushed.high),
                (Use::ByGravity, by_gravity[1]),
                (Use::Tank, in_tank),
                (
                    Use::Reservoir,
                    draw_offs.iter().map(|draw_off| draw_off.poured).sum(),
                ),
                (
                    Use::EmptyReservoir,
                    filled.iter().map(|[_, most]| *most).sum(),
                ),
                (Use::SecondBleed, again.high),
            ],
            least,
            pushed.high + again.high + drawn_off + lowered,
            &self.request.options.bottles,
        )
    }

    /// Compartments that are empty now: a resumed job has filled its own.
    fn empty_compartments(&self) -> BTreeSet<(usize, usize)> {
        if self.request.done.is_empty() {
            self.scope.empty_compartments(self.network())
        } else {
            BTreeSet::new()
        }
    }

    /// What stays in a compartment that was empty at the start, at least and
    /// at most.
    fn filled(&self, at: (usize, usize)) -> [Volume; 2] {
        let compartment = &self.network().layout().reservoirs[at.0].compartments[at.1];
        let hose = compartment.hose.as_ref().map(|hose| hose.contents);
        let hose = hose.unwrap_or(Bounds::exact(Volume::default()));
        // By the reverse method it fills from below, and room must be left.
        let room = match self.request.options.method {
            Method::Reverse => {
                compartment.usable() - self.kept.get(&at).copied().unwrap_or_default()
            }
            _ => Volume::default(),
        };
        [
            compartment.max.low - room + hose.low,
            compartment.max.high - room + hose.high,
        ]
    }

    /// What gravity fills before the first step, at least and at most.
    fn filled_by_gravity(&self, gravity_first: &[ScrewId]) -> [Volume; 2] {
        let network = self.network();
        let mut seen: HashSet<Element> = HashSet::new();
        let mut filled = [Volume::default(); 2];
        for screw in gravity_first {
            let circuit = circuit_of(network, *screw);
            let chamber = Element::Cell(network.circuit(circuit).chamber);
            for element in std::iter::once(chamber).chain(network.run(*screw)) {
                if !seen.insert(element) {
                    continue;
                }
                if self.drained.is_surely_empty(circuit, element) {
                    filled[0] += network.contents(element).low;
                }
                if self.drained.may_be_empty(circuit, element) {
                    filled[1] += network.contents(element).high;
                }
            }
        }
        filled
    }
}
