//! A comparison as a page for a class: two sides or more, stepped through together.
//!
//! Without its script the page reads as a whole: every step of every side stands in it, one below the other.

mod curve;
mod loss;

use super::card::said;
use super::{Page, STYLE};
use crate::clean::clean;
use crate::difference::difference_text;
use crate::lesson::{LessonSide, View};
use crate::text::letter;
use bleedwright_drawing::svg_for_page;
use bleedwright_simulation::changes;
use maud::{Markup, PreEscaped, html};

const LESSON_STYLE: &str = include_str!("lesson.css");
const SCRIPT: &str = include_str!("lesson.js");

/// Sides of a comparison as one HTML file.
pub fn lesson_html(sides: &[LessonSide<'_>]) -> String {
    let last = sides
        .iter()
        .map(|side| side.side.plan.steps.len())
        .max()
        .unwrap_or(0);
    let title = title(sides);
    let body = html! {
        header {
            h1 { (clean(&title)) }
            p { "What each step flushes, what it leaves behind, and what differs. Worked out by following each plan \
                 stroke by stroke; nobody has measured such a bleed." }
            p class="caution" { strong { "A lesson, not a work sheet. " }
                "The maker's manual governs. Work on brakes is done or checked by a competent, where required licensed, person." }
        }
        main {
            (stepper(last))
            div class="sides" {
                @for (nth, side) in sides.iter().enumerate() { (section(nth, side)) }
            }
            section aria-labelledby="differs" {
                h2 id="differs" { "What differs, and why" }
                @for nth in 1..sides.len() {
                    @let changes = changes(sides[0].side, sides[nth].side);
                    h3 { "From " (letter(0)) " to " (letter(nth)) }
                    @if changes.is_empty() { p { "Nothing." } }
                    ul { @for change in &changes { li { (said(&difference_text(change))) "." } } }
                }
            }
            (curve::section(sides))
            (loss::section(sides))
        }
    };
    Page {
        title,
        styles: &[STYLE, LESSON_STYLE],
        scripts: &[SCRIPT],
    }
    .with(&body)
}

fn title(sides: &[LessonSide<'_>]) -> String {
    let mut names: Vec<&str> = sides
        .iter()
        .map(|side| side.side.plan.head.vehicle.as_str())
        .collect();
    names.dedup();
    format!("Lesson: {}", names.join(" and "))
}

fn stepper(last: usize) -> Markup {
    html! {
        section class="stepper live" aria-label="Steps" {
            button type="button" id="back" { "Back" }
            label for="step" { "Step" }
            input type="range" id="step" min="0" max=(last) value="0" step="1" autocomplete="off";
            button type="button" id="on" { "On" }
            output id="shown" for="step" role="status" {}
        }
    }
}

fn section(nth: usize, side: &LessonSide<'_>) -> Markup {
    let id = format!("side-{nth}");
    html! {
        section class="side" aria-labelledby=(id) {
            h2 id=(id) { (letter(nth)) ": " (clean(&side.side.plan.head.vehicle)) ", " (clean(&side.side.label)) }
            p { "Order: " (clean(&side.side.order().join(", "))) "." }
            div class="picture" tabindex="0" role="region" aria-label={ "Pipework of side " (letter(nth)) "; scrolls sideways" } {
                (PreEscaped(svg_for_page(&side.picture)))
            }
            p class="note live" { "Thick: flushed by this step. Usual: clean, with at most a tenth of old fluid and no \
                air. Pale: still holds old fluid or air. The table below says the same in figures." }
            @for view in side.views() { (scene(&view)) }
        }
    }
}

fn scene(view: &View) -> Markup {
    let states = serde_json::to_string(&view.states).unwrap_or_default();
    let passed: Vec<&str> = view
        .rows
        .iter()
        .filter(|row| row.is_passed)
        .map(|row| row.name.as_str())
        .collect();
    html! {
        section class="scene" data-step=(view.step) data-states=(states) {
            h3 { (clean(&view.title)) }
            @if let Some((work, why)) = &view.work {
                p { strong { (work) } ". Why here: " (said(why)) "." }
                p { "Flushed: " (clean(&passed.join(", "))) "." }
            }
            p class="left" { (view.left) }
            details {
                summary { "What is left where" }
                table {
                    thead { tr {
                        th scope="col" { "Pipe or part" }
                        th scope="col" { "Holds, ml" }
                        th scope="col" { "Air, ml" }
                        th scope="col" { "Old" }
                    } }
                    tbody {
                        @for row in &view.rows {
                            tr class=[row.is_passed.then_some("passed")] {
                                th scope="row" { (clean(&row.name)) @if row.is_passed { " (flushed)" } }
                                td { (row.holds) }
                                td { (row.air) }
                                td { (row.old) }
                            }
                        }
                    }
                }
            }
        }
    }
}
