//! The reasons printed with every step.

use super::constraint::{Constraint, Why};
use super::given::Authority;
use super::preference::by_length;
use super::sequence::{CircuitPlace, Derived, Visit};
use crate::options::Begin;
use crate::request::Request;
use crate::scope::circuit_of;
use bleedwright_network::{CircuitId, ScrewId};
use std::collections::{HashMap, HashSet};
use uom::si::f64::Length;
use uom::si::length::meter;

/// The reasons of one step.
pub(crate) struct Reasons {
    pub(crate) why_here: String,
    pub(crate) after_previous: Option<String>,
}

/// What the reasons are drawn from.
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
    /// The one that goes first.
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
            .filter(|constraint| constraint.why == Why::Upstream)
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

    fn why_here(&self, index: usize, screw: ScrewId, is_repeat: bool) -> String {
        if index < self.given {
            let whose = match self.authority {
                Authority::Maker => "the maker's order puts it here",
                Authority::User | Authority::Pipework => "the order given puts it here",
            };
            return if is_repeat {
                format!("{whose}, once more")
            } else {
                whose.to_owned()
            };
        }
        if let Some(constraint) = self.binding.get(&screw).and_then(|list| list.first()) {
            return constraint.text(self.request.network);
        }
        let rank = &self.derived.ranks[&screw];
        if rank.is_suspect {
            return "its run was opened".to_owned();
        }
        if self.feeding.contains(&screw) {
            return "its part feeds others, so it goes before them".to_owned();
        }
        if self
            .request
            .network
            .circuit(self.circuit(screw))
            .screws
            .len()
            == 1
        {
            return "the only screw of its circuit".to_owned();
        }
        let next = if rank.group == 1 { "" } else { "next " };
        let (most, as_much) = match self.begin {
            Begin::Farthest => ("longest", "long"),
            Begin::Nearest => ("shortest", "short"),
        };
        let equals = &self.equals[&(self.circuit(screw), rank.is_suspect, rank.group)];
        if equals.first != screw {
            return format!(
                "run as {as_much} as the {next}{most} of its circuit, within tolerance"
            );
        }
        let is_beaten = by_length(self.begin, equals.best, rank.length.nominal).is_lt();
        let within = if is_beaten { ", within tolerance" } else { "" };
        format!("{next}{most} run of its circuit{within}")
    }

    fn after(&self, index: usize, before: ScrewId, screw: ScrewId) -> String {
        let network = self.request.network;
        let name = network.screw(before).id.as_str();
        if index < self.given {
            return format!("follows `{name}` as given");
        }
        let (circuit, before_circuit) = (self.circuit(screw), self.circuit(before));
        if circuit != before_circuit {
            return self.circuit_change(circuit, before_circuit);
        }
        if let Some(constraint) = self
            .binding
            .get(&screw)
            .and_then(|list| list.iter().find(|constraint| constraint.first == before))
        {
            return constraint.text(network);
        }
        let (a, b) = (&self.derived.ranks[&before], &self.derived.ranks[&screw]);
        if a.is_suspect && !b.is_suspect {
            return format!("after `{name}`, whose run was opened");
        }
        let difference = (a.length.nominal - b.length.nominal).get::<meter>().abs();
        if a.group != b.group {
            // A given order may run against the preference.
            let is_shorter = b.length.nominal < a.length.nominal;
            let comparison = if is_shorter { "shorter" } else { "longer" };
            return format!("{difference:.2} m {comparison} than `{name}`");
        }
        match (a.distance, b.distance) {
            (Some(x), Some(y)) if x != y => format!(
                "run as long as that of `{name}` within tolerance, its wheel is {} the cylinder",
                if self.begin == Begin::Farthest {
                    "nearer to"
                } else {
                    "farther from"
                }
            ),
            _ if difference > 1e-6 => {
                let is_shorter = b.length.nominal < a.length.nominal;
                let comparison = if is_shorter { "shorter" } else { "longer" };
                format!(
                    "{difference:.2} m {comparison} than `{name}`, within tolerance: either may go first"
                )
            }
            _ => format!("run as long as that of `{name}`: either may go first"),
        }
    }

    fn circuit_change(&self, circuit: CircuitId, before: CircuitId) -> String {
        let network = self.request.network;
        let finished = &network.circuit(before).name;
        let why = |circuit: CircuitId| self.places.get(&circuit).copied();
        let separate = "other circuit";
        match (why(before), why(circuit)) {
            (Some(CircuitPlace::PrimaryFirst), _) => {
                format!("{finished} first: while it is empty the secondary piston gets no stroke")
            }
            (Some(CircuitPlace::Asked), _) => {
                format!("{separate}: {finished} went first because it was asked for")
            }
            (Some(CircuitPlace::Suspect), _) => {
                format!("{separate}: {finished} went first because it was opened")
            }
            (_, Some(CircuitPlace::ClutchLast)) => {
                format!("{separate}: the clutch is left to the end")
            }
            (Some(CircuitPlace::ByLength), _) => format!(
                "{separate}, a free choice: {finished} has the {} run",
                match self.begin {
                    Begin::Farthest => "longer",
                    Begin::Nearest => "shorter",
                }
            ),
            (Some(CircuitPlace::ByDistance), _) => format!(
                "{separate}, a free choice: runs equal, {finished} begins at the wheel {} the cylinder",
                match self.begin {
                    Begin::Farthest => "farther from",
                    Begin::Nearest => "nearer to",
                }
            ),
            (Some(CircuitPlace::ByNominal), _) => format!(
                "{separate}, a free choice: runs equal within tolerance, {finished} has the {} nominal one",
                match self.begin {
                    Begin::Farthest => "longer",
                    Begin::Nearest => "shorter",
                }
            ),
            _ => format!("{separate}: either circuit may go first"),
        }
    }
}
