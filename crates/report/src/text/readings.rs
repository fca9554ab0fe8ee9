//! The handover sheet as text.

use super::paper::Paper;
use crate::kept;
use crate::readings::{self, CAUTIONS, assumptions, named, sheet_verdict, sources, title};
use crate::words::{capitalised, listed};
use bleedwright_inspection::{Check, HandoverSheet, State};

/// Columns of the state's word and the blanks behind it.
const STATE_COLUMNS: usize = 13;

/// Below this width a state stands in front of its check without a column of its own.
const NARROW: usize = 60;

/// Writes the handover sheet for a sheet of `paper`'s width. The verdict stands first.
pub fn readings_text(sheet: &HandoverSheet, mut paper: Paper) -> String {
    let blank = |text: &str| match text.trim() {
        "" => "____________".to_owned(),
        text => text.to_owned(),
    };
    let date = format!("Date {}", blank(&sheet.date));
    paper.apart(&format!("HANDOVER SHEET: {}", sheet.vehicle), &date);
    match sheet.state() {
        State::Fails => paper.danger(&sheet_verdict(sheet)),
        State::NotChecked | State::LookAgain => paper.warning(&sheet_verdict(sheet)),
        State::Within => paper.paragraph(&sheet_verdict(sheet)),
    }
    if let Some(refused) = kept::refused(&sheet.kept) {
        paper.warning(&refused);
    }
    if let Some(named) = named(sheet) {
        paper.paragraph(&named);
    }
    let (done_by, checked_by) = (blank(&sheet.done_by), blank(&sheet.checked_by));
    let registration = blank(&sheet.registration);
    paper.paragraph(&format!(
        "Registration {registration}. Done by {done_by}; checked by {checked_by}."
    ));
    if !sheet.notes.trim().is_empty() {
        paper.paragraph(&format!("Notes: {}", sheet.notes));
    }
    if let Some(remark) = readings::plan_remark(sheet) {
        paper.paragraph(remark);
    }
    paper.heading("WORK AND MATERIAL");
    for (name, text) in kept::lines(&sheet.kept) {
        paper.item("- ", &format!("{name}: {text}"));
    }
    let sources = sources(sheet);
    let mut group = None;
    for check in &sheet.checks {
        if group != Some(check.group) {
            paper.heading(&readings::group(check.group).to_uppercase());
            group = Some(check.group);
        }
        write_check(check, &sources, &mut paper);
    }
    paper.heading("SOURCES of the limits, and how each was known");
    for (nth, source) in sources.iter().enumerate() {
        paper.item(&format!("[{}] ", nth + 1), source);
    }
    paper.strong_start(
        "ASSUMED: ",
        &listed(assumptions(), " ", |it| it.to_string()),
    );
    paper.heading("CAUTIONS");
    for caution in CAUTIONS {
        paper.item("- ", caution);
    }
    paper.paragraph("Signed ____________________  Place, date ____________________");
    paper.into_text()
}

fn write_check(check: &Check, sources: &[String], paper: &mut Paper) {
    let mut text = title(check);
    text += ": ";
    let found = readings::found(&check.found).to_string();
    text += if found.is_empty() {
        "no reading"
    } else {
        &found
    };
    let limit = readings::wanted(&check.limit);
    if !limit.is_empty() {
        text += &format!("; wanted: {limit}");
    }
    let source = readings::source(check.source);
    if let Some(nth) = sources.iter().position(|known| *known == source) {
        text += &format!(" [{}]", nth + 1);
    }
    text += ".";
    let remark = kept::remark(check);
    if !remark.is_empty() {
        text += &format!(" {}.", capitalised(&remark));
    }
    let state = readings::state(check.state);
    if paper.width() < NARROW {
        paper.paragraph(&format!("{state}: {text}"));
    } else {
        paper.item(&format!("{state:STATE_COLUMNS$}"), &text);
    }
}

/// Writes some checks of a sheet alone, without their sources.
pub fn checks_text<'c>(checks: impl IntoIterator<Item = &'c Check>, mut paper: Paper) -> String {
    for check in checks {
        write_check(check, &[], &mut paper);
    }
    paper.into_text()
}
