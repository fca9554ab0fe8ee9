//! The tables under the drawing: screws in the order of the plan, and all lines.

use super::arrange::Arrangement;
use super::figure;
use super::measure::{LETTER, LINE};
use super::told::{Told, Words};
use crate::ink::{Ink, Stroke, stroke_of};
use crate::picture::{Anchor, Circle, Group, Mark, Path, Point, Text};
use bleedwright_network::{CircuitId, LineKind, Network};
use bleedwright_planner::Plan;
use uom::si::volume::milliliter;

/// Height of a row.
const ROW: f64 = 3.75;
/// From one half of the table of lines to the next.
const BLOCK: f64 = 93.5;
/// Where the texts of a row of lines begin, and where the last one ends.
const COLUMNS: [f64; 4] = [11.0, 44.0, 68.0, 92.4];
/// From one screw to the next in a row.
const SCREWS: f64 = 46.5;

/// The table of lines; gives its lower edge.
pub(super) fn lines(arrangement: &Arrangement<'_>, corner: Point, width: f64) -> (Mark, f64) {
    let network = arrangement.network;
    let layout = network.layout();
    let count = arrangement.wires.len();
    let blocks = (((width + 2.0) / BLOCK).floor().max(1.0) as usize).min(count.div_ceil(4).max(1));
    let rows = count.div_ceil(blocks).max(1);
    let mut guessed = vec![(false, false); layout.lines.len()];
    for guess in &layout.guesses {
        if let Some(("lines", line)) = guess.item() {
            guessed[line].0 |= guess.field() == "length";
            guessed[line].1 = true;
        }
    }
    let mut marks = Vec::new();
    for (nth, wire) in arrangement.wires.iter().enumerate() {
        let (block, row) = (nth / rows, nth % rows);
        let head = corner.moved(block as f64 * BLOCK, 0.0);
        if row == 0 {
            marks.extend(heading(head));
        }
        let at = head.moved(0.0, ROW * (row + 1) as f64 + 1.4);
        let line = &layout.lines[wire.line];
        let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
        let mark = |is_guessed: bool| if is_guessed { " ?" } else { "" };
        let figures = if matches!(line.kind, LineKind::Direct) {
            ["screwed in".to_owned(), String::new()]
        } else {
            let (is_length_guessed, is_guessed) = guessed[wire.line];
            [
                figure::length(line.length()) + mark(is_length_guessed),
                figure::printed_volume(line.contents()) + mark(is_guessed),
            ]
        };
        let stroke = stroke_of(circuit, LINE);
        let number =
            Text::new(at.moved(4.6, 0.0), LETTER, &(nth + 1).to_string()).anchored(Anchor::End);
        let mut parts: Vec<Mark> = vec![
            number.inked(stroke.ink).within(4.6).into(),
            Path::line(&[at.moved(5.3, -0.9), at.moved(10.0, -0.9)], stroke).into(),
        ];
        let texts = [line.id.as_str(), &figures[0], &figures[1]];
        for (text, ends) in texts.into_iter().zip(COLUMNS.windows(2)) {
            let text = Text::new(at.moved(ends[0], 0.0), LETTER, text);
            parts.push(text.within(ends[1] - ends[0] - 1.0).into());
        }
        let row = Group::new("row", parts).named(&line.id).of(circuit);
        marks.push(row.into());
    }
    let group = Group::new("key", marks);
    (group.into(), corner.y + ROW * (rows + 1) as f64)
}

fn heading(corner: Point) -> Vec<Mark> {
    let texts = ["Line", "Length", "Holds"];
    let mut marks: Vec<Mark> = texts
        .into_iter()
        .zip(COLUMNS)
        .map(|(text, x)| Text::new(corner.moved(x, 0.0), LETTER, text).bold().into())
        .collect();
    let rule = [corner.moved(0.0, 1.2), corner.moved(COLUMNS[3] - 1.0, 1.2)];
    marks.push(Path::line(&rule, Stroke::solid(Ink::BLACK, 0.25)).into());
    marks
}

/// The screws in the order of the plan, with what is pushed through each; gives the lower edge.
pub(super) fn steps(
    network: &Network,
    plan: &Plan,
    corner: Point,
    width: f64,
    words: Words,
) -> (Mark, f64) {
    let across = ((width + 2.0) / SCREWS).floor().max(1.0) as usize;
    let screws: Vec<_> = plan
        .steps
        .iter()
        .flat_map(|step| step.screws.iter().map(move |screw| (step.number, screw)))
        .collect();
    let mut marks = Vec::new();
    for (nth, (number, screw)) in screws.iter().enumerate() {
        let (row, column) = (nth / across, nth % across);
        let at = corner.moved(SCREWS * column as f64, 6.8 + 7.6 * row as f64);
        let circuit = network.screw_place(screw.id).circuit.map(CircuitId::index);
        let centre = at.moved(2.4, 0.4);
        let text = Text::new(centre.moved(0.0, 0.95), LETTER, &number.to_string());
        let name = Text::new(at.moved(6.2, -0.2), LETTER, &screw.screw).within(SCREWS - 8.0);
        let push = format!("push {:.0} ml", screw.push.nominal.get::<milliliter>());
        let push = Text::new(at.moved(6.2, 3.1), LETTER, &push)
            .inked(Ink::GREY)
            .within(SCREWS - 8.0);
        let text = text.anchored(Anchor::Middle).bold().inked(Ink::WHITE);
        let circle = Circle::filled(centre, 2.4, Ink::BLACK);
        let parts = vec![circle.into(), text.into(), name.into(), push.into()];
        let row = Group::new("row", parts).named(&screw.screw).of(circuit);
        marks.push(row.into());
    }
    let rows = screws.len().div_ceil(across);
    let title = Text::new(corner, LETTER, &words(Told::ScrewsInOrder)).bold();
    marks.push(title.into());
    let rule = [
        corner.moved(0.0, 1.2),
        corner.moved(BLOCK + COLUMNS[3] - 1.0, 1.2),
    ];
    marks.push(Path::line(&rule, Stroke::solid(Ink::BLACK, 0.25)).into());
    let group = Group::new("steps", marks);
    (group.into(), corner.y + 3.0 + 7.6 * rows as f64)
}
