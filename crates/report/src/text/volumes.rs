//! Volumes as tables.

use super::paper::Paper;
use crate::card::contents_narrowed;
use crate::number::{metres_range, ml, ml_or_l, ml_range};
use bleedwright_network::Bounds;
use bleedwright_planner::Volumes;
use uom::si::f64::Volume;

/// Writes the volumes for a sheet of `paper`'s width.
pub fn volumes_text(volumes: &Volumes, mut paper: Paper) -> String {
    paper.heading(&format!("VOLUMES: {}", volumes.vehicle));
    paper.paragraph("Contents in ml: nominal, then low-high by the tolerances.");
    write_pieces(volumes, &mut paper);
    write_sums(volumes, &mut paper);
    write_outlook(volumes, &mut paper);
    paper.into_text()
}

fn write_pieces(volumes: &Volumes, paper: &mut Paper) {
    paper.heading("LINES");
    for line in &volumes.lines {
        let what = format!("{}, {}", line.kind, metres_range(line.length));
        row(paper, &line.id, &what, &figure(line.contents));
    }
    paper.heading("PARTS");
    for part in &volumes.parts {
        let what = match part.wheel {
            Some(wheel) => format!("{}, {}", part.kind, wheel.text()),
            None => part.kind.to_owned(),
        };
        row(paper, &part.name, &what, &figure(part.contents));
    }
}

fn write_sums(volumes: &Volumes, paper: &mut Paper) {
    paper.heading("RUNS, chamber to screw");
    for run in &volumes.runs {
        let what = format!("{}, {}", run.circuit, metres_range(run.length));
        row(paper, &run.screw, &what, &figure(run.contents));
    }
    paper.heading("CIRCUITS, cylinder chamber included");
    for circuit in &volumes.circuits {
        let what = format!(
            "chamber {} + lines {} + cavities {}",
            ml(circuit.chamber.nominal),
            ml(circuit.lines.nominal),
            ml(circuit.cavities.nominal)
        );
        row(paper, &circuit.name, &what, &figure(circuit.total));
    }
    paper.heading("BY SIZE");
    for size in &volumes.sizes {
        let what = format!("{} of them, {}", size.count, metres_range(size.length));
        row(paper, &size.size, &what, &figure(size.contents));
    }
    paper.heading("RESERVOIRS, at the marks");
    for compartment in &volumes.compartments {
        let min = compartment
            .min
            .map_or("no minimum mark, maximum".to_owned(), |min| {
                format!("minimum {}, maximum", ml(min.nominal))
            });
        row(paper, &compartment.name, &min, &ml(compartment.max.nominal));
    }
    paper.heading("TOTAL");
    let what = "without the reservoirs";
    row(paper, "all circuits", what, &figure(volumes.total));
}

fn write_outlook(volumes: &Volumes, paper: &mut Paper) {
    if let Some(text) = contents_narrowed(&volumes.spread) {
        paper.paragraph(&text);
    }
    if let Some(renewal) = &volumes.renewal {
        paper.paragraph(&format!(
            "Renewing the fluid draws up to {} of new fluid: {} ml stay in the system, up to {} of \
             old and mixed fluid go to waste.",
            ml_or_l(renewal.needed),
            ml(renewal.stays),
            ml_or_l(renewal.wasted)
        ));
    }
}

fn figure(contents: Bounds<Volume>) -> String {
    format!("{} ({})", ml(contents.nominal), ml_range(contents))
}

/// Name, description and figure: on one line where there is room, else the
/// figure on a line of its own.
fn row(paper: &mut Paper, name: &str, what: &str, figure: &str) {
    let name = crate::clean(name).into_owned();
    let left = format!("  {name}: {what}");
    let width = textwrap::core::display_width(&left) + textwrap::core::display_width(figure) + 2;
    if width <= paper.width() {
        let gap = ".".repeat(paper.width() - width);
        paper.indented("", "", &format!("{left} {gap} {figure}"));
    } else {
        paper.indented("  ", "    ", &format!("{name}: {what}: {figure}"));
    }
}
