//! The handover sheet as a page.

use super::{Page, STYLE};
use crate::clean::clean;
use crate::kept;
use crate::readings::{self, CAUTIONS, assumptions, named, sheet_verdict, sources, title};
use crate::words::capitalised;
use bleedwright_inspection::{Check, Group, HandoverSheet};
use maud::{Markup, html};

/// The handover sheet as one HTML file that prints on A4.
pub fn readings_html(sheet: &HandoverSheet) -> String {
    let sources = sources(sheet);
    let body = html! {
        h1 { "Handover sheet: " (clean(&sheet.vehicle)) }
        p class={ "verdict " (sheet.state().word()) } { (sheet_verdict(sheet)) }
        @if let Some(refused) = kept::refused(&sheet.kept) {
            p class="verdict look_again" { (clean(&refused)) }
        }
        @if let Some(named) = named(sheet) {
            p { (clean(&named)) }
        }
        p {
            "Registration: " (blank(&sheet.registration)) ". Date: " (blank(&sheet.date)) ". Done by: " (blank(&sheet.done_by))
            ". Checked by: " (blank(&sheet.checked_by)) "."
        }
        @if !sheet.notes.trim().is_empty() {
            p { "Notes: " (clean(&sheet.notes)) }
        }
        @if let Some(remark) = readings::plan_remark(sheet) {
            p { (remark) }
        }
        p class="note" { (CAUTIONS[0]) }
        h2 { "Work and material" }
        ul {
            @for (name, text) in kept::lines(&sheet.kept) { li { (name) ": " (clean(&text)) } }
        }
        (table(sheet, &sources))
        h2 { "Sources of the limits, and how each was known" }
        ol class="note" {
            @for source in &sources { li { (source) } }
        }
        h2 { "Assumed" }
        ul class="note" {
            @for assumption in assumptions() { li { (assumption) } }
        }
        div class="end" {
            h2 { "Cautions" }
            ul class="note" {
                @for caution in &CAUTIONS[1..] { li { (caution) } }
            }
            div class="sign" { span { "Signature" } span { "Place, date" } }
        }
    };
    Page {
        title: format!("Handover sheet: {}", sheet.vehicle),
        styles: &[STYLE],
        scripts: &[],
    }
    .with(&body)
}

fn blank(text: &str) -> String {
    match text.trim() {
        "" => "not stated".to_owned(),
        text => clean(text).into_owned(),
    }
}

/// The groups that have checks, in the order of the sheet.
fn groups(sheet: &HandoverSheet) -> Vec<Group> {
    let mut groups: Vec<Group> = sheet.checks.iter().map(|check| check.group).collect();
    groups.dedup();
    groups
}

fn table(sheet: &HandoverSheet, sources: &[String]) -> Markup {
    html! {
        table {
            thead {
                tr {
                    th class="state" scope="col" { "State" }
                    th class="what" scope="col" { "Check" }
                    th class="found" scope="col" { "Found" }
                    th class="limit" scope="col" { "Wanted [source]; what to do" }
                }
            }
            @for group in groups(sheet) {
                tbody {
                    tr class="group" { th colspan="4" scope="rowgroup" { (readings::group(group)) } }
                    @for check in sheet.checks.iter().filter(|check| check.group == group) {
                        (row(check, sources))
                    }
                }
            }
        }
    }
}

fn row(check: &Check, sources: &[String]) -> Markup {
    let text = readings::source(check.source);
    let found = readings::found(&check.found).to_string();
    let limit = readings::wanted(&check.limit).to_string();
    let remark = kept::remark(check);
    let number = sources.iter().position(|known| *known == text);
    html! {
        tr {
            td class=(check.state.word()) { (readings::state(check.state)) }
            td { (clean(&title(check))) }
            td class="found" { @if found.is_empty() { "no reading" } @else { (clean(&found)) } }
            td class="limit" {
                @if limit.is_empty() { "no figure" } @else { (clean(&limit)) }
                @if let Some(number) = number { " [" (number + 1) "]" }
                @if !remark.is_empty() { ". " (clean(&capitalised(&remark))) "." }
            }
        }
    }
}
