//! Lines as they are drawn.

use super::arrange::Arrangement;
use super::measure::LINE;
use super::route::Route;
use super::{figure, legend};
use crate::ink::{Ink, Stroke, stroke_of};
use crate::picture::{Group, Mark, Path, Point, Segment};
use bleedwright_network::{CircuitId, LineKind};

impl Arrangement<'_> {
    /// What lies under a line: the band of a hose, the case of a part screwed in.
    pub(super) fn band(&self, index: usize, route: &Route) -> Option<Mark> {
        let network = self.network;
        let wire = &self.wires[index];
        let line = &network.layout().lines[wire.line];
        let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
        let ink = stroke_of(circuit, LINE).ink;
        let layers = match line.kind {
            LineKind::Hose { .. } => vec![(ink.thinned(), 2.1)],
            LineKind::Direct => vec![(ink, 2.2), (Ink::WHITE, 1.6)],
            LineKind::Pipe { .. } => return None,
        };
        let layers = layers
            .into_iter()
            .map(|(ink, width_mm)| Path::line(&route.points, Stroke::solid(ink, width_mm)).into());
        let marks = layers.collect();
        Some(Group::new("line", marks).named(&line.id).of(circuit).into())
    }

    pub(super) fn line(&self, index: usize, route: &Route) -> Mark {
        let network = self.network;
        let wire = &self.wires[index];
        let line = &network.layout().lines[wire.line];
        let circuit = network.circuit_of_link(wire.link).map(CircuitId::index);
        let is_hose = matches!(line.kind, LineKind::Hose { .. });
        let marks = vec![way(route, is_hose, stroke_of(circuit, LINE)).into()];
        let title = format!(
            "{}. {}: {}, {}, {}",
            index + 1,
            line.id,
            figure::kind(line),
            figure::length(line.length()),
            figure::printed_volume(line.contents())
        );
        Group::new("line", marks)
            .named(&line.id)
            .of(circuit)
            .titled(title)
            .into()
    }

    /// The number of a line in its frame.
    pub(super) fn tag(&self, index: usize, route: &Route) -> Mark {
        let wire = &self.wires[index];
        let circuit = self.network.circuit_of_link(wire.link);
        let name = &self.network.layout().lines[wire.line].id;
        legend::tag(name, circuit.map(CircuitId::index), index + 1, route)
    }
}

/// The way of a line, wavy where it is a hose and no other line is near.
fn way(route: &Route, is_hose: bool, stroke: Stroke) -> Path {
    let mut path = Path::line(&route.points[..1], stroke);
    let mut here = path.start;
    for to in &route.points[1..] {
        let lies_between = |place: &Point| {
            let is_between =
                |value: f64, a: f64, b: f64| value >= a.min(b) - 0.01 && value <= a.max(b) + 0.01;
            is_between(place.x, here.x, to.x) && is_between(place.y, here.y, to.y)
        };
        if let Some((a, b)) = route
            .free
            .filter(|(a, b)| is_hose && lies_between(a) && lies_between(b))
        {
            let far = |place: Point| (place.x - here.x).abs() + (place.y - here.y).abs();
            let (first, last) = if far(a) <= far(b) { (a, b) } else { (b, a) };
            path.segments.push(Segment::Line(first));
            path.segments.extend(waves_between(first, last));
        }
        path.segments.push(Segment::Line(*to));
        here = *to;
    }
    path
}

fn waves_between(from: Point, to: Point) -> Vec<Segment> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    let count = (length / 2.4).round().max(2.0);
    let along = |share: f64, swing: f64| {
        let (across_x, across_y) = (-dy / length * swing, dx / length * swing);
        from.moved(dx * share / count + across_x, dy * share / count + across_y)
    };
    (0..count as usize)
        .map(|nth| {
            let start = nth as f64;
            let swing = if nth % 2 == 0 { -1.2 } else { 1.2 };
            Segment::Curve(
                along(start + 0.36, swing),
                along(start + 0.64, swing),
                along(start + 1.0, 0.0),
            )
        })
        .collect()
}
