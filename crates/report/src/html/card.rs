//! The job card as a page: the plan to work by, with ticks and counters, and the record of the checks afterwards.
//!
//! It reads as a whole sheet without its script, which only counts, keeps, and writes the record. All that the script
//! knows stands in the page, in attributes whose names begin with `data-`.

mod form;
mod question;
mod step;

use super::{Page, STYLE};
use crate::assumed::assumptions;
use crate::card::{Card, CardSecond, Instruction, LOOK_FIRST, Titles, headed};
use crate::clean::clean;
use crate::record::task_of;
use crate::said::Said;
use bleedwright_inspection::record::{
    AMOUNTS_REVISION, Answer, BLANK_WORDS, FieldKind, StepEnd, StepReadings, TaskKind,
};
use bleedwright_inspection::{Record, record_form};
use bleedwright_planner::Plan;
use form::{Form, QuantityData};
use maud::{Markup, PreEscaped, html};
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;

const CARD_STYLE: &str = include_str!("card.css");
const SCRIPTS: [&str; 5] = [
    include_str!("card/readings.js"),
    include_str!("card/jobs.js"),
    include_str!("card/file.js"),
    include_str!("card/steps.js"),
    include_str!("card.js"),
];

/// The plan as one HTML file to work by, with the blank record of the vehicle to fill in. `schematic` is a picture of
/// the pipework as SVG, which goes into the page as it stands.
pub fn card_html(plan: &Plan, record: &Record, schematic: Option<&str>) -> String {
    let card = Card::new(plan);
    let guesses = assumptions(plan).iter().position(|told| told.is_guess);
    let tasks = tasks(plan, record);
    let ticked: BTreeSet<usize> = tasks.iter().flatten().copied().collect();
    let form = Form::new(record, &ticked);
    let body = html! {
        main data-plan=(fingerprint(&card, record)) data-amounts=(AMOUNTS_REVISION) data-record=(record.to_json())
            data-quantities=(form.quantities()) data-blank=(json(&BLANK_WORDS)) data-work=(work()) {
            (head(&card, guesses))
            section aria-labelledby="before" {
                h2 id="before" { "Before" }
                p { strong { "Ready: " } (said(&card.ready)) }
                h3 { (headed(LOOK_FIRST)) }
                (ticks("before", &card.look, &[], 0))
                h3 { "Then" }
                (ticks("before", &card.before, &[], card.look.len()))
            }
            @if let Some(schematic) = schematic { (picture(schematic)) }
            section aria-labelledby="steps" {
                h2 id="steps" { "Steps" }
                div class="live buttons" { button type="button" id="one" { "One step a screen" } }
                ul class="each" { @for text in &card.each { li { (said(text)) } } }
                ol class="steps" { @for step in &card.steps { (step::item(step, &card.titles, &[])) } }
                @for text in &card.done { p class="done" { (said(text)) } }
                dl class="otherwise" {
                    @for it in &card.otherwise { dt { "If " (it.what) } dd { (folded(&it.then)) } }
                }
            }
            section aria-labelledby="after" {
                h2 id="after" { "After" }
                (ticks("after", &card.after, &tasks[..card.after.len()], 0))
            }
            @if let Some(second) = &card.second { (second_bleed(second, &card.titles, card.after.len(), &tasks)) }
            (form.markup())
            (keeping())
            (end(&card, guesses))
        }
        div class="live" id="walk" role="group" aria-label="Steps" {
            button type="button" id="back" { "Back" }
            button type="button" id="list" { "All steps" }
            button type="button" id="next" { "Next" }
        }
        (notices())
    };
    Page {
        title: format!("Bleed plan: {}", card.vehicle),
        styles: &[STYLE, CARD_STYLE],
        scripts: &SCRIPTS,
    }
    .with(&body)
}

/// By this a page knows its own marks again: two plans that differ in one word do not share them. Which vehicle it is, and
/// when, belongs to the job.
fn fingerprint(card: &Card, record: &Record) -> String {
    let (mut card, mut record) = (card.clone(), record.clone());
    (card.registration, card.date) = (None, None);
    record.vehicle.registration.clear();
    let digest = Sha256::digest(format!("{card:?}{}", record.to_json()));
    format!("{digest:x}")[..16].to_owned()
}

/// A value for the script, in an attribute.
fn json(value: &impl Serialize) -> String {
    serde_json::to_string(value).expect("plain figures and texts become JSON")
}

/// What may stand in the steps and tasks of a record, which the page fills in by itself.
fn work() -> String {
    let record = Record {
        steps: vec![StepReadings::default()],
        ..Record::default()
    };
    let volume = record_form(&record)
        .into_iter()
        .find_map(|field| match field.kind {
            FieldKind::Quantity(quantity) if field.field == "pushed" => Some(quantity),
            _ => None,
        });
    json(&serde_json::json!({
        "ends": StepEnd::ALL.iter().map(|it| it.word()).collect::<Vec<_>>(),
        "kinds": TaskKind::ALL.iter().map(|it| it.word()).collect::<Vec<_>>(),
        "answers": Answer::ALL.iter().map(|it| it.word()).collect::<Vec<_>>(),
        "volume": volume.as_ref().map(QuantityData::new),
    }))
}

/// The task of the record that each check after the last screw is, by its place there.
fn tasks(plan: &Plan, record: &Record) -> Vec<Option<usize>> {
    let place = |check| {
        let name = task_of(check)?.name;
        record.tasks.iter().position(|task| task.name == name)
    };
    plan.checks_after.iter().map(place).collect()
}

/// A sentence of the plan, whose names people put in quotation marks.
pub(super) fn said(said: &Said) -> String {
    clean(&said.set(|name| format!("“{name}”"))).into_owned()
}

fn head(card: &Card, guesses: Option<usize>) -> Markup {
    html! {
        header {
            h1 { "Bleed plan: " (clean(&card.vehicle)) }
            p class="date" {
                "Registration: " span id="registration" { (clean(card.registration.as_deref().unwrap_or("____________"))) }
                ". Date: " (clean(card.date.as_deref().unwrap_or("____________")))
            }
            p { (said(&card.job)) }
            @if let Some(notes) = &card.notes { p { (clean(notes)) } }
            @if let Some(danger) = &card.danger { p class="verdict fails" { (said(danger)) } }
            @for warning in &card.warnings {
                p class="warning" { strong { "Warning: " } (said(warning)) }
            }
            @if let Some(guesses) = guesses.map(|nth| &card.assumed[nth]) {
                p class="warning" {
                    strong { "Draft: " } (said(guesses)) ". Amounts are as wide as the guesses; see what is assumed, at the end."
                }
            }
            @if let Some(first) = card.cautions.first() {
                p class="caution" {
                    strong { "Caution: " } (said(&first.sentence())) " "
                    a href="#cautions" { "All cautions" }
                }
            }
            nav aria-label="Parts of this card" {
                a class="live" id="now" href="#step-1" { "Now" }
                a href="#before" { "Before" }
                a href="#steps" { "Steps" }
                a href="#after" { "After" }
                @if card.second.is_some() { a href="#second" { "Second bleed" } }
                a href="#readings" { "Readings" }
                a class="live" href="#keep" { "Save, open" }
            }
            p class="live" id="progress" {}
            p class="live" id="unkept" role="status" {}
        }
    }
}

/// The second bleed, whose steps the script counts like the others, and what comes after it: both go on in number. So many
/// checks come before it.
fn second_bleed(
    second: &CardSecond,
    titles: &Titles,
    before: usize,
    tasks: &[Option<usize>],
) -> Markup {
    let waits_for: Vec<String> = (second.waits_for.iter())
        .map(|place| mark("after", place + 1))
        .collect();
    html! {
        section aria-labelledby="second" {
            h2 id="second" { "Second bleed, after the routine" }
            p { (said(&second.how)) }
            ol class="steps" { @for step in &second.steps { (step::item(step, titles, &waits_for)) } }
        }
        section aria-labelledby="after-second" {
            h2 id="after-second" { "After the second bleed" }
            (ticks("after", &second.after, &tasks[before..], before))
        }
    }
}

/// By this a card knows a line again.
fn mark(list: &str, number: usize) -> String {
    format!("{list} {number}")
}

/// A list to tick; each line's mark is the name of the list and its number, counted on from those `before` it. A line may be
/// a task of the record.
fn ticks(list: &str, lines: &[Instruction], tasks: &[Option<usize>], before: usize) -> Markup {
    html! {
        ul class="ticks" {
            @for (nth, line) in lines.iter().enumerate() {
                li {
                    label {
                        input type="checkbox" autocomplete="off" data-tick=(mark(list, before + nth + 1))
                            data-task=[tasks.get(nth).copied().flatten()];
                        span { (said(&line.does)) }
                    }
                    (more(line))
                }
            }
        }
    }
}

/// What is said of a line where there is time to read.
fn more(line: &Instruction) -> Markup {
    html! {
        @if !line.more.is_empty() { details class="note" { summary { "More" } (said(&line.more)) } }
    }
}

/// A line that is not ticked.
fn folded(line: &Instruction) -> Markup {
    html! { (said(&line.sentence())) " " (more(line)) }
}

fn picture(schematic: &str) -> Markup {
    html! {
        section aria-labelledby="pipework" {
            h2 id="pipework" { "Pipework" }
            p class="note sideways" { "Swipe sideways to see all of it." }
            div class="picture" tabindex="0" role="region" aria-label="Picture of the pipework; scrolls sideways" {
                (PreEscaped(schematic))
            }
            // At the size that a card leaves for it nobody could read it.
            p class="note on-paper" { "The picture fills a sheet of its own: " code { "bleedwright draw" } "." }
        }
    }
}

fn keeping() -> Markup {
    html! {
        section class="live" aria-labelledby="keep" {
            h2 id="keep" { "Save and open" }
            p class="note" {
                "The file holds the readings, ticks and counts. This card opens it again, on this device or another; "
                code { "bleedwright readings FILE" } " makes the handover sheet from it."
            }
            div class="buttons" {
                button type="button" id="save" { "Save file" }
                button type="button" id="open" { "Open file" }
                button type="button" id="print" { "Print" }
                button type="button" id="again" { "Close this job" }
                input type="file" id="file" accept=".json,application/json" aria-label="File to open" hidden;
            }
            p id="told" role="status" {}
            h3 { "Other jobs of this vehicle in this browser" }
            div id="jobs" {}
        }
    }
}

fn end(card: &Card, guesses: Option<usize>) -> Markup {
    html! {
        section class="end" aria-labelledby="cautions" {
            h2 id="cautions" { "Cautions" }
            ul class="note" { @for line in &card.cautions { li { (said(&line.whole())) } } }
            h2 { "Why" }
            p class="note" { (said(&card.facts)) }
            @for text in &card.order { p class="note" { (said(text)) } }
            p class="note" { strong { "Buy: " } (said(&card.buy)) }
            h2 { "Assumed" }
            ul class="note assumed" {
                @for (nth, text) in card.assumed.iter().chain(&card.certainty).enumerate() {
                    li class=[(guesses == Some(nth)).then_some("guess")] { (said(text)) }
                }
            }
        }
    }
}

/// What comes up over the page while somebody works by it.
fn notices() -> Markup {
    html! {
        div class="live" id="locked" role="alert" {}
        div class="live" id="banner" role="alert" {}
        div class="live unseen" id="said" role="status" {}
        dialog id="ask" aria-labelledby="question" {
            p id="question" {}
            div class="buttons" id="answers" {}
        }
    }
}
