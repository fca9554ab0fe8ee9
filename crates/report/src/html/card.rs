//! The job card as a page.

use super::page;
use crate::card::{Card, CardStep};
use crate::clean::clean;
use bleedwright_planner::Plan;
use maud::{Markup, html};

/// The plan as one HTML file to work by.
pub fn card_html(plan: &Plan) -> String {
    let card = Card::new(plan);
    let body = html! {
        h1 { "Bleed plan: " (clean(&card.vehicle)) }
        p { "Date: " (clean(card.date.as_deref().unwrap_or("____________"))) }
        p { (clean(&card.facts)) }
        @if let Some(notes) = &card.notes { p { (clean(notes)) } }
        @if let Some(danger) = &card.danger { p class="verdict fails" { (danger) } }
        @for warning in &card.warnings { p class="verdict look_again" { (clean(warning)) } }
        h2 { "Before" }
        ul { @for text in &card.before { (tick(text)) } }
        h2 { "Steps" }
        p { (clean(&card.rhythm)) }
        ol { @for step in &card.steps { (step_item(step)) } }
        @for text in &card.order { p { (clean(text)) } }
        p { strong { "Buy: " } (clean(&card.buy)) }
        h2 { "After" }
        ul { @for text in &card.after { (tick(text)) } }
        h2 { "Cautions" }
        ul class="note" { @for text in &card.cautions { li { (clean(text)) } } }
        h2 { "Assumed" }
        ul class="note" {
            @for text in card.assumed.iter().chain(&card.certainty) { li { (clean(text)) } }
        }
    };
    page(&format!("Bleed plan: {}", card.vehicle), &body)
}

fn tick(text: &str) -> Markup {
    html! { li { label { input type="checkbox"; " " (clean(text)) } } }
}

fn step_item(step: &CardStep) -> Markup {
    html! {
        li {
            label {
                input type="checkbox"; " "
                strong { (clean(&step.screws.join(" + "))) ": " (step.work) "; " (step.marks) }
            }
            @if !step.tools.is_empty() { " " (clean(&step.tools)) "." }
            @for sentence in step.details() { " " (clean(&sentence)) }
        }
    }
}
