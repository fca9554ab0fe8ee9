//! Figures of lines and circuits, with what their tolerances allow.

use bleedwright_network::{Bounds, CircuitId, Element, Line, LineKind, Network};
use uom::si::f64::{Length, Volume};
use uom::si::length::{meter, millimeter};
use uom::si::volume::milliliter;

/// `1.60 m ± 0.05`.
pub(super) fn length(bounds: Bounds<Length>) -> String {
    let [low, nominal, high] =
        [bounds.low, bounds.nominal, bounds.high].map(|length| length.get::<meter>());
    let (below, above) = (nominal - low, high - nominal);
    if below.max(above) < 0.0005 {
        format!("{nominal:.2} m")
    } else if (below - above).abs() < 0.001 {
        let decimals = if above < 0.0095 { 3 } else { 2 };
        format!("{nominal:.2} m ± {above:.decimals$}")
    } else {
        format!("{nominal:.2} m ({low:.2}-{high:.2})")
    }
}

/// `12 ml (9.1-15)`: two figures, which is what bores allow.
pub fn printed_volume(bounds: Bounds<Volume>) -> String {
    let [low, nominal, high] =
        [bounds.low, bounds.nominal, bounds.high].map(|volume| ml(volume.get::<milliliter>()));
    if low == high {
        format!("{nominal} ml")
    } else {
        format!("{nominal} ml ({low}-{high})")
    }
}

fn ml(value: f64) -> String {
    if value < 9.95 {
        format!("{value:.1}")
    } else if value < 99.5 {
        format!("{value:.0}")
    } else {
        format!("{:.0}", (value / 10.0).round() * 10.0)
    }
}

/// What a line is: `pipe 3.3 mm` is the bore.
pub(super) fn kind(line: &Line) -> String {
    let (word, bore) = match &line.kind {
        LineKind::Pipe { bore, .. } => ("pipe", bore),
        LineKind::Hose { bore, .. } => ("hose", bore),
        LineKind::Direct => return "screwed in".to_owned(),
    };
    let mark = if bore.is_assumed() { " *" } else { "" };
    format!(
        "{word} {:.1} mm{mark}",
        bore.bounds.nominal.get::<millimeter>()
    )
}

/// Everything that a circuit holds from its chamber on.
pub(super) fn circuit_contents(network: &Network, circuit: CircuitId) -> Bounds<Volume> {
    let cells = network.cells_of(circuit);
    let lines = cells
        .iter()
        .filter_map(|cell| network.step_to(*cell))
        .map(|(_, link)| Element::Link(link));
    let cells = cells.iter().map(|cell| Element::Cell(*cell));
    let rings = network
        .loop_links(circuit)
        .iter()
        .map(|link| Element::Link(*link));
    let tree: std::collections::BTreeSet<_> = network
        .cells_of(circuit)
        .iter()
        .filter_map(|cell| network.step_to(*cell))
        .map(|(_, link)| link)
        .collect();
    let rings =
        rings.filter(|element| !matches!(element, Element::Link(link) if tree.contains(link)));
    cells
        .chain(lines)
        .chain(rings)
        .map(|element| network.contents(element))
        .sum()
}
