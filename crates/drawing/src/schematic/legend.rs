//! What the inks and patterns mean, and the tables of lines and screws.

use super::arrange::Arrangement;
use super::figure;
use super::measure::{LEADING, LETTER, LINE};
use crate::ink::{Ink, Pattern, Stroke, circuit_stroke};
use crate::picture::{Anchor, Circle, Group, Mark, Path, Point, Text};
use bleedwright_network::{LinkKind, Network, Purpose};
use bleedwright_planner::Plan;
use uom::si::volume::milliliter;

/// Height of one circuit in the legend.
const CIRCUIT: f64 = 2.0 * LEADING + 1.6;
/// Height of a row of a table.
const ROW: f64 = 4.2;

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
        let x = corner.x + 18.0;
        let wheels: Vec<&str> = circuit.wheels.iter().map(|wheel| wheel.text()).collect();
        let feeds = match (circuit.purpose, wheels.is_empty()) {
            (Purpose::Clutch, _) => "clutch".to_owned(),
            (_, true) => "no wheel brake".to_owned(),
            _ => wheels.join(", "),
        };
        let holds = format!(
            "holds {}",
            figure::volume(figure::circuit_contents(network, id))
        );
        let name = Text::new(Point::new(x, y + 3.0), LETTER + 0.2, &circuit.name)
            .bold()
            .within(width - 18.0);
        let about = Text::new(
            Point::new(x, y + 3.0 + LEADING + 0.2),
            LETTER,
            &format!("{feeds}; {holds}"),
        );
        marks.push(Mark::from(Group {
            class: "legend",
            name: circuit.name.clone(),
            circuit: Some(id.index()),
            title: None,
            marks: vec![
                Path::line(&sample, stroke).into(),
                name.inked(stroke.ink).into(),
                about.within(width - 18.0).into(),
            ],
        }));
        y += CIRCUIT;
    }
    let group = Group {
        class: "legends",
        name: String::new(),
        circuit: None,
        title: None,
        marks,
    };
    (group.into(), y - corner.y)
}

/// The number of a line in its frame.
pub(super) fn tag(name: &str, circuit: Option<usize>, number: usize, at: Point) -> Mark {
    let text = number.to_string();
    let half = half_tag(&text);
    let ink = circuit.map_or(Ink::GREY, |circuit| circuit_stroke(circuit, 1.0).ink);
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
    Group {
        class: "tag",
        name: name.to_owned(),
        circuit,
        title: None,
        marks: vec![frame.into(), text.into()],
    }
    .into()
}

fn half_tag(text: &str) -> f64 {
    Text::new(Point::default(), LETTER, text).width_mm() / 2.0 + 0.7
}

/// A table: where its columns begin, and its rows.
struct Table {
    columns: Vec<(f64, &'static str)>,
    width: f64,
}

impl Table {
    fn heading(&self, corner: Point) -> Vec<Mark> {
        let mut marks: Vec<Mark> = Vec::new();
        for (x, text) in &self.columns {
            marks.push(Text::new(corner.moved(*x, 0.0), LETTER, text).bold().into());
        }
        let rule = [corner.moved(0.0, 1.2), corner.moved(self.width, 1.2)];
        marks.push(Path::line(&rule, Stroke::solid(Ink::BLACK, 0.25)).into());
        marks
    }

    /// Texts of a row from its second column on.
    fn row(&self, corner: Point, texts: &[String]) -> Vec<Mark> {
        let ends = self
            .columns
            .iter()
            .skip(2)
            .map(|column| column.0)
            .chain([self.width]);
        let columns = self.columns.iter().skip(1).zip(ends).zip(texts);
        columns
            .map(|(((x, _), end), text)| {
                Text::new(corner.moved(*x, 0.0), LETTER, text)
                    .within(end - x - 1.5)
                    .into()
            })
            .collect()
    }
}

/// The table of lines; gives its lower edge.
pub(super) fn lines(arrangement: &Arrangement<'_>, corner: Point, width: f64) -> (Mark, f64) {
    const NARROW: f64 = 168.0;
    let network = arrangement.network;
    let layout = network.layout();
    let count = arrangement.wires.len();
    let across = ((width / NARROW).floor().max(1.0) as usize).min(count.div_ceil(8).max(1));
    let table = Table {
        columns: vec![
            (0.0, "No."),
            (11.0, "Line"),
            (69.0, "Bore"),
            (96.0, "Length"),
            (133.0, "Holds"),
        ],
        width: NARROW,
    };
    let mut marks = Vec::new();
    let mut guessed = vec![(false, false); layout.lines.len()];
    for guess in &layout.guesses {
        if let Some(("lines", line)) = guess.item() {
            guessed[line].0 |= guess.field() == "length";
            guessed[line].1 = true;
        }
    }
    let rows = count.div_ceil(across);
    for (nth, wire) in arrangement.wires.iter().enumerate() {
        let (column, row) = (nth / rows.max(1), nth % rows.max(1));
        let at = corner.moved(column as f64 * NARROW, ROW * (row + 1) as f64 + 1.6);
        if row == 0 {
            marks.extend(table.heading(corner.moved(column as f64 * NARROW, 0.0)));
        }
        let line = &layout.lines[wire.line];
        let circuit = network
            .circuit_of_link(wire.link)
            .map(bleedwright_network::CircuitId::index);
        let (is_length_guessed, is_guessed) = guessed[wire.line];
        let mark = |is_guessed: bool| if is_guessed { " ?" } else { "" };
        let is_direct = matches!(line.kind, bleedwright_network::LineKind::Direct);
        let texts = [
            line.id.clone(),
            figure::kind(line),
            if is_direct {
                String::new()
            } else {
                figure::length(line.length()) + mark(is_length_guessed)
            },
            if is_direct {
                String::new()
            } else {
                figure::volume(line.contents()) + mark(is_guessed)
            },
        ];
        let stroke = circuit.map_or(Stroke::solid(Ink::GREY, LINE), |circuit| {
            circuit_stroke(circuit, LINE)
        });
        let number =
            Text::new(at.moved(5.0, 0.0), LETTER, &(nth + 1).to_string()).anchored(Anchor::End);
        let mut parts: Vec<Mark> = vec![
            number.inked(stroke.ink).into(),
            Path::line(&[at.moved(5.8, -0.9), at.moved(10.0, -0.9)], stroke).into(),
        ];
        parts.extend(table.row(at, &texts));
        marks.push(Mark::from(Group {
            class: "row",
            name: line.id.clone(),
            circuit,
            title: None,
            marks: parts,
        }));
    }
    let group = Group {
        class: "key",
        name: String::new(),
        circuit: None,
        title: None,
        marks,
    };
    (group.into(), corner.y + ROW * (rows + 1) as f64)
}

/// The screws in the order of the plan; gives the lower edge.
pub(super) fn steps(network: &Network, plan: &Plan, corner: Point) -> (Mark, f64) {
    let table = Table {
        columns: vec![
            (0.0, "Step"),
            (11.0, "Screw"),
            (69.0, "On"),
            (133.0, "Push"),
        ],
        width: 168.0,
    };
    let mut marks = table.heading(corner);
    let mut y = corner.y + 1.6;
    for step in &plan.steps {
        for found in &step.screws {
            y += ROW + 0.8;
            let at = Point::new(corner.x, y);
            let circuit = network
                .screw_place(found.id)
                .circuit
                .map(bleedwright_network::CircuitId::index);
            let push = format!("{:.0} ml", found.push.nominal.get::<milliliter>());
            let texts = [found.screw.clone(), found.part.clone(), push];
            let centre = at.moved(4.0, -0.95);
            let number = Text::new(at.moved(4.0, 0.0), LETTER, &step.number.to_string());
            let mut parts: Vec<Mark> = vec![
                Circle {
                    centre,
                    radius_mm: 2.3,
                    fill: Some(Ink::BLACK),
                    stroke: None,
                }
                .into(),
                number
                    .anchored(Anchor::Middle)
                    .bold()
                    .inked(Ink::WHITE)
                    .into(),
            ];
            parts.extend(table.row(at, &texts));
            marks.push(Mark::from(Group {
                class: "row",
                name: found.screw.clone(),
                circuit,
                title: None,
                marks: parts,
            }));
        }
    }
    let group = Group {
        class: "steps",
        name: String::new(),
        circuit: None,
        title: None,
        marks,
    };
    (group.into(), y + ROW)
}

/// How to read it; gives the lower edge.
pub(super) fn signs(
    network: &Network,
    has_plan: bool,
    has_tables: bool,
    corner: Point,
    width: f64,
) -> (Mark, f64) {
    let guesses = network.layout().guesses.len();
    let has_crossover = network
        .all_links()
        .any(|(_, link)| matches!(link.kind, LinkKind::Crossover(_)));
    let mut sentences = vec!["Seen from above, front up; not to scale.".to_owned()];
    if has_tables {
        sentences.push("A number in a frame is a line of the table.".to_owned());
    }
    sentences.extend([
        "Wavy or on a pale band: hose. Lines are joined at dots and rings (unions) only; others just cross.".to_owned(),
        if has_plan {
            "Full circle: screw with the number of its step. Hollow circle: screw that stays shut.".to_owned()
        } else {
            "Hollow circles are bleed screws.".to_owned()
        },
    ]);
    if has_crossover {
        sentences.push(
            "A line beside the disc is the drilling between two halves of a caliper.".to_owned(),
        );
    }
    if has_tables {
        sentences.push("* bore assumed.".to_owned());
    }
    match guesses {
        _ if !has_tables => {}
        0 => {}
        1 => sentences.push("? One value of the layout is a guess.".to_owned()),
        count => sentences.push(format!("? {count} values of the layout are guesses.")),
    }
    sentences.push("The maker's manual governs.".to_owned());
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
    let group = Group {
        class: "signs",
        name: String::new(),
        circuit: None,
        title: None,
        marks,
    };
    (group.into(), y)
}

/// A line as it runs, hoses wavy where no other line is near.
pub(super) fn sample_of(is_hose: bool, stroke: Stroke) -> Option<Stroke> {
    is_hose.then(|| Stroke {
        ink: stroke.ink.thinned(),
        width_mm: 2.1,
        pattern: Pattern::Solid,
    })
}
