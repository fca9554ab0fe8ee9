//! Air let into both circuits of one cylinder.

use super::{LITTLE, outcome};
use crate::demo::{ALL, load_demo};
use bleedwright_planner::{Options, plan};
use uom::si::ratio::ratio;

/// Air in both circuits of a tandem cylinder: what stands in the primary takes the secondary piston's strokes, so that
/// the primary goes first, and the plan's own strokes are enough. A part that both circuits pass, and the pipe at each
/// chamber of the cylinder.
#[test]
fn opening_both_circuits_leaves_little_air() {
    let mut tried = 0;
    for name in ALL {
        let network = &load_demo(name);
        // A maker's order goes before this rule; the jar, and not the count, ends its steps.
        if network.layout().maker_order.is_some() {
            continue;
        }
        let circuits_of_part = |part: usize| {
            let cells = network.cells_of_part(part);
            let mut circuits: Vec<_> = cells
                .filter_map(|cell| network.circuit_of_cell(cell))
                .collect();
            circuits.sort_unstable();
            circuits.dedup();
            circuits.len()
        };
        let mut opened: Vec<Vec<String>> = Vec::new();
        for (index, part) in network.layout().parts.iter().enumerate() {
            if circuits_of_part(index) > 1 {
                opened.push(vec![part.id.clone()]);
            }
        }
        if network
            .layout()
            .cylinders
            .iter()
            .any(|it| it.chambers.len() > 1)
        {
            let at_chamber = network.circuits().filter_map(|(_, circuit)| {
                let mut links = network.all_links().map(|(link, _)| link);
                let link = links.find(|link| network.link_ends(*link).contains(&circuit.chamber));
                link.map(|link| network.link_name(link))
            });
            opened.push(at_chamber.take(2).collect());
        }
        for opened in opened {
            let options = Options {
                opened: opened.clone(),
                depressurised: true,
                ..Options::default()
            };
            let plan = plan(network, &options).plan.expect("it can be planned");
            let outcome = outcome(network, &options, &plan);
            let left = outcome.air_left_fraction().get::<ratio>();
            assert!(
                left < LITTLE,
                "{name} {opened:?}: {left}, {:?}",
                outcome.air_left_in
            );
            tried += 1;
        }
    }
    assert!(tried >= 10, "{tried}");
}
