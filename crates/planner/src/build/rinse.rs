//! How often a compartment is rinsed: a rinse takes fluid itself, and what flows
//! in cleaner saves some at the screws.

use super::Builder;
use crate::amount::KnownPushes;
use crate::corner::Corner;
use crate::plan::RinseChoice;
use crate::reservoir::DrawOff;
use crate::scope::circuit_of;
use std::collections::BTreeMap;
use uom::si::f64::Volume;

/// With more screws than this a compartment is rinsed down to half of the
/// residual: weighing would cost more time than a rinse is worth beside all
/// that is pushed.
///
/// ASSUMPTION: 60.
const WEIGHED_UP_TO: usize = 60;

impl Builder<'_, '_> {
    /// Chooses the number of rinses with which least is bought, among those
    /// that keep the wanted old share at every corner. The pushes are those of
    /// the high bound, which is what is bought.
    pub(super) fn weigh_rinses(&mut self, known: &KnownPushes) {
        let mut screws = vec![0; self.draw_offs.len()];
        for screw in &self.ordered.order {
            let circuit = circuit_of(self.network(), *screw);
            if let Some(index) = self.draw_off_of.get(&circuit) {
                screws[*index] += 1;
            }
        }
        let mut is_open: Vec<bool> = screws
            .iter()
            .map(|&screws| screws <= WEIGHED_UP_TO)
            .collect();
        if !is_open.contains(&true) {
            return;
        }
        let residual = self.request.options.residual;
        let is_clean = |draw_off: &DrawOff| draw_off.work.old < residual;
        for (draw_off, _) in self
            .draw_offs
            .iter_mut()
            .zip(&is_open)
            .filter(|(_, open)| **open)
        {
            draw_off.set_rinses(0);
            while !is_clean(draw_off) && draw_off.can_rinse_more() {
                draw_off.set_rinses(draw_off.work.rinses + 1);
            }
        }
        // Taken together the compartments go through their numbers side by
        // side: their circuits do not know each other.
        loop {
            if let Some(pushed) = self.pushed_by_draw_off(known) {
                for (index, draw_off) in self.draw_offs.iter_mut().enumerate() {
                    if !is_open[index] || !is_clean(draw_off) {
                        continue;
                    }
                    let takes = draw_off.poured + pushed.get(&index).copied().unwrap_or_default();
                    is_open[index] = draw_off
                        .choices
                        .last()
                        .is_none_or(|before| takes < before.takes);
                    draw_off.choices.push(RinseChoice {
                        rinses: draw_off.work.rinses,
                        takes,
                    });
                }
            }
            let mut is_more = false;
            for (draw_off, is_open) in self.draw_offs.iter_mut().zip(&mut is_open) {
                *is_open = *is_open && draw_off.can_rinse_more();
                if *is_open {
                    draw_off.set_rinses(draw_off.work.rinses + 1);
                    is_more = true;
                }
            }
            if !is_more {
                break;
            }
        }
        for draw_off in &mut self.draw_offs {
            let least = draw_off.choices.iter().reduce(|least, other| {
                if other.takes < least.takes {
                    other
                } else {
                    least
                }
            });
            if let Some(least) = least {
                let rinses = least.rinses;
                draw_off.set_rinses(rinses);
            }
        }
    }

    /// What the screws behind each compartment take at most; none where the
    /// residual cannot be reached.
    fn pushed_by_draw_off(&self, known: &KnownPushes) -> Option<BTreeMap<usize, Volume>> {
        let visits = self.visits(&self.ordered.order);
        let nominal = self
            .nominal(self.amounts(known).pushes_only(), &visits)
            .ok()?;
        let high = self.end(Corner::High, &nominal, known).ok()?;
        let mut pushed: BTreeMap<usize, Volume> = BTreeMap::new();
        for (circuit, at_end) in nominal.circuits().zip(high) {
            if let Some(index) = self.draw_off_of.get(&circuit) {
                *pushed.entry(*index).or_default() += at_end.push;
            }
        }
        Some(pushed)
    }
}
