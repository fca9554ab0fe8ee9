//! The derived order: circuit by circuit, constraints first, preference next.

use super::constraint::Constraint;
use super::preference::{Lengths, NO_DIFFERENCE_M, Rank, by_distance, by_length, by_side, rank};
use crate::options::{Begin, Method};
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{CircuitId, CylinderKind, Network, ScrewId, Works};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap, HashMap, VecDeque};
use uom::si::f64::Length;
use uom::si::length::meter;

/// One visit: one screw, or two that are opened together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Visit {
    pub(crate) screws: Vec<ScrewId>,
}

impl Visit {
    pub(crate) fn of(screw: ScrewId) -> Self {
        Self {
            screws: vec![screw],
        }
    }
}

/// The derived order with what it was derived from.
pub(crate) struct Derived {
    pub(crate) screws: Vec<ScrewId>,
    /// The screws of every circuit in their order.
    pub(crate) sorted: BTreeMap<CircuitId, Vec<ScrewId>>,
    pub(crate) lengths: Lengths,
    pub(crate) ranks: HashMap<ScrewId, Rank>,
    /// Circuits in their order, and why each stands where it stands.
    pub(crate) circuits: Vec<(CircuitId, CircuitPlace)>,
}

/// Why a circuit stands where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CircuitPlace {
    /// The user asked for it.
    Asked,
    /// Air in the primary takes the secondary's strokes.
    PrimaryFirst,
    /// It was opened.
    Suspect,
    /// Its longest run is the longest (or shortest) of all.
    ByLength,
    /// Runs are equal; its wheel is farther (or nearer).
    ByDistance,
    /// Runs differ within their tolerance; its nominal one is the longest (or shortest).
    ByNominal,
    /// Nothing tells them apart.
    Either,
    /// The clutch is left to the end.
    ClutchLast,
}

/// Derives the order of the screws in scope.
pub(crate) fn derive(
    request: &Request<'_>,
    scope: &Scope,
    constraints: &[Constraint],
    begin: Begin,
) -> Derived {
    let network = request.network;
    let lengths = Lengths::new(network);
    let mut screws_of: BTreeMap<CircuitId, Vec<ScrewId>> = BTreeMap::new();
    for screw in &scope.screws {
        if let Some(circuit) = network.screw_place(*screw).circuit {
            screws_of.entry(circuit).or_default().push(*screw);
        }
    }
    let binding = by_circuit(network, constraints);
    let mut ranks = HashMap::with_capacity(scope.screws.len());
    let mut sorted: BTreeMap<CircuitId, Vec<ScrewId>> = BTreeMap::new();
    for (circuit, screws) in screws_of {
        let ranked = rank(request, &lengths, circuit, screws, begin);
        let order: Vec<ScrewId> = ranked.iter().map(|(screw, _)| *screw).collect();
        let (turns, rest) = take_turns(&order, binding.get(&circuit));
        let taken = turns.iter().map(|(taken, _)| *taken);
        // Rules that contradict each other must not lose a screw.
        sorted.insert(circuit, taken.chain(rest).collect());
        ranks.extend(ranked);
    }
    let circuits = order_circuits(request, scope, &sorted, &ranks, begin);
    let screws = circuits
        .iter()
        .flat_map(|(circuit, _)| sorted[circuit].iter().copied())
        .collect();
    Derived {
        screws,
        sorted,
        lengths,
        ranks,
        circuits,
    }
}

/// The constraints by the circuit of the screw that waits.
pub(super) fn by_circuit<'c>(
    network: &Network,
    constraints: &'c [Constraint],
) -> HashMap<CircuitId, Vec<&'c Constraint>> {
    let mut by_circuit: HashMap<CircuitId, Vec<&Constraint>> = HashMap::new();
    for constraint in constraints {
        if let Some(circuit) = network.screw_place(constraint.then).circuit {
            by_circuit.entry(circuit).or_default().push(constraint);
        }
    }
    by_circuit
}

/// A screw that was taken, and the next best that was free then.
type Turn = (ScrewId, Option<ScrewId>);

/// Sorts the screws of a circuit topologically (Kahn 1962), always taking the first of those that nothing holds back.
/// What is left waits for a screw of another circuit.
pub(super) fn take_turns(
    screws: &[ScrewId],
    constraints: Option<&Vec<&Constraint>>,
) -> (Vec<Turn>, Vec<ScrewId>) {
    let places: HashMap<ScrewId, usize> = screws.iter().copied().zip(0..).collect();
    let mut waits_for = vec![0_usize; screws.len()];
    let mut after: Vec<Vec<usize>> = vec![Vec::new(); screws.len()];
    for constraint in constraints.into_iter().flatten() {
        let Some(then) = places.get(&constraint.then) else {
            continue;
        };
        waits_for[*then] += 1;
        if let Some(first) = places.get(&constraint.first) {
            after[*first].push(*then);
        }
    }
    let mut free: BinaryHeap<Reverse<usize>> = (0..screws.len())
        .filter(|place| waits_for[*place] == 0)
        .map(Reverse)
        .collect();
    let mut turns = Vec::with_capacity(screws.len());
    while let Some(Reverse(taken)) = free.pop() {
        let next = free.peek().map(|Reverse(next)| screws[*next]);
        turns.push((screws[taken], next));
        for later in &after[taken] {
            waits_for[*later] -= 1;
            if waits_for[*later] == 0 {
                free.push(Reverse(*later));
            }
        }
    }
    let waiting = screws.iter().zip(waits_for).filter(|(_, waits)| *waits > 0);
    (turns, waiting.map(|(screw, _)| *screw).collect())
}

fn order_circuits(
    request: &Request<'_>,
    scope: &Scope,
    sorted: &BTreeMap<CircuitId, Vec<ScrewId>>,
    ranks: &HashMap<ScrewId, Rank>,
    begin: Begin,
) -> Vec<(CircuitId, CircuitPlace)> {
    let network = request.network;
    let mut heads: Vec<Head<'_>> = sorted
        .iter()
        .filter(|(_, screws)| !screws.is_empty())
        .map(|(circuit, screws)| Head::new(network, *circuit, screws, ranks, begin))
        .collect();
    heads.sort_by(|a, b| by_length(begin, a.length(), b.length()).then_with(|| a.name.cmp(b.name)));
    // Circuits whose leading runs overlap within their tolerances are tied.
    let mut group = 0;
    let mut leader: Option<&Rank> = None;
    let mut groups = Vec::with_capacity(heads.len());
    for head in &heads {
        let is_tied = leader.is_some_and(|leader| {
            let nothing = Length::new::<meter>(NO_DIFFERENCE_M);
            leader.length.low <= head.rank.length.high + nothing
                && head.rank.length.low <= leader.length.high + nothing
        });
        if !is_tied {
            group += 1;
            leader = Some(head.rank);
        }
        groups.push(group);
    }
    let mut grouped: Vec<(usize, Head<'_>)> = groups.into_iter().zip(heads).collect();
    let key = |head: &Head<'_>| {
        (
            request.circuit_first != Some(head.circuit),
            network.circuit(head.circuit).purpose == Works::Clutch,
            !head.rank.is_suspect,
        )
    };
    grouped.sort_by(|(group_a, a), (group_b, b)| {
        key(a)
            .cmp(&key(b))
            .then(group_a.cmp(group_b))
            .then(by_distance(begin, a.rank.distance, b.rank.distance))
            .then_with(|| by_length(begin, a.length(), b.length()))
            .then_with(|| by_side(begin, a.rank, b.rank))
            .then_with(|| a.name.cmp(b.name))
    });
    let mut places: Vec<(CircuitId, CircuitPlace)> = (0..grouped.len())
        .map(|index| (grouped[index].1.circuit, place_of(request, &grouped, index)))
        .collect();
    // Only a pedal needs the one piston to move the other.
    if request.options.method == Method::Pedal {
        put_primary_first(network, scope, &mut places);
    }
    places
}

/// The screw that decides where its circuit stands: the one with the longest
/// run, or the shortest.
struct Head<'n> {
    circuit: CircuitId,
    name: &'n str,
    rank: &'n Rank,
}

impl<'n> Head<'n> {
    fn new(
        network: &'n Network,
        circuit: CircuitId,
        screws: &[ScrewId],
        ranks: &'n HashMap<ScrewId, Rank>,
        begin: Begin,
    ) -> Self {
        // Ranks of one circuit are grouped by length already, and within a
        // group the first by preference stands for the circuit.
        let rank = screws
            .iter()
            .map(|screw| &ranks[screw])
            .min_by(|a, b| {
                (!a.is_suspect, a.group)
                    .cmp(&(!b.is_suspect, b.group))
                    .then(by_distance(begin, a.distance, b.distance))
                    .then(by_length(begin, a.length.nominal, b.length.nominal))
                    .then(by_side(begin, a, b))
            })
            .expect("circuits without screws are filtered out before");
        Self {
            circuit,
            name: network.circuit(circuit).name.as_str(),
            rank,
        }
    }

    fn length(&self) -> Length {
        self.rank.length.nominal
    }
}

fn place_of(request: &Request<'_>, grouped: &[(usize, Head<'_>)], index: usize) -> CircuitPlace {
    let (group, head) = &grouped[index];
    if request.circuit_first == Some(head.circuit) {
        return CircuitPlace::Asked;
    }
    if request.network.circuit(head.circuit).purpose == Works::Clutch && grouped.len() > 1 {
        return CircuitPlace::ClutchLast;
    }
    // Compared with the neighbour after it, or before it for the last one.
    let other = grouped
        .get(index + 1)
        .or_else(|| grouped.get(index.wrapping_sub(1)));
    // Where both were opened something else put the one first.
    if head.rank.is_suspect && other.is_none_or(|(_, other)| !other.rank.is_suspect) {
        return CircuitPlace::Suspect;
    }
    match other {
        Some((other_group, _)) if other_group != group => CircuitPlace::ByLength,
        Some((_, other)) if other.rank.distance != head.rank.distance => CircuitPlace::ByDistance,
        Some((_, other)) if by_length(Begin::Farthest, head.length(), other.length()).is_ne() => {
            CircuitPlace::ByNominal
        }
        Some((_, other)) if other.rank.is_far_side != head.rank.is_far_side => {
            CircuitPlace::ByDistance
        }
        Some(_) => CircuitPlace::Either,
        None => CircuitPlace::ByLength,
    }
}

/// With air in both circuits of a tandem cylinder the primary goes first: what
/// is squeezed in it is stroke that the secondary piston does not get.
fn put_primary_first(network: &Network, scope: &Scope, places: &mut [(CircuitId, CircuitPlace)]) {
    for later in 0..places.len() {
        let (circuit, _) = places[later];
        if !is_airy_primary(network, scope, circuit) {
            continue;
        }
        let is_twin = |(other, _): &(CircuitId, _)| is_airy_twin(network, scope, circuit, *other);
        if let Some(earlier) = places[..later].iter().position(is_twin) {
            places[earlier..=later].rotate_right(1);
            places[earlier].1 = CircuitPlace::PrimaryFirst;
        }
    }
}

/// Whether a circuit hangs on the primary chamber of a tandem cylinder and
/// holds air, or may.
pub(super) fn is_airy_primary(network: &Network, scope: &Scope, circuit: CircuitId) -> bool {
    network.circuit(circuit).chamber_index == 0
        && network.cylinder_of(circuit).kind == CylinderKind::Tandem
        && scope.may_hold_air(circuit)
}

/// Whether another circuit hangs on the same cylinder and holds air, or may.
pub(super) fn is_airy_twin(
    network: &Network,
    scope: &Scope,
    circuit: CircuitId,
    other: CircuitId,
) -> bool {
    other != circuit
        && network.circuit(other).cylinder == network.circuit(circuit).cylinder
        && scope.may_hold_air(other)
}

/// Joins a front and a rear screw into one visit where a balance bar works
/// both cylinders: opened alone, one of them tilts the bar.
pub(crate) fn pair_for_balance_bars(network: &Network, order: &[ScrewId]) -> Vec<Visit> {
    let partners: HashMap<CircuitId, CircuitId> = network
        .circuits()
        .filter(|_| !network.layout().balance_bars.is_empty())
        .filter_map(|(id, _)| Some((id, network.bar_partner(id)?)))
        .collect();
    let circuit_of = |screw: ScrewId| network.screw_place(screw).circuit;
    let mut waiting: HashMap<CircuitId, VecDeque<usize>> = HashMap::new();
    for (index, screw) in order.iter().enumerate() {
        if let Some(circuit) = circuit_of(*screw)
            && partners.contains_key(&circuit)
        {
            waiting.entry(circuit).or_default().push_back(index);
        }
    }
    let mut taken = vec![false; order.len()];
    let mut visits = Vec::with_capacity(order.len());
    for (index, screw) in order.iter().enumerate() {
        if taken[index] {
            continue;
        }
        let mut screws = vec![*screw];
        if let Some(circuit) = circuit_of(*screw)
            && let Some(partner) = partners.get(&circuit)
        {
            if let Some(own) = waiting.get_mut(&circuit) {
                own.pop_front();
            }
            if let Some(other) = waiting.get_mut(partner).and_then(VecDeque::pop_front) {
                taken[other] = true;
                screws.push(order[other]);
            }
        }
        visits.push(Visit { screws });
    }
    visits
}
