//! What every visit of an order asks for, on two threads where that is possible.

use super::step::{CLEAR_ML, CLEAR_STROKES};
use super::visited::Visited;
use super::{Builder, circuit_of};
use crate::amount::{Amount, Amounts, KnownPushes, Unreachable};
use crate::order::Visit;
use crate::threads::{WORTH_A_THREAD, both};
use bleedwright_network::{Bounds, CircuitId, ScrewId};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// What the screws of one visit need; nothing where all of them are done.
pub(super) type Needs = Vec<(ScrewId, CircuitId, Amount)>;

/// Visits of one order with their places in it.
type Part<'v> = Vec<(usize, &'v Visit)>;

/// What was found for the visits of a part, up to the first that cannot be
/// given what it needs.
type OfPart<T> = Vec<(usize, Result<T, Unreachable>)>;

/// What two orders ask for.
pub(super) struct Asked {
    /// Every visit of the order; none where all of its screws are done.
    pub(super) visited: Result<Vec<Option<Visited>>, Unreachable>,
    /// What the visits of the order that it is compared with need.
    pub(super) compared: Result<Vec<Needs>, Unreachable>,
}

impl<'n> Builder<'_, 'n> {
    /// What every visit of this order asks for, and what those of the one it is
    /// compared with need at nominal amounts.
    pub(super) fn visit_all(&self, visits: &[Visit], compared: &[Visit]) -> Asked {
        let [first, second] = independent_parts(self, visits);
        let [first_compared, second_compared] = independent_parts(self, compared);
        let bounded = |part: &Part<'_>| {
            self.needs_of_part(self.amounts(), part)
                .into_iter()
                .map(|(place, needs)| (place, needs.map(|needs| self.visited(&needs))))
                .collect()
        };
        let nominal = |part: &Part<'_>| self.needs_of_part(self.amounts().nominal_only(), part);
        // An order that is one piece takes one thread, the comparison the other.
        let ((a, b_compared), (b, a_compared)) = both(
            visits.len() + compared.len() >= WORTH_A_THREAD,
            || (bounded(&first), nominal(&second_compared)),
            || (bounded(&second), nominal(&first_compared)),
        );
        Asked {
            visited: in_order(a, b),
            compared: in_order(a_compared, b_compared),
        }
    }

    pub(super) fn amounts(&self) -> Amounts<'_, 'n> {
        let fraction = |circuit: CircuitId| {
            let old = self
                .draw_off_of
                .get(&circuit)
                .map_or(0.0, |index| self.draw_offs[*index].old_fraction);
            Ratio::new::<ratio>(old)
        };
        let clear_strokes = |circuit: CircuitId| {
            if !self.is_by_strokes() {
                return Bounds::exact(Volume::new::<milliliter>(CLEAR_ML));
            }
            let none = Bounds::exact(Volume::default());
            self.strokes.get(&circuit).map_or(none, |stroke| {
                stroke
                    .displacement
                    .map(|volume| volume * f64::from(CLEAR_STROKES))
            })
        };
        Amounts::new(self.request, &self.drained, fraction, clear_strokes)
    }

    fn needs_of_part(&self, amounts: Amounts<'_, '_>, part: &Part<'_>) -> OfPart<Needs> {
        let known = KnownPushes::default();
        let mut amounts = amounts.knowing(&known);
        let mut found = Vec::with_capacity(part.len());
        for (place, visit) in part {
            let needs = self.needs_of_visit(&mut amounts, visit);
            let is_given = needs.is_ok();
            found.push((*place, needs));
            if !is_given {
                break;
            }
        }
        found
    }

    /// What the screws of a visit need, remembered for the visits after it.
    pub(super) fn needs_of_visit(
        &self,
        amounts: &mut Amounts<'_, '_>,
        visit: &Visit,
    ) -> Result<Needs, Unreachable> {
        // Screws done in an earlier session still shape what is left.
        let (done, due): (Vec<ScrewId>, Vec<ScrewId>) =
            (visit.screws.iter()).partition(|screw| self.request.done.contains(screw));
        for screw in done {
            let amount = amounts.need(screw)?;
            amounts.carry(screw, amount.push);
        }
        let mut needs = Vec::with_capacity(due.len());
        for screw in due {
            let amount = amounts.need(screw)?;
            needs.push((screw, circuit_of(self.network(), screw), amount));
        }
        self.open_together(&mut needs);
        for (screw, _, amount) in &needs {
            amounts.carry(*screw, amount.push);
        }
        Ok(needs)
    }

    /// Screws opened together get as many strokes as the one that needs most:
    /// more comes out of the other, and is bought.
    pub(super) fn open_together(&self, needs: &mut [(ScrewId, CircuitId, Amount)]) {
        if needs.len() < 2 {
            return;
        }
        let displacement = |circuit: &CircuitId| self.strokes[circuit].displacement.nominal;
        let strokes = |pick: fn(Bounds<Volume>) -> Volume| {
            needs
                .iter()
                .map(|(_, circuit, amount)| pick(amount.push) / displacement(circuit))
                .fold(Ratio::default(), Ratio::max)
        };
        let (low, nominal, high) = (
            strokes(|push| push.low),
            strokes(|push| push.nominal),
            strokes(|push| push.high),
        );
        for (_, circuit, amount) in needs.iter_mut() {
            let displacement = self.strokes[circuit].displacement.nominal;
            amount.push = Bounds {
                low: displacement * low,
                nominal: displacement * nominal,
                high: displacement * high,
            };
        }
    }
}

/// Two parts of an order that share no circuit, so that what the one pushes
/// changes nothing for the other. Screws that are opened together tie circuits
/// to each other; such an order stays whole, as the first part.
fn independent_parts<'v>(builder: &Builder<'_, '_>, visits: &'v [Visit]) -> [Part<'v>; 2] {
    let placed = visits.iter().enumerate();
    if visits.iter().any(|visit| visit.screws.len() > 1) {
        return [placed.collect(), Part::new()];
    }
    let circuit = |visit: &Visit| circuit_of(builder.network(), visit.screws[0]);
    let mut sizes: BTreeMap<CircuitId, usize> = BTreeMap::new();
    for visit in visits {
        *sizes.entry(circuit(visit)).or_default() += 1;
    }
    // Whole circuits until the first part holds half of the visits.
    let mut first_circuits = BTreeSet::new();
    let mut held = 0;
    for (circuit, size) in sizes {
        if held * 2 >= visits.len() {
            break;
        }
        first_circuits.insert(circuit);
        held += size;
    }
    let (first, second) = placed.partition(|(_, visit)| first_circuits.contains(&circuit(visit)));
    [first, second]
}

/// The needs of two parts in the order of their visits, or why the first visit
/// that has none cannot be given any.
fn in_order<T>(one: OfPart<T>, other: OfPart<T>) -> Result<Vec<T>, Unreachable> {
    let mut all: OfPart<T> = one.into_iter().chain(other).collect();
    all.sort_by_key(|(place, _)| *place);
    all.into_iter().map(|(_, needs)| needs).collect()
}
