//! What must come before what, whatever anyone prefers.

use crate::options::Method;
use crate::plan::{Precedence, Rule};
use crate::request::Request;
use crate::scope::Scope;
use bleedwright_network::{CellId, CircuitId, Level, Network, Owner, PartKind, ScrewId, Wheel};
use std::collections::{BTreeMap, HashMap, HashSet};

/// A screw that must come before another.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Constraint {
    pub(crate) first: ScrewId,
    pub(crate) then: ScrewId,
    pub(crate) why: Precedence,
}

impl Constraint {
    /// The rule as seen from the second screw.
    pub(crate) fn rule(&self, network: &Network) -> Rule {
        Rule {
            why: self.why,
            first: network.screw(self.first).id.clone(),
        }
    }
}

/// Every constraint between the screws in scope.
pub(crate) fn constraints(request: &Request<'_>, scope: &Scope) -> Vec<Constraint> {
    let network = request.network;
    let mut constraints = Vec::new();
    let mut on_cell: HashMap<CellId, Vec<ScrewId>> = HashMap::new();
    for screw in &scope.screws {
        on_cell
            .entry(network.screw_place(*screw).cell)
            .or_default()
            .push(*screw);
    }
    // What is declared of the halves of a caliper is meant for fluid that comes
    // from the cylinder.
    let declared = match request.options.method {
        Method::Reverse => Vec::new(),
        _ => declared_first(request, &on_cell),
    };
    let reversed: HashSet<(CellId, CellId)> = declared
        .iter()
        .map(|(first, then)| (*then, *first))
        .collect();
    let dominators = network.immediate_dominators();
    for screw in &scope.screws {
        let cell = network.screw_place(*screw).cell;
        let mut above = dominators[cell.index()];
        while let Some(here) = above {
            // The layout may turn the two halves of a caliper round.
            if let Some(first) = on_cell.get(&here)
                && !reversed.contains(&(here, cell))
            {
                constraints.extend(first.iter().map(|first| upstream(request, *first, *screw)));
                break;
            }
            above = dominators[here.index()];
        }
    }
    for (first, then) in &declared {
        for a in &on_cell[first] {
            constraints.extend(on_cell[then].iter().map(|b| Constraint {
                first: *a,
                then: *b,
                why: Precedence::DeclaredFirst,
            }));
        }
    }
    constraints.extend(upper_first(request, scope, &dominators));
    // The reasons printed must not depend on the order of the file.
    let name = |screw: ScrewId| network.screw(screw).id.as_str();
    constraints.sort_by(|a, b| (name(a.first), name(a.then)).cmp(&(name(b.first), name(b.then))));
    constraints
}

/// The screw nearer to the cylinder first; by the reverse method, where fluid
/// comes in at the wheels, last.
fn upstream(request: &Request<'_>, near: ScrewId, far: ScrewId) -> Constraint {
    let (first, then, why) = match request.options.method {
        Method::Reverse => (far, near, Precedence::Downstream),
        _ => (near, far, Precedence::Upstream),
    };
    Constraint { first, then, why }
}

/// Pairs of cavities of one caliper of which the layout names the first.
fn declared_first(
    request: &Request<'_>,
    on_cell: &HashMap<CellId, Vec<ScrewId>>,
) -> Vec<(CellId, CellId)> {
    let network = request.network;
    let mut pairs = Vec::new();
    for (index, part) in network.layout().parts.iter().enumerate() {
        let PartKind::Brake(brake) = &part.kind else {
            continue;
        };
        let Some(first) = &brake.bleed_first else {
            continue;
        };
        let cells: Vec<CellId> = network.cells_of_part(index).collect();
        let named = |cell: &CellId| {
            network
                .cavity(*cell)
                .is_some_and(|cavity| cavity.id == *first)
        };
        let Some(first) = cells.iter().copied().find(named) else {
            continue;
        };
        let has_screw = |cell: &CellId| on_cell.contains_key(cell);
        pairs.extend(
            cells
                .iter()
                .copied()
                .filter(|cell| *cell != first && has_screw(cell) && has_screw(&first))
                .map(|then| (first, then)),
        );
    }
    pairs
}

/// Upper before lower on one wheel and circuit, unless one feeds the other
/// the other way round.
fn upper_first(
    request: &Request<'_>,
    scope: &Scope,
    dominators: &[Option<CellId>],
) -> Vec<Constraint> {
    let network = request.network;
    let mut at_wheel: BTreeMap<(Wheel, CircuitId), [Vec<ScrewId>; 2]> = BTreeMap::new();
    for screw in &scope.screws {
        let place = network.screw_place(*screw);
        let Owner::Part(part, _) = place.owner else {
            continue;
        };
        let part = &network.layout().parts[part];
        if let (Some(wheel), Some(level), Some(circuit)) = (part.wheel, part.place, place.circuit) {
            let levels = at_wheel.entry((wheel, circuit)).or_default();
            levels[usize::from(level == Level::Lower)].push(*screw);
        }
    }
    let feeds = |first: ScrewId, then: ScrewId| {
        let above = network.screw_place(first).cell;
        let mut here = Some(network.screw_place(then).cell);
        while let Some(cell) = here {
            if cell == above {
                return true;
            }
            here = dominators[cell.index()];
        }
        false
    };
    let mut constraints = Vec::new();
    for [upper, lower] in at_wheel.into_values() {
        for first in &upper {
            for then in &lower {
                if !feeds(*then, *first) && !feeds(*first, *then) {
                    constraints.push(Constraint {
                        first: *first,
                        then: *then,
                        why: Precedence::UpperFirst,
                    });
                }
            }
        }
    }
    constraints
}
