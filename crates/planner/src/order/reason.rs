//! The reasons printed with every step.

use super::constraint::Constraint;
use super::given::Authority;
use super::preference::by_length;
use super::sequence::{CircuitPlace, Derived, Visit};
use crate::options::Begin;
use crate::plan::{AmongEquals, CircuitFirst, Giver, Precedence, WhyAfter, WhyHere};
use crate::request::Request;
use crate::scope::circuit_of;
use bleedwright_network::{CircuitId, ScrewId};
use std::collections::{HashMap, HashSet};
use uom::si::f64::Length;
use uom::si::length::meter;

/// The reasons of one step.
pub(crate) struct Reasons {
    pub(crate) why_here: WhyHere,
    pub(crate) after_previous: Option<WhyAfter>,
}

pub(crate) struct Reasoning<'a, 'n> {
    request: &'a Request<'n>,
    derived: &'a Derived,
    begin: Begin,
    authority: Authority,
    /// Why each circuit stands where it stands.
    places: HashMap<CircuitId, CircuitPlace>,
    /// How many screws at the head of the order were given.
    given: usize,
    binding: HashMap<ScrewId, Vec<Constraint>>,
    /// Screws whose part feeds others in scope.
    feeding: HashSet<ScrewId>,
    /// The screws of every circuit that tolerances cannot tell apart.
    equals: HashMap<(CircuitId, bool, usize), Equals>,
}

/// Screws of one circuit whose runs do not differ beyond tolerance.
struct Equals {
    first: ScrewId,
    /// The nominal length that would go first by itself.
    best: Length,
}

/// All of them, in one look at every screw.
fn equals(derived: &Derived, begin: Begin) -> HashMap<(CircuitId, bool, usize), Equals> {
    let mut all: HashMap<(CircuitId, bool, usize), Equals> = HashMap::new();
    for (circuit, screws) in &derived.sorted {
        for screw in screws {
            let rank = &derived.ranks[screw];
            let length = rank.length.nominal;
            let equals = all
                .entry((*circuit, rank.is_suspect, rank.group))
                .or_insert(Equals {
                    first: *screw,
                    best: length,
                });
            if by_length(begin, length, equals.best).is_lt() {
                equals.best = length;
            }
        }
    }
    all
}

/// Reasons for every visit of an order. Of two screws opened together the
/// first one's place is explained, against the last visit to its circuit.
pub(crate) fn reasons(
    request: &Request<'_>,
    derived: &Derived,
    constraints: &[Constraint],
    visits: &[Visit],
    authority: Authority,
    given: usize,
) -> Vec<Reasons> {
    let mut binding: HashMap<ScrewId, Vec<Constraint>> = HashMap::new();
    for constraint in constraints {
        binding
            .entry(constraint.then)
            .or_default()
            .push(*constraint);
    }
    let reasoning = Reasoning {
        request,
        derived,
        begin: request.options.begin,
        authority,
        places: derived.circuits.iter().copied().collect(),
        given,
        binding,
        equals: equals(derived, request.options.begin),
        feeding: constraints
            .iter()
            .filter(|constraint| constraint.why == Precedence::Upstream)
            .map(|constraint| constraint.first)
            .collect(),
    };
    let mut visited = HashSet::new();
    let mut opened = 0;
    let mut reasons = Vec::with_capacity(visits.len());
    for (index, visit) in visits.iter().enumerate() {
        let screw = visit.screws[0];
        let is_repeat = !visited.insert(screw);
        let before = index.checked_sub(1).map(|before| {
            let screws = &visits[before].screws;
            let circuit = reasoning.circuit(screw);
            let same = screws
                .iter()
                .find(|other| reasoning.circuit(**other) == circuit);
            *same.unwrap_or(&screws[0])
        });
        reasons.push(Reasons {
            why_here: reasoning.why_here(opened, screw, is_repeat),
            after_previous: before.map(|before| reasoning.after(opened, before, screw)),
        });
        opened += visit.screws.len();
    }
    reasons
}

impl Reasoning<'_, '_> {
    fn circuit(&self, screw: ScrewId) -> CircuitId {
        circuit_of(self.request.network, screw)
    }

    fn why_here(&self, index: usize, screw: ScrewId, is_again: bool) -> WhyHere {
        if index < self.given {
            let by = match self.authority {
                Authority::Maker => Giver::Maker,
                Authority::User | Authority::Pipework => Giver::User,
            };
            return WhyHere::Given { by, is_again };
        }
        let network = self.request.network;
        if let Some(constraint) = self.binding.get(&screw).and_then(|list| list.first()) {
            return WhyHere::Rule(constraint.rule(network));
        }
        let rank = &self.derived.ranks[&screw];
        if rank.is_suspect {
            return WhyHere::Opened;
        }
        if self.feeding.contains(&screw) {
            return WhyHere::FeedsOthers;
        }
        let circuit = self.circuit(screw);
        if network.circuit(circuit).screws.len() == 1 {
            return WhyHere::OnlyScrew;
        }
        let equals = &self.equals[&(circuit, rank.is_suspect, rank.group)];
        let is_beaten = by_length(self.begin, equals.best, rank.length.nominal).is_lt();
        WhyHere::Length {
            begin: self.begin,
            is_next: rank.group != 1,
            among: match (equals.first == screw, is_beaten) {
                (false, _) => AmongEquals::AsLong,
                (true, true) => AmongEquals::FirstWithinTolerance,
                (true, false) => AmongEquals::First,
            },
        }
    }

    fn after(&self, index: usize, before: ScrewId, screw: ScrewId) -> WhyAfter {
        let network = self.request.network;
        let of = network.screw(before).id.clone();
        if index < self.given {
            return WhyAfter::Given(of);
        }
        let (circuit, before_circuit) = (self.circuit(screw), self.circuit(before));
        if circuit != before_circuit {
            return WhyAfter::Circuit {
                finished: network.circuit(before_circuit).name.clone(),
                why: self.circuit_first(before_circuit, circuit),
            };
        }
        let mut binding = self.binding.get(&screw).into_iter().flatten();
        if let Some(constraint) = binding.find(|constraint| constraint.first == before) {
            return WhyAfter::Rule(constraint.rule(network));
        }
        let (a, b) = (&self.derived.ranks[&before], &self.derived.ranks[&screw]);
        if a.is_suspect && !b.is_suspect {
            return WhyAfter::Opened(of);
        }
        let difference = (a.length.nominal - b.length.nominal).abs();
        let is_within_tolerance = a.group == b.group;
        match (a.distance, b.distance) {
            (Some(x), Some(y)) if is_within_tolerance && x != y => WhyAfter::Distance {
                of,
                begin: self.begin,
            },
            _ if is_within_tolerance && difference <= Length::new::<meter>(1e-6) => {
                WhyAfter::Equal(of)
            }
            _ => WhyAfter::Length {
                of,
                difference,
                // A given order may run against the preference.
                is_shorter: b.length.nominal < a.length.nominal,
                is_within_tolerance,
            },
        }
    }

    /// Why one circuit goes before another.
    fn circuit_first(&self, first: CircuitId, then: CircuitId) -> CircuitFirst {
        let place = |circuit: CircuitId| self.places.get(&circuit).copied();
        match (place(first), place(then)) {
            (Some(CircuitPlace::PrimaryFirst), _) => CircuitFirst::Primary,
            (Some(CircuitPlace::Asked), _) => CircuitFirst::Asked,
            (Some(CircuitPlace::Suspect), _) => CircuitFirst::Opened,
            (_, Some(CircuitPlace::ClutchLast)) => CircuitFirst::ClutchLast,
            (Some(CircuitPlace::ByLength), _) => CircuitFirst::Length(self.begin),
            (Some(CircuitPlace::ByDistance), _) => CircuitFirst::Distance(self.begin),
            (Some(CircuitPlace::ByNominal), _) => CircuitFirst::NominalLength(self.begin),
            _ => CircuitFirst::Either,
        }
    }
}
