//! The handover sheet as text.

use super::paper::Paper;
use crate::kept;
use crate::words::capitalised;
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
        State::Fails => paper.danger(&sheet.verdict()),
        State::NotChecked | State::LookAgain => paper.warning(&sheet.verdict()),
        State::Within => paper.paragraph(&sheet.verdict()),
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
    if let Some(remark) = sheet.plan_remark() {
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
            paper.heading(&check.group.text().to_uppercase());
            group = Some(check.group);
        }
        write_check(check, &sources, &mut paper);
    }
    paper.heading("SOURCES of the limits, and how each was known");
    for (nth, source) in sources.iter().enumerate() {
        paper.item(&format!("[{}] ", nth + 1), source);
    }
    paper.strong_start("ASSUMED: ", &sheet.assumptions().join(" "));
    paper.heading("CAUTIONS");
    for caution in sheet.cautions() {
        paper.item("- ", caution);
    }
    paper.paragraph("Signed ____________________  Place, date ____________________");
    paper.into_text()
}

fn write_check(check: &Check, sources: &[String], paper: &mut Paper) {
    let mut text = title(check);
    text += ": ";
    text += if check.found.is_empty() {
        "no reading"
    } else {
        &check.found
    };
    if !check.limit.is_empty() {
        text += &format!("; wanted: {}", check.limit);
    }
    if let Some(nth) = sources
        .iter()
        .position(|known| *known == check.source.text())
    {
        text += &format!(" [{}]", nth + 1);
    }
    text += ".";
    let remark = kept::remark(check);
    if !remark.is_empty() {
        text += &format!(" {}.", capitalised(&remark));
    }
    let state = check.state.text();
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

/// The checks that somebody has to do something about, by name; none where there are none.
pub(crate) fn named(sheet: &HandoverSheet) -> Option<String> {
    let of = |state, word: &str| {
        let checks = sheet.checks.iter().filter(|check| check.state == state);
        let titles: Vec<String> = checks.map(title).collect();
        (!titles.is_empty()).then(|| format!("{word}: {}.", titles.join("; ")))
    };
    let sentences = [
        of(State::Fails, "Fails"),
        of(State::LookAgain, "Look again"),
    ];
    let sentences: Vec<String> = sentences.into_iter().flatten().collect();
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

/// What was looked at, and where.
pub(crate) fn title(check: &Check) -> String {
    if check.subject.is_empty() {
        check.what.to_owned()
    } else {
        format!("{}, {}", check.subject, check.what)
    }
}

/// Every source once, in the order of the checks.
pub(crate) fn sources(sheet: &HandoverSheet) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for check in &sheet.checks {
        let text = check.source.text();
        if !all.contains(&text) {
            all.push(text);
        }
    }
    all
}
