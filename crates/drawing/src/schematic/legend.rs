//! What inks, patterns and signs mean.

use super::figure;
use super::measure::{LEADING, LETTER, LINE};
use super::route::Route;
use super::told::{Told, Words};
use crate::ink::{Ink, Stroke, circuit_stroke, stroke_of};
use crate::picture::{Anchor, Group, Mark, Path, Point, Text};
use bleedwright_network::{CircuitId, Line, LineKind, LinkKind, Network};

/// The line before the name of a circuit, with a gap.
const SAMPLE: f64 = 18.0;
/// Height of one circuit in the legend.
const CIRCUIT: f64 = 2.0 * LEADING + 1.6;

/// What a circuit feeds and holds.
fn about(network: &Network, id: CircuitId, words: Words) -> String {
    let circuit = network.circuit(id);
    words(Told::Circuit {
        purpose: circuit.purpose,
        wheels: &circuit.wheels,
        holds: figure::circuit_contents(network, id),
    })
}

/// The circuits below each other; gives their height too.
pub(super) fn circuits(network: &Network, corner: Point, width: f64, words: Words) -> (Mark, f64) {
    let mut marks = Vec::new();
    let mut y = corner.y;
    for (id, circuit) in network.circuits() {
        let sample = [
            Point::new(corner.x, y + 2.2),
            Point::new(corner.x + 15.0, y + 2.2),
        ];
        let stroke = circuit_stroke(id.index(), LINE * 1.3);
        let x = corner.x + SAMPLE;
        let name = Text::new(Point::new(x, y + 3.0), LETTER + 0.2, &circuit.name)
            .bold()
            .within(width - SAMPLE);
        let about = Text::new(
            Point::new(x, y + 3.0 + LEADING + 0.2),
            LETTER,
            &about(network, id, words),
        );
        let parts = vec![
            Path::line(&sample, stroke).into(),
            name.inked(stroke.ink).into(),
            about.within(width - SAMPLE).into(),
        ];
        let legend = Group::new("legend", parts).named(&circuit.name);
        marks.push(legend.of(Some(id.index())).into());
        y += CIRCUIT;
    }
    let group = Group::new("legends", marks);
    (group.into(), y - corner.y)
}

/// The number of a line in its frame, on the line.
pub(super) fn tag(name: &str, circuit: Option<usize>, number: usize, route: &Route) -> Mark {
    let at = route.tag;
    let text = number.to_string();
    let half = half_tag(&text);
    let ink = stroke_of(circuit, 1.0).ink;
    let frame = Path::rectangle(
        at.moved(-half, -1.8),
        2.0 * half,
        3.6,
        Some(Ink::WHITE),
        Some(Stroke::solid(ink, 0.22)),
    );
    let text = Text::new(at.moved(0.0, 0.95), LETTER, &text)
        .anchored(Anchor::Middle)
        .inked(ink);
    Group::new("tag", vec![frame.into(), text.into()])
        .named(name)
        .of(circuit)
        .into()
}

pub(super) fn half_tag(text: &str) -> f64 {
    Text::new(Point::default(), LETTER, text).width_mm() / 2.0 + 0.7
}

/// How to read it; gives the lower edge.
pub(super) fn signs(
    network: &Network,
    has_tables: bool,
    corner: Point,
    width: f64,
    words: Words,
) -> (Mark, f64) {
    let layout = network.layout();
    // Only the tables mark what was guessed.
    let guesses = Some(layout.guesses.len()).filter(|count| has_tables && *count > 0);
    let is_direct = |line: &Line| matches!(line.kind, LineKind::Direct);
    let has_crossover = network
        .all_links()
        .any(|(_, link)| matches!(link.kind, LinkKind::Crossover(_)));
    let bars = layout.balance_bars.iter();
    let sentences = [
        Some(Told::FromAbove),
        has_tables.then_some(Told::FramedNumbers),
        Some(Told::Hoses),
        Some(Told::Crossings),
        layout.lines.iter().any(is_direct).then_some(Told::Direct),
        Some(Told::Steps),
        Some(Told::StaysShut),
        has_crossover.then_some(Told::Drillings),
    ]
    .into_iter()
    .flatten()
    .chain(bars.map(|bar| Told::BalanceBar(&bar.cylinders)))
    .chain(guesses.map(Told::Guesses))
    .chain([Told::ManualGoverns, Told::Competent, Told::Leaks])
    .map(words);
    let mut marks = Vec::new();
    let mut y = corner.y;
    let mut line = String::new();
    let mut flush = |line: &mut String, y: &mut f64| {
        if !line.is_empty() {
            marks.push(
                Text::new(Point::new(corner.x, *y), LETTER, line)
                    .inked(Ink::GREY)
                    .within(width)
                    .into(),
            );
            line.clear();
            *y += LEADING + 0.3;
        }
    };
    for sentence in sentences {
        let longer = if line.is_empty() {
            sentence.clone()
        } else {
            format!("{line} {sentence}")
        };
        if Text::new(Point::default(), LETTER, &longer).width_mm() > width {
            flush(&mut line, &mut y);
            line = sentence;
        } else {
            line = longer;
        }
    }
    flush(&mut line, &mut y);
    let group = Group::new("signs", marks);
    (group.into(), y)
}
