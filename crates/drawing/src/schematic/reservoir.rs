//! Reservoirs above the cylinders, and the way from each compartment to the chambers that it feeds.

use super::label;
use super::measure::{GRID, HALF, LEADING, LETTER, RESERVOIR_HEIGHT};
use super::symbol::rectangle;
use super::told::{Told, Words};
use crate::ink::{Ink, Stroke};
use crate::picture::{Anchor, Group, Mark, Path, Point, Text};
use bleedwright_network::{Compartment, Network};
use uom::si::volume::milliliter;

/// How wide a compartment is at least.
pub(super) const COMPARTMENT: f64 = 24.0;

/// Where a chamber takes its fluid in.
pub(super) struct Intake {
    pub(super) at: Point,
    pub(super) circuit: usize,
    /// The name of its chamber.
    pub(super) name: String,
    pub(super) compartment: Option<(usize, usize)>,
}

struct Box<'n> {
    reservoir: usize,
    compartment: &'n Compartment,
    feeds: Vec<usize>,
    left: f64,
    width: f64,
}

/// Reservoirs whose feeds end at the intakes; gives the marks, the upper edge of it all and its right end.
pub(super) fn reservoirs(
    network: &Network,
    intakes: &[Intake],
    words: Words,
) -> (Vec<Mark>, f64, f64) {
    let mut boxes = boxes(network, intakes);
    let foot = intakes
        .iter()
        .map(|intake| intake.at.y)
        .fold(f64::INFINITY, f64::min);
    if boxes.is_empty() || !foot.is_finite() {
        return (Vec::new(), 0.0, 0.0);
    }
    // Where a feed cannot run straight down it gets a track for itself.
    let mut feeds = Vec::new();
    let mut tracks = 0;
    for found in &mut boxes {
        for (nth, intake) in found.feeds.iter().enumerate() {
            let x = intakes[*intake].at.x;
            let is_straight = x > found.left + 1.0 && x < found.left + found.width - 1.0;
            let from = if is_straight {
                x
            } else {
                found.left + GRID + HALF / 2.0 + GRID * nth as f64
            };
            let track = (!is_straight).then(|| {
                tracks += 1;
                tracks
            });
            feeds.push((found.compartment, found.reservoir, *intake, from, track));
        }
    }
    let bottom = foot - 4.5 - GRID * f64::from(tracks);
    let lines = boxes
        .iter()
        .map(|found| label::wrapped(&found.compartment.id, found.width - 1.6, 2).len());
    let height = RESERVOIR_HEIGHT + LEADING * lines.max().unwrap_or(1).saturating_sub(1) as f64;
    let top = bottom - height;
    let mut marks = Vec::new();
    for (compartment, _, intake, from, track) in feeds {
        let to = intakes[intake].at;
        let mut points = vec![Point::new(from, bottom)];
        if let Some(track) = track {
            let y = bottom + GRID * f64::from(track);
            points.extend([Point::new(from, y), Point::new(to.x, y)]);
        }
        points.push(to);
        marks.push(feed(compartment, &intakes[intake], &points));
    }
    for found in &boxes {
        let corner = Point::new(found.left, top);
        marks.push(draw_compartment(
            found.compartment,
            corner,
            found.width,
            height,
            words,
        ));
    }
    for (reservoir, left, right) in spans(&boxes) {
        let name = &network.layout().reservoirs[reservoir].id;
        let at = Point::new(left, top - 1.2);
        marks.extend(label::write(name, at, Anchor::Start, right - left, 1));
    }
    let right = boxes
        .iter()
        .map(|found| found.left + found.width)
        .fold(0.0, f64::max);
    (marks, top - LEADING - HALF, right)
}

fn boxes<'n>(network: &'n Network, intakes: &[Intake]) -> Vec<Box<'n>> {
    let reservoirs = network.layout().reservoirs.iter().enumerate();
    let mut boxes: Vec<Box<'n>> = reservoirs
        .flat_map(|(reservoir, found)| {
            found.compartments.iter().map(move |compartment| Box {
                reservoir,
                compartment,
                feeds: Vec::new(),
                left: 0.0,
                width: COMPARTMENT,
            })
        })
        .collect();
    let firsts: Vec<usize> = network
        .layout()
        .reservoirs
        .iter()
        .scan(0, |next, reservoir| {
            let first = *next;
            *next += reservoir.compartments.len();
            Some(first)
        })
        .collect();
    for (nth, intake) in intakes.iter().enumerate() {
        if let Some((reservoir, compartment)) = intake.compartment {
            boxes[firsts[reservoir] + compartment].feeds.push(nth);
        }
    }
    let wish = |found: &Box<'_>| {
        let count = found.feeds.len().max(1) as f64;
        found
            .feeds
            .iter()
            .map(|intake| intakes[*intake].at.x)
            .sum::<f64>()
            / count
    };
    let mut means = vec![(0.0, 0.0); firsts.len()];
    for found in &boxes {
        let mean: &mut (f64, f64) = &mut means[found.reservoir];
        *mean = (mean.0 + wish(found), mean.1 + 1.0);
    }
    let mean = |found: &Box<'_>| means[found.reservoir].0 / means[found.reservoir].1;
    boxes.sort_by(|a, b| {
        let by_reservoir = mean(a)
            .total_cmp(&mean(b))
            .then(a.reservoir.cmp(&b.reservoir));
        by_reservoir.then(wish(a).total_cmp(&wish(b)))
    });
    let mut free = 0.0;
    let mut last = None;
    for found in &mut boxes {
        if last.is_some_and(|last| last != found.reservoir) {
            free += GRID;
        }
        last = Some(found.reservoir);
        let places = || found.feeds.iter().map(|intake| intakes[*intake].at.x);
        let first = places().fold(f64::INFINITY, f64::min).min(1e9);
        let last_place = places().fold(f64::NEG_INFINITY, f64::max);
        found.left =
            (if last_place.is_finite() { first } else { free } - COMPARTMENT / 2.0).max(free);
        found.width = (last_place + COMPARTMENT / 2.0 - found.left).max(COMPARTMENT);
        free = found.left + found.width;
    }
    boxes
}

/// The way from a compartment to the chamber that it feeds.
pub(super) fn feed(compartment: &Compartment, intake: &Intake, points: &[Point]) -> Mark {
    let is_hose = compartment
        .hose
        .as_ref()
        .is_some_and(|hose| hose.to.as_ref().is_none_or(|to| *to == intake.name));
    let mut paths: Vec<Mark> = Vec::new();
    if is_hose {
        paths.push(Path::line(points, Stroke::solid(Ink::PALE, 1.9)).into());
    }
    paths.push(Path::line(points, Stroke::solid(Ink::BLACK, 0.45)).into());
    Group::new("feed", paths)
        .named(&format!("{} to {}", compartment.id, intake.name))
        .of(Some(intake.circuit))
        .into()
}

pub(super) fn draw_compartment(
    compartment: &Compartment,
    corner: Point,
    width: f64,
    height: f64,
    words: Words,
) -> Mark {
    let mut marks = vec![rectangle(corner, corner.moved(width, height), Ink::WHITE)];
    let full = compartment.max.nominal.get::<milliliter>();
    let middle = corner.moved(width / 2.0, 3.4);
    let name = label::write(&compartment.id, middle, Anchor::Middle, width - 1.6, 2);
    marks.extend(name);
    let text = Text::new(
        corner.moved(width / 2.0, height - 1.4),
        LETTER,
        &format!("{full:.0} ml"),
    );
    marks.push(text.anchored(Anchor::Middle).within(width - 1.6).into());
    Group::new("part", marks)
        .named(&compartment.id)
        .titled(words(Told::Full(&compartment.id, compartment.max.nominal)))
        .into()
}

/// From where to where each reservoir reaches.
fn spans(boxes: &[Box<'_>]) -> Vec<(usize, f64, f64)> {
    let mut spans: Vec<(usize, f64, f64)> = Vec::new();
    for found in boxes {
        let right = found.left + found.width;
        match spans.last_mut() {
            Some(last) if last.0 == found.reservoir => last.2 = right,
            _ => spans.push((found.reservoir, found.left, right)),
        }
    }
    spans
}
