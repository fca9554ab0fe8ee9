//! What every visit of an order asks for, on two threads where that is worth
//! them: an order beside the one it is compared with, then one end of its
//! bounds beside the other, then half of its visits beside the rest.

use super::Builder;
use super::visited::{Needs, Visited};
use crate::amount::{
    Amount, Amounts, AtEnd, KnownPushes, Pushed, Renewal, Unreachable, follow_end,
};
use crate::corner::Corner;
use crate::drive::{CLEAR_ML, CLEAR_STROKES};
use crate::order::Visit;
use crate::stroke::Stroke;
use crate::threads::{WORTH_A_THREAD, both};
use bleedwright_network::{Bounds, CircuitId, ScrewId};
use std::ops::Range;
use uom::si::f64::{Ratio, Volume};
use uom::si::volume::milliliter;

/// An order at nominal figures.
pub(super) struct Nominal {
    /// Every screw, those done in an earlier session among them: they still
    /// shape what is left.
    screws: Vec<Pushed>,
    /// The screws that each visit opens now.
    due: Vec<Range<usize>>,
}

impl Nominal {
    /// What is pushed now.
    pub(super) fn pushed(&self) -> Volume {
        let due = self.due.iter().flat_map(|due| &self.screws[due.clone()]);
        due.fold(Volume::default(), |sum, screw| {
            sum + screw.amount.push.nominal
        })
    }

    /// The circuit of every screw, in their order.
    pub(super) fn circuits(&self) -> impl Iterator<Item = CircuitId> + '_ {
        self.screws.iter().map(|screw| screw.circuit)
    }

    /// The screws of each visit that has any.
    pub(super) fn due(&self) -> impl Iterator<Item = &[Pushed]> {
        let due = self.due.iter().filter(|due| !due.is_empty());
        due.map(|due| &self.screws[due.clone()])
    }

    /// What each visit needs, with the pushes of both ends for every screw.
    fn with_bounds(&self, low: &[AtEnd], high: &[AtEnd]) -> Vec<Needs> {
        let need = |place: usize| {
            let screw = &self.screws[place];
            let push = Bounds {
                low: low[place].push,
                nominal: screw.amount.push.nominal,
                high: high[place].push,
            };
            let old_left = screw.amount.old_left.map(|left| Bounds {
                low: low[place].left.unwrap_or(left.nominal),
                high: high[place].left.unwrap_or(left.nominal),
                ..left
            });
            let amount = Amount {
                push,
                old_left,
                ..screw.amount
            };
            (screw.screw, screw.circuit, amount)
        };
        let needs = |due: &Range<usize>| due.clone().map(need).collect();
        self.due.iter().map(needs).collect()
    }
}

/// What two orders ask for.
pub(super) struct Asked {
    /// Every visit of the order; none where all of its screws are done.
    pub(super) visited: Result<Vec<Option<Visited>>, Unreachable>,
    /// What the order that it is compared with pushes.
    pub(super) compared: Result<Volume, Unreachable>,
}

impl<'n> Builder<'_, 'n> {
    /// What every visit of this order asks for, and what the one that it is
    /// compared with pushes.
    pub(super) fn visit_all(&self, visits: &[Visit], compared: &[Visit]) -> Asked {
        let is_worth_a_thread = visits.len() + compared.len() >= WORTH_A_THREAD;
        let (nominal, compared) = both(
            is_worth_a_thread,
            || {
                let known = KnownPushes::default();
                self.nominal(self.amounts(&known), visits)
            },
            || {
                let known = KnownPushes::default();
                self.nominal(self.amounts(&known).pushes_only(), compared)
            },
        );
        Asked {
            visited: nominal.and_then(|nominal| self.visit_each(&nominal, is_worth_a_thread)),
            compared: compared.map(|nominal| nominal.pushed()),
        }
    }

    /// What every visit of an order asks for, bounds and all.
    fn visit_each(
        &self,
        nominal: &Nominal,
        is_worth_a_thread: bool,
    ) -> Result<Vec<Option<Visited>>, Unreachable> {
        let end = |end| self.end(end, nominal, &KnownPushes::default());
        let (low, high) = both(is_worth_a_thread, || end(Corner::Low), || end(Corner::High));
        let needs = nominal.with_bounds(&low?, &high?);
        let (first, rest) = needs.split_at(needs.len() / 2);
        let visited = |needs: &[Needs]| -> Vec<Option<Visited>> {
            needs.iter().map(|needs| self.visited(needs)).collect()
        };
        let (mut all, rest) = both(is_worth_a_thread, || visited(first), || visited(rest));
        all.extend(rest);
        Ok(all)
    }

    /// What every visit needs, on this thread alone.
    pub(super) fn needs(
        &self,
        visits: &[Visit],
        known: &KnownPushes,
    ) -> Result<Vec<Needs>, Unreachable> {
        let nominal = self.nominal(self.amounts(known).pushes_only(), visits)?;
        let end = |end| self.end(end, &nominal, known);
        Ok(nominal.with_bounds(&end(Corner::Low)?, &end(Corner::High)?))
    }

    pub(super) fn amounts<'a>(&'a self, known: &'a KnownPushes) -> Amounts<'a, 'n> {
        let clear_strokes = |circuit: CircuitId| {
            if !self.is_by_strokes() {
                return Bounds::exact(Volume::new::<milliliter>(CLEAR_ML));
            }
            // Without block and shut circuit: a little more is pushed, whatever those are.
            let share = self.request.options.stroke;
            let stroke = Stroke::of_share(self.network(), circuit, share, None);
            stroke
                .displaced
                .map(|volume| volume * f64::from(CLEAR_STROKES))
        };
        let renewal = self.renewal(known);
        let air = (&self.drained, &self.joints, &self.bubbles);
        Amounts::new(self.request, air, renewal, clear_strokes)
    }

    fn renewal<'a>(&'a self, known: &'a KnownPushes) -> Renewal<'a> {
        let fraction = |circuit: CircuitId| {
            let index = self.draw_off_of.get(&circuit);
            index.map_or(Ratio::default(), |index| self.draw_offs[*index].work.old)
        };
        let residual = self.request.options.residual;
        Renewal::new(self.network(), residual, fraction, known, &self.radial)
    }

    pub(super) fn nominal(
        &self,
        mut amounts: Amounts<'_, '_>,
        visits: &[Visit],
    ) -> Result<Nominal, Unreachable> {
        let mut due = Vec::with_capacity(visits.len());
        let mut carried = 0;
        for visit in visits {
            let (done, open): (Vec<ScrewId>, Vec<ScrewId>) =
                (visit.screws.iter()).partition(|screw| self.request.done.contains(screw));
            carried += done.len();
            for screw in done {
                let screw = amounts.need(screw)?;
                amounts.carry(screw);
            }
            let mut screws = Vec::with_capacity(open.len());
            for screw in open {
                screws.push(amounts.need(screw)?);
            }
            let mut pushes: Vec<Volume> = screws
                .iter()
                .map(|screw| screw.amount.push.nominal)
                .collect();
            self.open_together(&screws, &mut pushes);
            due.push(carried..carried + screws.len());
            carried += screws.len();
            for (mut screw, push) in screws.into_iter().zip(pushes) {
                screw.amount.push.nominal = push;
                amounts.carry(screw);
            }
        }
        Ok(Nominal {
            screws: amounts.into_order(),
            due,
        })
    }

    /// The pushes of one end for every screw of an order.
    pub(super) fn end(
        &self,
        end: Corner,
        nominal: &Nominal,
        known: &KnownPushes,
    ) -> Result<Vec<AtEnd>, Unreachable> {
        let mut at_end = follow_end(end, self.renewal(known), &nominal.screws)?;
        for due in &nominal.due {
            let at_end = &mut at_end[due.clone()];
            let mut pushes: Vec<Volume> = at_end.iter().map(|at_end| at_end.push).collect();
            self.open_together(&nominal.screws[due.clone()], &mut pushes);
            for (at_end, push) in at_end.iter_mut().zip(pushes) {
                at_end.push = push;
            }
        }
        Ok(at_end)
    }

    /// Screws opened together get as many strokes as the one that needs most:
    /// more comes out of the other, and is bought.
    fn open_together(&self, screws: &[Pushed], pushes: &mut [Volume]) {
        if screws.len() < 2 {
            return;
        }
        let open: Vec<CircuitId> = screws.iter().map(|screw| screw.circuit).collect();
        let displacement = |screw: &Pushed| {
            let stroke = self.blocks.stroke(&open, screw.circuit);
            stroke.displacement.nominal
        };
        let strokes = screws
            .iter()
            .zip(&*pushes)
            .map(|(screw, push)| *push / displacement(screw))
            .fold(Ratio::default(), Ratio::max);
        for (screw, push) in screws.iter().zip(pushes) {
            *push = push.max(displacement(screw) * strokes);
        }
    }
}
