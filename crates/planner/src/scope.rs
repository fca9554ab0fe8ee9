//! Which circuits and screws are bled, and why.

use crate::options::Purpose;
use crate::plan::CircuitScope;
use crate::request::{Request, Target};
use bleedwright_network::{CircuitId, Code, Finding, Network, Place, ScrewId};
use std::collections::BTreeSet;

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
        let asked: BTreeSet<CircuitId> = request
            .order
            .iter()
            .flatten()
            .filter_map(|screw| network.screw_place(*screw).circuit)
            .collect();
        let mut scope = Self {
            screws: BTreeSet::new(),
            left_out: BTreeSet::new(),
            circuits_with_air: BTreeSet::new(),
            circuits_let_in_air: opened.clone(),
            circuits: Vec::new(),
        };
        for (id, circuit) in network.circuits() {
            let is_dry = request.dry_circuits.contains(&id);
            let (is_bled, why) = if purpose == Purpose::Fill {
                (true, "filled from empty")
            } else if opened.contains(&id) {
                (true, "opened")
            } else if is_dry {
                (true, "reservoir ran dry")
            } else if purpose == Purpose::Renew {
                (true, "fluid renewed")
            } else if is_spongy {
                (true, "place of the air unknown")
            } else if asked.contains(&id) {
                (true, "named in the order given")
            } else {
                (
                    false,
                    "hydraulically separate, was not opened and did not run dry: its screws stay shut",
                )
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
                .filter(|screw| is_bled && is_opened_for_bleeding(request, *screw))
                .filter(|screw| {
                    !only_asked || request.order.iter().flatten().any(|asked| asked == screw)
                })
                .collect();
            scope.circuits.push(CircuitScope {
                circuit: circuit.name.clone(),
                is_bled: is_bled && !bled.is_empty(),
                why: if is_bled && circuit.screws.is_empty() {
                    "it has no bleed screw".to_owned()
                } else {
                    why.to_owned()
                },
            });
            scope.screws.extend(bled);
        }
        scope.circuits.sort_by(|a, b| a.circuit.cmp(&b.circuit));
        scope.leave_out_skipped(request, findings);
        scope
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

/// Of several screws on one cavity only the top one is opened, unless the
/// order asks for another.
fn is_opened_for_bleeding(request: &Request<'_>, screw: ScrewId) -> bool {
    let network = request.network;
    let cell = network.screw_place(screw).cell;
    let is_asked = |order: &Option<Vec<ScrewId>>| order.iter().flatten().any(|s| *s == screw);
    network.top_screw(network.screws_on(cell)) == Some(screw)
        || is_asked(&request.order)
        || is_asked(&request.maker_order)
}
