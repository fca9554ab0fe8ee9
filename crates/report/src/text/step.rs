//! One step on the sheet.

use super::paper::Paper;
use crate::card::CardStep;
use crate::words::listed;

const INDENT: &str = "    ";

/// Writes a step, its number as wide as the last one's.
pub(crate) fn write_step(step: &CardStep, digits: usize, paper: &mut Paper) {
    let names = listed(&step.screws, " + ", |screw| screw.to_uppercase());
    let heading = format!(
        "{:>digits$} [ ] {}: {}; {}",
        step.number, names, step.work, step.marks
    );
    let mut sentences = Vec::new();
    if !paper.heading_and_rest(&heading, &step.tools.to_string()) && !step.tools.is_empty() {
        sentences.push(format!("{}.", step.tools));
    }
    let details = step.details();
    sentences.extend(details.iter().map(|detail| detail.whole().to_string()));
    paper.indented(INDENT, INDENT, &sentences.join(" "));
}
