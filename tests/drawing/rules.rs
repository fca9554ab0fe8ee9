//! What every schematic has to keep to, whatever vehicle it shows.

use super::seen::{Frame, Seen, Stretch, see};
use bleedwright_network::Layout;
use std::collections::BTreeSet;

/// Lines nearer than this look like one.
const NEAR: f64 = 0.7;

/// Everything that is wrong with a picture of a layout.
pub(super) fn faults(svg: &str, layout: &Layout) -> Vec<String> {
    let seen = see(svg);
    let mut faults = Vec::new();
    labels_keep_apart(&seen, &mut faults);
    labels_keep_off_lines(&seen, &mut faults);
    labels_keep_off_symbols(&seen, &mut faults);
    symbols_keep_apart(&seen, &mut faults);
    lines_keep_off_symbols(&seen, layout, &mut faults);
    lines_keep_apart(&seen, layout, &mut faults);
    everything_is_inside(&seen, &mut faults);
    everything_is_there(&seen, layout, &mut faults);
    faults
}

fn labels_keep_apart(seen: &Seen, faults: &mut Vec<String>) {
    for (nth, a) in seen.labels.iter().enumerate() {
        for b in &seen.labels[..nth] {
            if a.frame.overlaps(&b.frame) {
                faults.push(format!("`{}` lies on `{}`", a.text, b.text));
            }
        }
    }
}

fn labels_keep_off_lines(seen: &Seen, faults: &mut Vec<String>) {
    for label in &seen.labels {
        for stretch in &seen.stretches {
            let is_own = label.owner.kind == "tag" && label.owner.name == stretch.line;
            if !is_own && crosses(stretch, &label.frame) {
                faults.push(format!(
                    "`{}` lies on the line {}",
                    label.text, stretch.line
                ));
            }
        }
    }
}

fn labels_keep_off_symbols(seen: &Seen, faults: &mut Vec<String>) {
    for label in &seen.labels {
        for shape in &seen.shapes {
            if label.owner.part.as_ref() != Some(&shape.part) && label.frame.overlaps(&shape.frame)
            {
                faults.push(format!("`{}` lies on {}", label.text, shape.part));
            }
        }
    }
}

fn symbols_keep_apart(seen: &Seen, faults: &mut Vec<String>) {
    for (nth, a) in seen.shapes.iter().enumerate() {
        for b in &seen.shapes[..nth] {
            if a.part != b.part && a.frame.overlaps(&b.frame) {
                faults.push(format!("{} lies on {}", a.part, b.part));
            }
        }
    }
}

fn ends<'l>(layout: &'l Layout, line: &str) -> [&'l str; 2] {
    let found = layout.lines.iter().find(|other| other.id == line);
    found.map_or(["", ""], |line| [&line.from.part, &line.to.part])
}

fn lines_keep_off_symbols(seen: &Seen, layout: &Layout, faults: &mut Vec<String>) {
    for stretch in &seen.stretches {
        let ends = ends(layout, &stretch.line);
        for shape in &seen.shapes {
            if !ends.contains(&shape.part.as_str()) && crosses(stretch, &shape.frame) {
                faults.push(format!(
                    "the line {} runs through {}",
                    stretch.line, shape.part
                ));
            }
        }
    }
}

/// Lines cross at right angles or not at all; where one bends or ends no other is near, unless both end at one part.
fn lines_keep_apart(seen: &Seen, layout: &Layout, faults: &mut Vec<String>) {
    for a in &seen.stretches {
        for b in seen.stretches.iter().filter(|b| a.line < b.line) {
            let (ends_a, ends_b) = (ends(layout, &a.line), ends(layout, &b.line));
            let share_a_part = ends_a.iter().any(|end| ends_b.contains(end));
            if share_a_piece(a, b) {
                faults.push(format!(
                    "{} and {} share a piece at {:?}",
                    a.line, b.line, a.from
                ));
            }
            if share_a_part || a.is_curved || b.is_curved {
                continue;
            }
            for (place, other) in [(a.from, b), (a.to, b), (b.from, a), (b.to, a)] {
                if distance(place, other) < NEAR {
                    faults.push(format!(
                        "{} and {} seem joined at {place:?}",
                        a.line, b.line
                    ));
                }
            }
        }
    }
}

/// Whether two pieces lie along each other.
fn share_a_piece(a: &Stretch, b: &Stretch) -> bool {
    let along = |from: (f64, f64), to: (f64, f64)| {
        let (dx, dy) = ((to.0 - from.0).abs(), (to.1 - from.1).abs());
        (dx > 0.1 && dy < 0.01, dy > 0.1 && dx < 0.01)
    };
    let (level_a, upright_a) = along(a.from, a.to);
    let (level_b, upright_b) = along(b.from, b.to);
    let overlap = |a: (f64, f64), b: (f64, f64)| {
        a.0.max(a.1).min(b.0.max(b.1)) - a.0.min(a.1).max(b.0.min(b.1))
    };
    if level_a && level_b {
        (a.from.1 - b.from.1).abs() < NEAR && overlap((a.from.0, a.to.0), (b.from.0, b.to.0)) > 0.1
    } else if upright_a && upright_b {
        (a.from.0 - b.from.0).abs() < NEAR && overlap((a.from.1, a.to.1), (b.from.1, b.to.1)) > 0.1
    } else {
        false
    }
}

fn distance(place: (f64, f64), stretch: &Stretch) -> f64 {
    let (dx, dy) = (stretch.to.0 - stretch.from.0, stretch.to.1 - stretch.from.1);
    let square = dx * dx + dy * dy;
    let along = if square > 0.0 {
        ((place.0 - stretch.from.0) * dx + (place.1 - stretch.from.1) * dy) / square
    } else {
        0.0
    };
    let along = along.clamp(0.0, 1.0);
    (place.0 - stretch.from.0 - along * dx).hypot(place.1 - stretch.from.1 - along * dy)
}

/// Whether a piece of a line passes through a frame: Liang and Barsky's clipping.
fn crosses(stretch: &Stretch, frame: &Frame) -> bool {
    const TOUCH: f64 = 0.05;
    let (dx, dy) = (stretch.to.0 - stretch.from.0, stretch.to.1 - stretch.from.1);
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (step, room) in [
        (-dx, stretch.from.0 - frame.left - TOUCH),
        (dx, frame.right - TOUCH - stretch.from.0),
        (-dy, stretch.from.1 - frame.top - TOUCH),
        (dy, frame.bottom - TOUCH - stretch.from.1),
    ] {
        if step.abs() < 1e-12 {
            if room < 0.0 {
                return false;
            }
        } else if step < 0.0 {
            first = first.max(room / step);
        } else {
            last = last.min(room / step);
        }
    }
    first < last
}

fn everything_is_inside(seen: &Seen, faults: &mut Vec<String>) {
    let labels = seen
        .labels
        .iter()
        .map(|label| (&label.frame, label.text.as_str()));
    let frames = seen.frames.iter().map(|frame| (frame, "a mark"));
    for (frame, what) in labels.chain(frames) {
        if frame.left < 0.0
            || frame.top < 0.0
            || frame.right > seen.width
            || frame.bottom > seen.height
        {
            faults.push(format!("`{what}` is outside: {frame:?}"));
        }
    }
}

/// Every line is drawn and numbered, every part and every screw is drawn.
fn everything_is_there(seen: &Seen, layout: &Layout, faults: &mut Vec<String>) {
    let drawn: BTreeSet<&str> = seen
        .stretches
        .iter()
        .map(|stretch| stretch.line.as_str())
        .collect();
    let tags: BTreeSet<&str> = seen
        .labels
        .iter()
        .filter(|label| label.owner.kind == "tag")
        .map(|label| label.owner.name.as_str())
        .collect();
    for line in &layout.lines {
        if !drawn.contains(line.id.as_str()) || !tags.contains(line.id.as_str()) {
            faults.push(format!("the line {} is not drawn", line.id));
        }
    }
    let shapes: BTreeSet<&str> = seen
        .shapes
        .iter()
        .map(|shape| shape.part.as_str())
        .collect();
    let parts = layout.parts.iter().map(|part| &part.id);
    for id in parts.chain(layout.cylinders.iter().map(|cylinder| &cylinder.id)) {
        if !shapes.contains(id.as_str()) {
            faults.push(format!("{id} is not drawn"));
        }
    }
}
