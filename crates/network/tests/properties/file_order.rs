//! The order in which parts and lines are written down means nothing.

use crate::{config, layouts};
use bleedwright_network::{Code, Loaded, Locator, Network, PathStep, Place, load};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::ops::Range;
use uom::si::length::micrometer;

/// The bytes of every item of a list.
fn items(text: &str, list: &'static str) -> Vec<Range<usize>> {
    let locator = Locator::new(text);
    let whole = locator.find(&Place::Path(vec![PathStep::Field(list)]));
    (0..)
        .map_while(|index| locator.find(&Place::item(list, index)))
        // Behind its last item the list itself is the nearest thing found.
        .take_while(|item| Some(item) != whole.as_ref())
        .collect()
}

/// The text with the items of a list put in the order of the keys.
fn shuffled(text: &str, list: &'static str, keys: &[u16]) -> String {
    let items = items(text, list);
    let mut order: Vec<usize> = (0..items.len()).collect();
    order.sort_by_key(|index| (keys.get(*index).copied(), *index));
    let mut shuffled = String::with_capacity(text.len());
    let mut read_to = 0;
    for (slot, taken) in items.iter().zip(order) {
        shuffled.push_str(&text[read_to..slot.start]);
        shuffled.push_str(&text[items[taken].clone()]);
        read_to = slot.end;
    }
    shuffled.push_str(&text[read_to..]);
    shuffled
}

/// What the pipework says, by names and without any order of the file.
#[derive(Debug, PartialEq)]
struct Account {
    split: &'static str,
    circuits: BTreeMap<String, CircuitAccount>,
    /// Elements and length in whole micrometres of each screw's run.
    runs: BTreeMap<String, (Vec<String>, i64)>,
}

#[derive(Debug, PartialEq)]
struct CircuitAccount {
    wheels: Vec<&'static str>,
    compartment: Option<String>,
    screws: Vec<String>,
}

fn account(network: &Network) -> Account {
    let layout = network.layout();
    let screw_name = |id| network.screw(id).id.clone();
    let circuits = network.circuits().map(|(_, circuit)| {
        let wheels = circuit.wheels.iter().map(|wheel| wheel.word()).collect();
        let compartment = circuit
            .compartment
            .map(|(r, c)| layout.reservoirs[r].compartments[c].id.clone());
        let mut screws: Vec<String> = circuit.screws.iter().copied().map(screw_name).collect();
        screws.sort();
        let account = CircuitAccount {
            wheels,
            compartment,
            screws,
        };
        (circuit.name.clone(), account)
    });
    let runs = network.screws().map(|(id, _)| {
        let run = network.run(id);
        let names = run.into_iter().map(|element| network.element_name(element));
        let length = network.run_length(id).nominal.get::<micrometer>();
        (screw_name(id), (names.collect(), length.round() as i64))
    });
    Account {
        split: network.split().word(),
        circuits: circuits.collect(),
        runs: runs.collect(),
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn circuits_runs_and_split_do_not_depend_on_it(
        layout in layouts(),
        part_keys in prop::collection::vec(any::<u16>(), 40),
        line_keys in prop::collection::vec(any::<u16>(), 40),
    ) {
        let text = shuffled(&shuffled(layout, "parts", &part_keys), "lines", &line_keys);
        let as_written = load(layout.as_bytes());
        let as_shuffled = load(text.as_bytes());
        let (Some(written), Some(shuffled)) =
            (as_written.sound_network(), as_shuffled.sound_network())
        else {
            return Err(TestCaseError::fail(format!("{:#?}", as_shuffled.findings)));
        };
        prop_assert!(account(written).runs.len() > 1);
        prop_assert_eq!(account(written), account(shuffled));
        let codes = |loaded: &Loaded| {
            let mut codes: Vec<Code> = loaded.findings.iter().map(|found| found.code).collect();
            codes.sort_unstable();
            codes
        };
        prop_assert_eq!(codes(&as_written), codes(&as_shuffled));
    }
}

#[test]
fn shuffling_moves_items_and_nothing_else() {
    let text = "(parts: [(id: \"a\"), /* x */ (id: \"b\"), (id: \"c\")], name: \"n\")";
    assert_eq!(
        shuffled(text, "parts", &[2, 1, 0]),
        "(parts: [(id: \"c\"), /* x */ (id: \"b\"), (id: \"a\")], name: \"n\")"
    );
}
