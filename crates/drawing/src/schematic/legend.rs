//! What inks, patterns and signs mean.

use super::figure;
use super::measure::{LEADING, LETTER, LINE};
use super::route::Route;
use crate::ink::{Ink, Stroke, circuit_stroke, stroke_of};
use crate::picture::{Anchor, Group, Mark, Path, Point, Text};
use bleedwright_network::{CircuitId, LineKind, LinkKind, Network, Purpose};

/// The line before the name of a circuit, with a gap.
const SAMPLE: f64 = 18.0;
/// Height of one circuit in the legend.
const CIRCUIT: f64 = 2.0 * LEADING + 1.6;

/// What a circuit feeds and holds.
fn about(network: &Network, id: CircuitId) -> String {
    let circuit = network.circuit(id);
    let wheels: Vec<&str> = circuit.wheels.iter().map(|wheel| wheel.text()).collect();
    let feeds = match (circuit.purpose, wheels.is_empty()) {
        (Purpose::Clutch, _) => "clutch".to_owned(),
        (_, true) => "no wheel brake".to_owned(),
        _ => wheels.join(", "),
    };
    let holds = figure::volume(figure::circuit_contents(network, id));
    format!("{feeds}; holds {holds}")
}

/// The circuits below each other; gives their height too.
pub(super) fn circuits(network: &Network, corner: Point, width: f64) -> (Mark, f64) {
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
            &about(network, id),
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
pub(super) fn signs(network: &Network, has_tables: bool, corner: Point, width: f64) -> (Mark, f64) {
    // Only the tables mark what was guessed.
    let guesses = if has_tables {
        network.layout().guesses.len()
    } else {
        0
    };
    let has_crossover = network
        .all_links()
        .any(|(_, link)| matches!(link.kind, LinkKind::Crossover(_)));
    let mut sentences = vec!["Seen from above, front up; not to scale.".to_owned()];
    if has_tables {
        sentences.push("Framed numbers: lines of the table.".to_owned());
    }
    sentences.extend([
        "Wavy or on a pale band: hose.".to_owned(),
        "Lines meet at dots, rings (unions) and boxes only; elsewhere they cross.".to_owned(),
    ]);
    if network
        .layout()
        .lines
        .iter()
        .any(|line| matches!(line.kind, LineKind::Direct))
    {
        sentences.push("In a case: screwed straight in.".to_owned());
    }
    sentences.push("Full circle: screw with its step.".to_owned());
    sentences.push("Hollow circle: stays shut.".to_owned());
    if has_crossover {
        sentences.push(
            "A line beside the disc is the drilling between two halves of a caliper.".to_owned(),
        );
    }
    for bar in &network.layout().balance_bars {
        sentences.push(format!(
            "One pedal, with a balance bar, for {}.",
            bar.cylinders.join(" and ")
        ));
    }
    match guesses {
        0 => {}
        1 => sentences.push("? One value of the layout is a guess.".to_owned()),
        count => sentences.push(format!("? {count} values of the layout are guesses.")),
    }
    sentences.push("The maker's manual governs.".to_owned());
    sentences.push(
        "Brakes are worked on or checked by a competent, where required licensed, person."
            .to_owned(),
    );
    sentences.push("Look for leaks afterwards.".to_owned());
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
