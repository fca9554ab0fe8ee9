//! Orders that somebody gave: the user, or the maker.

use super::constraint::Constraint;
use super::sequence::Derived;
use crate::options::Method;
use crate::plan::{Giver, OrderNote, Precedence};
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{CylinderKind, Network, ScrewId};
use std::collections::{HashMap, HashSet};

/// Whose order the plan follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Authority {
    /// The user's `--order`.
    User,
    /// The layout's `maker_order`.
    Maker,
    /// Nobody's: it is derived.
    Pipework,
}

/// The order to follow: the user's over the maker's over the derived one. A
/// partial list is completed by the derived order of the rest.
pub(crate) fn given_order(
    request: &Request<'_>,
    scope: &Scope,
    derived: &Derived,
) -> (Vec<ScrewId>, Authority, usize) {
    let (given, authority) = match (&request.order, &request.maker_order) {
        (Some(order), _) => (order, Authority::User),
        (None, Some(order)) => (order, Authority::Maker),
        (None, None) => return (derived.screws.clone(), Authority::Pipework, 0),
    };
    let mut order: Vec<ScrewId> = given
        .iter()
        .copied()
        .filter(|screw| scope.screws.contains(screw))
        .collect();
    let count = order.len();
    let named: HashSet<ScrewId> = order.iter().copied().collect();
    order.extend(derived.screws.iter().filter(|screw| !named.contains(screw)));
    if count == 0 {
        return (order, Authority::Pipework, 0);
    }
    (order, authority, count)
}

/// Rules of the pipework that an order breaks, in words.
pub(crate) fn violations(
    request: &Request<'_>,
    scope: &Scope,
    constraints: &[Constraint],
    order: &[ScrewId],
) -> Vec<String> {
    let network = request.network;
    let mut first_visit: HashMap<ScrewId, usize> = HashMap::new();
    for (index, screw) in order.iter().enumerate() {
        first_visit.entry(*screw).or_insert(index);
    }
    let mut broken: Vec<String> = constraints
        .iter()
        .filter_map(|constraint| {
            let first = first_visit.get(&constraint.first)?;
            let then = first_visit.get(&constraint.then)?;
            (first > then).then(|| {
                let (first, then) = (
                    network.screw(constraint.first).id.as_str(),
                    network.screw(constraint.then).id.as_str(),
                );
                let why = match constraint.why {
                    Precedence::Upstream => {
                        "feeds it: its air is pushed into a line that was already clear"
                    }
                    Precedence::Downstream => {
                        "lies behind it: its air is pushed up through a part already clear"
                    }
                    Precedence::UpperFirst => "is the upper cylinder of the same wheel",
                    Precedence::DeclaredFirst => "is declared to be bled first",
                };
                format!("`{then}` comes before `{first}`, which {why}")
            })
        })
        .collect();
    if request.options.method == Method::Pedal {
        broken.extend(secondary_before_primary(network, scope, order));
    }
    broken
}

/// With air in both circuits of a tandem cylinder a secondary screw before
/// the primary circuit is finished gets no stroke.
fn secondary_before_primary(network: &Network, scope: &Scope, order: &[ScrewId]) -> Vec<String> {
    let mut broken = Vec::new();
    let mut reported = HashSet::new();
    let mut last_primary: HashMap<usize, (usize, ScrewId)> = HashMap::new();
    let airy = |screw: ScrewId| {
        let circuit = network.screw_place(screw).circuit?;
        let is_tandem = network.cylinder_of(circuit).kind == CylinderKind::Tandem;
        (is_tandem && scope.circuits_with_air.contains(&circuit)).then_some(circuit)
    };
    for (index, screw) in order.iter().enumerate() {
        if let Some(circuit) = airy(*screw)
            && network.circuit(circuit).chamber_index == 0
        {
            last_primary.insert(network.circuit(circuit).cylinder, (index, *screw));
        }
    }
    for (index, screw) in order.iter().enumerate() {
        let Some(circuit) = airy(*screw) else {
            continue;
        };
        let cylinder = network.circuit(circuit).cylinder;
        if network.circuit(circuit).chamber_index == 1
            && let Some((primary, name)) = last_primary.get(&cylinder)
            && *primary > index
            && reported.insert(cylinder)
        {
            broken.push(format!(
                "`{}` comes before `{}` of the primary circuit, which is still full of air and \
                 leaves the secondary piston no stroke",
                network.screw(*screw).id,
                network.screw(*name).id
            ));
        }
    }
    broken
}

/// Where a given order departs from the derived one.
pub(crate) fn differences(
    network: &Network,
    given: &[ScrewId],
    derived: &[ScrewId],
    authority: Authority,
) -> Vec<OrderNote> {
    let by = match authority {
        Authority::User => Giver::User,
        Authority::Maker => Giver::Maker,
        Authority::Pipework => return Vec::new(),
    };
    let name = |screw: &ScrewId| network.screw(*screw).id.clone();
    if given == derived {
        return vec![OrderNote::Agrees(by)];
    }
    let followed = OrderNote::Followed {
        by,
        pipework: derived.iter().map(name).collect(),
    };
    let mut pairs = given.iter().zip(derived).enumerate();
    let differs = match pairs.find(|(_, (a, b))| a != b) {
        Some((index, (a, b))) => OrderNote::Differs {
            place: index + 1,
            given: name(a),
            pipework: name(b),
        },
        None => OrderNote::VisitsTwice(by),
    };
    vec![followed, differs]
}
