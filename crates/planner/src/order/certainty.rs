//! Whether lengths within their tolerances can change the derived order.
//!
//! Within a circuit the screws are taken one after the other, each time the
//! preferred one of those that no constraint holds back. So another choice of
//! lengths gives the same order exactly if at every turn the screw that was
//! taken is still preferred to all the others that were free. "Preferred for
//! every choice of lengths" is transitive, so that it is enough to compare it
//! with the next best of them: the free screw that comes soonest in the order.
//! Circuits have no constraints among them but one, and neighbours suffice.

use super::constraint::Constraint;
use super::contest::{Contest, Contests};
use super::given::Authority;
use super::preference::NO_DIFFERENCE_M;
use super::sequence::{Derived, by_circuit, take_turns};
use super::standing::standings;
use crate::certainty::{Certainty, MOST_PAIRS, OrderCertainty, Undecided};
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{CircuitId, ScrewId};
use std::collections::HashSet;

/// Judges a derived order; `given` screws at the head of `order` were not
/// derived.
pub(crate) fn certainty(
    request: &Request<'_>,
    scope: &Scope,
    constraints: &[Constraint],
    derived: &Derived,
    (order, authority, given): (&[ScrewId], Authority, usize),
) -> OrderCertainty {
    let named: HashSet<ScrewId> = order[..given].iter().copied().collect();
    let is_given = authority != Authority::Pipework
        && derived.screws.iter().filter(|s| !named.contains(s)).count() < 2;
    if is_given {
        return OrderCertainty::of(Certainty::Given);
    }
    if let Some(circuit) = open_loop(request, derived) {
        return OrderCertainty::of(Certainty::Undecided(Undecided::Loop(
            request.network.circuit(circuit).name.clone(),
        )));
    }
    let binding = by_circuit(request.network, constraints);
    let mut contests = Contests::new(request, derived);
    let mut uncertain: Vec<Contest> = Vec::new();
    let standings = standings(request, scope, derived);
    for (index, standing) in standings.iter().enumerate() {
        let binding = binding.get(&standing.circuit);
        for contest in contests_of(&derived.sorted[&standing.circuit], binding) {
            match contests.is_sure(&contest) {
                Some(true) => {}
                Some(false) => uncertain.push(contest),
                None => return OrderCertainty::of(Certainty::Undecided(Undecided::TooManySteps)),
            }
        }
        if let Some(next) = standings.get(index + 1)
            && standing.may_change_places(next)
        {
            let contest = Contest::Circuits(standing.clone(), next.clone());
            if contests.is_sure(&contest) != Some(true) {
                uncertain.push(contest);
            }
        }
    }
    OrderCertainty {
        verdict: if uncertain.is_empty() {
            Certainty::Certain
        } else {
            Certainty::Uncertain
        },
        uncertain_count: uncertain.len(),
        uncertain: uncertain
            .iter()
            .take(MOST_PAIRS)
            .map(|contest| contests.describe(contest))
            .collect(),
    }
}

/// A circuit in which a shorter way could be found if lengths were others.
fn open_loop(request: &Request<'_>, derived: &Derived) -> Option<CircuitId> {
    let network = request.network;
    let is_open = |circuit: &CircuitId| {
        network.loop_links(*circuit).iter().any(|link| {
            let length = network.link(*link).length;
            (length.high - length.low).value > NO_DIFFERENCE_M
        })
    };
    let mut circuits = derived.circuits.iter().map(|(circuit, _)| *circuit);
    circuits.find(is_open)
}

/// The screws of a circuit, each with the next best that was free when it was
/// taken.
fn contests_of(screws: &[ScrewId], constraints: Option<&Vec<&Constraint>>) -> Vec<Contest> {
    let (turns, rest) = take_turns(screws, constraints);
    let free = turns
        .into_iter()
        .filter_map(|(taken, next)| Some((taken, next?)));
    // What waits for a screw of another circuit stands at the end, by
    // preference alone.
    let waiting = rest.windows(2).map(|pair| (pair[0], pair[1]));
    free.chain(waiting)
        .map(|(first, then)| Contest::Screws(first, then))
        .collect()
}
