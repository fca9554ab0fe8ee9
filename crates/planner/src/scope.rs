//! Which circuits and screws are bled, and why.

use crate::options::Purpose;
use crate::plan::{CircuitScope, WhyBled};
use crate::request::{Request, Target};
use bleedwright_network::{CircuitId, Code, Element, Finding, Network, Place, ScrewId};
use std::collections::{BTreeSet, HashSet};

/// The screws to open and the reasons circuit by circuit.
#[derive(Debug)]
pub(crate) struct Scope {
    /// Screws to open, those done earlier included, in the network's order.
    pub(crate) screws: BTreeSet<ScrewId>,
    /// Screws that would be among them, had the user not left them out.
    pub(crate) left_out: BTreeSet<ScrewId>,
    /// Circuits that hold air from end to end, or may.
    pub(crate) circuits_with_air: BTreeSet<CircuitId>,
    /// Circuits that hold air somewhere: these, and those that were opened.
    pub(crate) circuits_let_in_air: BTreeSet<CircuitId>,
    /// Whether air may be in any circuit, since nobody knows where it is: a spongy pedal.
    pub(crate) is_air_anywhere: bool,
    pub(crate) circuits: Vec<CircuitScope>,
}

impl Scope {
    pub(crate) fn new(request: &Request<'_>, findings: &mut Vec<Finding>) -> Self {
        let network = request.network;
        let purpose = request.options.purpose();
        let opened: BTreeSet<CircuitId> = request
            .opened
            .iter()
            .chain(&request.drained)
            .flat_map(|target| request.circuits_of(target))
            .collect();
        let is_spongy =
            purpose == Purpose::Air && opened.is_empty() && request.dry_circuits.is_empty();
        let ordered: HashSet<ScrewId> = request.order.iter().flatten().copied().collect();
        let asked: BTreeSet<CircuitId> = ordered
            .iter()
            .filter_map(|screw| network.screw_place(*screw).circuit)
            .collect();
        let of_maker: HashSet<ScrewId> = request.maker_order.iter().flatten().copied().collect();
        // Of several screws on one cavity only the top one is opened, unless
        // an order asks for another.
        let is_opened_for_bleeding = |screw: ScrewId| {
            let cell = network.screw_place(screw).cell;
            network.top_screw(network.screws_on(cell)) == Some(screw)
                || ordered.contains(&screw)
                || of_maker.contains(&screw)
        };
        let mut scope = Self {
            screws: BTreeSet::new(),
            left_out: BTreeSet::new(),
            circuits_with_air: BTreeSet::new(),
            circuits_let_in_air: opened.clone(),
            is_air_anywhere: is_spongy,
            circuits: Vec::new(),
        };
        for (id, circuit) in network.circuits() {
            let is_dry = request.dry_circuits.contains(&id);
            let (is_bled, why) = if purpose == Purpose::Fill {
                (true, WhyBled::Filled)
            } else if opened.contains(&id) {
                (true, WhyBled::Opened)
            } else if is_dry {
                (true, WhyBled::RanDry)
            } else if purpose == Purpose::Renew {
                (true, WhyBled::Renewed)
            } else if is_spongy {
                (true, WhyBled::AirUnknown)
            } else if asked.contains(&id) {
                (true, WhyBled::InOrder)
            } else {
                (false, WhyBled::Separate)
            };
            // A cylinder that was off the vehicle is empty inside.
            let is_emptied = request.opened.iter().any(
                |target| matches!(target, Target::Cylinder(index) if *index == circuit.cylinder),
            );
            if purpose == Purpose::Fill || is_dry || is_emptied {
                scope.circuits_with_air.insert(id);
                scope.circuits_let_in_air.insert(id);
            }
            // A circuit that is in scope only because the order names one of
            // its screws is opened there and nowhere else.
            let only_asked = is_bled
                && purpose == Purpose::Air
                && !is_dry
                && !is_spongy
                && !opened.contains(&id);
            let bled: Vec<ScrewId> = circuit
                .screws
                .iter()
                .copied()
                .filter(|screw| is_bled && is_opened_for_bleeding(*screw))
                .filter(|screw| !only_asked || ordered.contains(screw))
                .collect();
            scope.circuits.push(CircuitScope {
                circuit: circuit.name.clone(),
                works: circuit.purpose,
                is_bled: is_bled && !bled.is_empty(),
                why: if is_bled && circuit.screws.is_empty() {
                    WhyBled::NoScrew
                } else {
                    why
                },
            });
            scope.screws.extend(bled);
        }
        scope.circuits.sort_by(|a, b| a.circuit.cmp(&b.circuit));
        scope.leave_out_skipped(request, findings);
        findings.extend(runs_too_long(network, &scope));
        scope
    }

    /// Whether air was let into a circuit, or may be in it.
    pub(crate) fn may_hold_air(&self, circuit: CircuitId) -> bool {
        self.is_air_anywhere || self.circuits_let_in_air.contains(&circuit)
    }

    /// Compartments that were empty at the start, by their places in the
    /// layout.
    pub(crate) fn empty_compartments(&self, network: &Network) -> BTreeSet<(usize, usize)> {
        let circuits = self.circuits_with_air.iter();
        circuits
            .filter_map(|circuit| network.circuit(*circuit).compartment)
            .collect()
    }

    fn leave_out_skipped(&mut self, request: &Request<'_>, findings: &mut Vec<Finding>) {
        let network = request.network;
        for screw in &request.skip {
            if self.screws.remove(screw) {
                self.left_out.insert(*screw);
                findings.push(Finding::new(
                    Code::Skipped,
                    Place::Option("--skip"),
                    format!("the screw `{}` is left out", network.screw(*screw).id),
                    "whatever air or old fluid is behind it stays; bleed it before the vehicle \
                     is driven",
                ));
            }
        }
        if self.screws.difference(&request.done).next().is_none() {
            findings.push(Finding::new(
                Code::NothingToDo,
                Place::Option("--for"),
                "no bleed screw is in scope",
                "name what was opened, or leave out `--skip` and `--done`",
            ));
        }
    }
}

/// What the runs of one plan may be together, see [`runs_too_long`]. A vehicle
/// with forty screws behind twenty lines each has 840.
const MOST_WORK_OF_RUNS: usize = 2_000_000;

/// Runs that together are too long to be planned: every screw has its own run,
/// whose fluid mixes at every joint, so that the work is the lines of all runs;
/// and that of a run with `n` brakes in a row is `n` squared beside it.
///
/// Counted without walking the runs, which would take as long.
fn runs_too_long(network: &Network, scope: &Scope) -> Option<Finding> {
    let mut cavities: Vec<usize> = vec![0; network.all_cells().count()];
    for (circuit, _) in network.circuits() {
        for cell in network.cells_of(circuit) {
            let above = network.step_to(*cell);
            let above = above.map_or(0, |(parent, _)| cavities[parent.index()]);
            let is_cavity = network.is_cavity(Element::Cell(*cell));
            cavities[cell.index()] = above + usize::from(is_cavity);
        }
    }
    let cells = || {
        scope
            .screws
            .iter()
            .map(|screw| network.screw_place(*screw).cell)
    };
    let lines: usize = cells().map(|cell| network.depth(cell) as usize).sum();
    let in_a_row = cells().map(|cell| cavities[cell.index()]);
    let squares: usize = in_a_row.map(|brakes| brakes.saturating_mul(brakes)).sum();
    (lines.saturating_add(squares) > MOST_WORK_OF_RUNS).then(|| {
        Finding::new(
            Code::RunsTooLong,
            Place::Option("--skip"),
            format!(
                "the runs of the {} screws in scope pass {lines} lines in all, through up to {} \
                 brakes in a row",
                scope.screws.len(),
                cells()
                    .map(|cell| cavities[cell.index()])
                    .max()
                    .unwrap_or_default()
            ),
            "leave screws out, or write pipes in a row without a branch as one line",
        )
        .allowing(format!(
            "up to {MOST_WORK_OF_RUNS} lines in all, the square of the brakes on each run added"
        ))
    })
}

pub(crate) fn circuit_of(network: &Network, screw: ScrewId) -> CircuitId {
    network
        .screw_place(screw)
        .circuit
        .expect("only screws that a circuit reaches are in scope")
}
