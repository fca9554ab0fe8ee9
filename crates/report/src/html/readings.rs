//! The handover sheet as a page.

use super::{Page, STYLE};
use crate::clean::clean;
use crate::kept;
use crate::text::{named, sources, title};
use crate::words::capitalised;
use bleedwright_inspection::{Check, Group, HandoverSheet};
use maud::{Markup, html};

/// The handover sheet as one HTML file that prints on A4.
pub fn readings_html(sheet: &HandoverSheet) -> String {
    let sources = sources(sheet);
    let body = html! {
        h1 { "Handover sheet: " (clean(&sheet.vehicle)) }
        p class={ "verdict " (sheet.state().word()) } { (sheet.verdict()) }
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
        @if let Some(remark) = sheet.plan_remark() {
            p { (remark) }
        }
        p class="note" { (sheet.cautions()[0]) }
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
            @for assumption in sheet.assumptions() { li { (assumption) } }
        }
        div class="end" {
            h2 { "Cautions" }
            ul class="note" {
                @for caution in &sheet.cautions()[1..] { li { (caution) } }
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
                    tr class="group" { th colspan="4" scope="rowgroup" { (group.text()) } }
                    @for check in sheet.checks.iter().filter(|check| check.group == group) {
                        (row(check, sources))
                    }
                }
            }
        }
    }
}

fn row(check: &Check, sources: &[String]) -> Markup {
    let text = check.source.text();
    let remark = kept::remark(check);
    let number = sources.iter().position(|known| *known == text);
    html! {
        tr {
            td class=(check.state.word()) { (check.state.text()) }
            td { (clean(&title(check))) }
            td class="found" { @if check.found.is_empty() { "no reading" } @else { (clean(&check.found)) } }
            td class="limit" {
                @if check.limit.is_empty() { "no figure" } @else { (clean(&check.limit)) }
                @if let Some(number) = number { " [" (number + 1) "]" }
                @if !remark.is_empty() { ". " (clean(&capitalised(&remark))) "." }
            }
        }
    }
}
