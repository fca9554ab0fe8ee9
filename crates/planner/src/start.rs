//! The state of the pipework when a job begins.

use crate::drained::Drained;
use crate::joint::Joints;
use crate::options::{Options, Purpose};
use crate::request::Request;
use bleedwright_network::{CellId, CircuitId, Element, LinkId, Network};

/// Everything that is taken for empty when the job begins, circuit by circuit.
///
/// A cylinder that the plan has bled on the bench is full. Names in the options
/// that the layout does not have are passed over: planning reports them.
pub fn empty_at_start(network: &Network, options: &Options) -> Vec<(CircuitId, Element)> {
    let request = Request::new(network, options, &mut Vec::new());
    let drained = Drained::new(&request);
    let on_bench = request.opened_cylinders();
    let is_bench_bled =
        |cylinder| options.purpose() == Purpose::Fill || on_bench.contains(&cylinder);
    // A spongy pedal: nobody knows where the air is, so it is taken to be where
    // it gathers, in the brakes.
    let is_spongy = options.purpose() == Purpose::Air
        && request.opened.is_empty()
        && request.drained.is_empty()
        && request.dry_circuits.is_empty();
    let mut empty = Vec::new();
    for (id, circuit) in network.circuits() {
        for cell in network.cells_of(id) {
            let above = network.step_to(*cell).map(|(_, link)| Element::Link(link));
            for element in above.into_iter().chain([Element::Cell(*cell)]) {
                let is_full =
                    element == Element::Cell(circuit.chamber) && is_bench_bled(circuit.cylinder);
                let may_hold_air = !is_spongy || network.is_cavity(element);
                if drained.is_taken_for_empty(id, element) && may_hold_air && !is_full {
                    empty.push((id, element));
                }
            }
        }
    }
    empty
}

/// The joints that are open when the job begins, each by its line and the cell
/// that this end of it is at, sorted: air sits there whatever else stayed full.
///
/// Names in the options that the layout does not have are passed over: planning
/// reports them.
pub fn opened_joints(network: &Network, options: &Options) -> Vec<(LinkId, CellId)> {
    Joints::new(&Request::new(network, options, &mut Vec::new())).all()
}
