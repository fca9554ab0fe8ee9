//! The network crate against networkx: shortest ways, dominators and contents
//! of layouts drawn from seeds.
//!
//! `reference/network/generate.py` draws the layouts, keeps a graph of its own
//! and asks networkx about it; `reference/regenerate.sh` says whether the
//! committed values are still what it gives. A few of its layouts, which show
//! each thing that they are drawn for, are committed.

use crate::reference;
use bleedwright_network::{
    Bounds, CellId, Code, Element, Loaded, Network, ScrewId, Severity, load,
};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Debug;
use std::sync::LazyLock;
use uom::si::f64::{Length, Volume};
use uom::si::length::meter;
use uom::si::volume::milliliter;

/// How many of generate.py's 66 cases are committed.
const FEW: usize = 5;

/// Low, nominal and high.
type Corners = [f64; 3];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    /// The layout file, line by line.
    layout: Vec<String>,
    /// By the name of the chamber's cell.
    circuits: BTreeMap<String, CircuitCase>,
    screws: BTreeMap<String, ScrewCase>,
    /// The cells that a chamber reaches.
    cells: BTreeMap<String, CellCase>,
    unreached: BTreeSet<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CircuitCase {
    label: Option<String>,
    cells: usize,
    links: usize,
    loops: usize,
    contents_ml: Corners,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ScrewCase {
    cell: String,
    run: Vec<String>,
    length_m: Corners,
    contents_ml: Corners,
    /// From the chamber to the cell before the screw's.
    dominators: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CellCase {
    chamber: String,
    dominator: Option<String>,
    screws_behind: u32,
}

/// Collects every difference, so that one run shows them all.
#[derive(Default)]
struct Differences {
    found: Vec<String>,
}

impl Differences {
    fn same<T: PartialEq + Debug>(&mut self, what: impl Fn() -> String, ours: &T, theirs: &T) {
        if ours != theirs {
            self.found
                .push(format!("{}: {ours:?}, networkx {theirs:?}", what()));
        }
    }

    /// Corners that agree to a thousand-millionth: the reference is printed to
    /// fifteen digits, and sums of a hundred doubles lose three of theirs.
    fn near(&mut self, what: impl Fn() -> String, ours: Corners, theirs: Corners) {
        let is_near = |(ours, theirs): (&f64, &f64)| (ours - theirs).abs() <= 1e-9 * theirs.abs();
        if !ours.iter().zip(&theirs).all(is_near) {
            self.found
                .push(format!("{}: {ours:?}, reference {theirs:?}", what()));
        }
    }

    fn assert_none(self) {
        assert!(
            self.found.is_empty(),
            "{} differences:\n{}",
            self.found.len(),
            self.found.join("\n")
        );
    }
}

/// Every case with what loading its layout gave, loaded once for all tests.
static LOADED: LazyLock<Vec<(Case, Loaded)>> = LazyLock::new(|| {
    let reference = reference::cases("network/cases.json");
    let cases: Vec<Case> = serde_json::from_str(&reference.json)
        .expect("generate.py writes what these structures hold");
    let expected = if reference.is_long { 66 } else { FEW };
    assert_eq!(
        cases.len(),
        expected,
        "the number of cases generate.py writes"
    );
    cases
        .into_iter()
        .map(|case| {
            let loaded = load(case.layout.join("\n").as_bytes());
            (case, loaded)
        })
        .collect()
});

/// Hands every case on; one that could not be loaded fails the test.
fn with_every_case(compare: impl Fn(&Case, &Loaded, &Network, &mut Differences)) {
    let mut differences = Differences::default();
    for (case, loaded) in LOADED.iter() {
        match &loaded.network {
            Some(network) => compare(case, loaded, network, &mut differences),
            None => differences
                .found
                .push(format!("{}: not read: {:?}", case.name, loaded.findings)),
        }
    }
    differences.assert_none();
}

fn metres(length: Bounds<Length>) -> Corners {
    [length.low, length.nominal, length.high].map(|length| length.get::<meter>())
}

fn millilitres(volume: Bounds<Volume>) -> Corners {
    [volume.low, volume.nominal, volume.high].map(|volume| volume.get::<milliliter>())
}

fn names(network: &Network, cells: impl IntoIterator<Item = CellId>) -> Vec<String> {
    cells
        .into_iter()
        .map(|cell| network.cell_name(cell))
        .collect()
}

fn run_names(network: &Network, run: &[Element]) -> Vec<String> {
    run.iter()
        .map(|element| network.element_name(*element))
        .collect()
}

fn contents(network: &Network, elements: impl IntoIterator<Item = Element>) -> Corners {
    millilitres(
        elements
            .into_iter()
            .map(|element| network.contents(element))
            .sum(),
    )
}

/// The names between the first pair of backticks of each message.
fn names_found(loaded: &Loaded, code: Code) -> Vec<String> {
    loaded
        .findings
        .iter()
        .filter(|finding| finding.code == code)
        .map(|finding| {
            let name = finding.message.split('`').nth(1);
            name.unwrap_or(finding.message.as_str()).to_owned()
        })
        .collect()
}

#[test]
fn layouts_load_and_only_islands_are_errors() {
    with_every_case(|case, loaded, _, differences| {
        let name = &case.name;
        let other_errors: Vec<String> = loaded
            .findings
            .iter()
            .filter(|finding| finding.severity == Severity::Error)
            .filter(|finding| finding.code != Code::Unreached)
            .map(|finding| format!("{} {}", finding.code.text(), finding.message))
            .collect();
        differences.same(
            || format!("{name}: other errors"),
            &other_errors,
            &Vec::new(),
        );
        let mut unreached = names_found(loaded, Code::Unreached);
        unreached.sort();
        let theirs: Vec<String> = case.unreached.iter().cloned().collect();
        differences.same(
            || format!("{name}: cells of BW205 findings"),
            &unreached,
            &theirs,
        );
        differences.same(
            || format!("{name}: may be planned"),
            &loaded.sound_network().is_some(),
            &case.unreached.is_empty(),
        );
        let loops = names_found(loaded, Code::Loop).len();
        let theirs: usize = case.circuits.values().map(|circuit| circuit.loops).sum();
        differences.same(|| format!("{name}: loops"), &loops, &theirs);
    });
    assert_eq!(Code::Unreached.text(), "BW205");
}

#[test]
fn circuits_hold_the_same_cells_and_fluid() {
    with_every_case(|case, _, network, differences| {
        let name = &case.name;
        let mut seen = BTreeSet::new();
        for (id, circuit) in network.circuits() {
            let chamber = network.cell_name(circuit.chamber);
            let what = |detail: &str| format!("{name}: circuit of {chamber}: {detail}");
            let Some(theirs) = case.circuits.get(&chamber) else {
                differences.found.push(what("not in the reference"));
                continue;
            };
            let links: Vec<_> = network
                .all_links()
                .map(|(link, _)| link)
                .filter(|link| network.circuit_of_link(*link) == Some(id))
                .collect();
            differences.same(|| what("links"), &links.len(), &theirs.links);
            let cells = network.cells_of(id);
            differences.same(|| what("cells"), &cells.len(), &theirs.cells);
            if let Some(label) = &theirs.label {
                differences.same(|| what("name"), &circuit.name, label);
            }
            let elements = cells
                .iter()
                .map(|cell| Element::Cell(*cell))
                .chain(links.into_iter().map(Element::Link));
            differences.near(
                || what("contents in ml"),
                contents(network, elements),
                theirs.contents_ml,
            );
            seen.insert(chamber);
        }
        let theirs: BTreeSet<String> = case.circuits.keys().cloned().collect();
        differences.same(|| format!("{name}: chambers"), &seen, &theirs);
    });
}

#[test]
fn runs_are_the_shortest_ways() {
    with_every_case(|case, _, network, differences| {
        let name = &case.name;
        differences.same(
            || format!("{name}: number of screws"),
            &network.screws().count(),
            &case.screws.len(),
        );
        for (screw, theirs) in &case.screws {
            match network.find_screw(screw) {
                Some(id) => compare_run(case, network, screw, id, theirs, differences),
                None => differences.found.push(format!("{name}: no screw {screw}")),
            }
        }
    });
}

fn compare_run(
    case: &Case,
    network: &Network,
    screw: &str,
    id: ScrewId,
    theirs: &ScrewCase,
    differences: &mut Differences,
) {
    let what = |detail: &str| format!("{}: {screw}: {detail}", case.name);
    let place = network.screw_place(id);
    let cell = network.cell_name(place.cell);
    differences.same(|| what("cell"), &cell, &theirs.cell);
    let chamber = place
        .circuit
        .map(|circuit| network.cell_name(network.circuit(circuit).chamber));
    let their_chamber = case.cells.get(&theirs.cell).map(|cell| &cell.chamber);
    differences.same(|| what("chamber"), &chamber.as_ref(), &their_chamber);

    let run = network.run(id);
    differences.same(|| what("run"), &run_names(network, &run), &theirs.run);
    let way = network.way_to(place.cell);
    differences.same(
        || what("way to its cell"),
        &run_names(network, &way),
        &theirs.run,
    );
    differences.near(
        || what("length in m"),
        metres(network.run_length(id)),
        theirs.length_m,
    );
    differences.near(
        || what("contents in ml"),
        contents(network, run),
        theirs.contents_ml,
    );

    let immediate = network.immediate_dominators();
    let mut dominators = Vec::new();
    let mut here = place.cell;
    while let Some(above) = immediate[here.index()] {
        dominators.push(above);
        here = above;
    }
    dominators.reverse();
    differences.same(
        || what("dominators"),
        &names(network, dominators),
        &theirs.dominators,
    );
}

#[test]
fn cells_have_the_same_dominators() {
    with_every_case(|case, _, network, differences| {
        let name = &case.name;
        let immediate = network.immediate_dominators();
        let mut unreached = BTreeSet::new();
        let mut reached = 0;
        for (id, _) in network.all_cells() {
            let cell = network.cell_name(id);
            let what = |detail: &str| format!("{name}: {cell}: {detail}");
            let dominator = |id: Option<CellId>| id.map(|id| network.cell_name(id));
            let found = dominator(immediate[id.index()]);
            let Some(theirs) = case.cells.get(&cell) else {
                differences.same(|| what("circuit"), &network.circuit_of_cell(id), &None);
                differences.same(|| what("dominator"), &found, &None);
                differences.same(
                    || what("way"),
                    &run_names(network, &network.way_to(id)),
                    &Vec::new(),
                );
                unreached.insert(cell);
                continue;
            };
            reached += 1;
            let chamber = network
                .circuit_of_cell(id)
                .map(|circuit| network.cell_name(network.circuit(circuit).chamber));
            differences.same(
                || what("chamber"),
                &chamber.as_deref(),
                &Some(theirs.chamber.as_str()),
            );
            differences.same(|| what("dominator"), &found, &theirs.dominator);
            differences.same(
                || what("screws behind it"),
                &network.screws_behind(Element::Cell(id)),
                &theirs.screws_behind,
            );
        }
        differences.same(
            || format!("{name}: unreached cells"),
            &unreached,
            &case.unreached,
        );
        differences.same(
            || format!("{name}: reached cells"),
            &reached,
            &case.cells.len(),
        );
    });
}
