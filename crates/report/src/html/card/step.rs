//! One step on the page, with its counter.

use crate::card::{CardStep, Row, Titles};
use crate::clean::clean;
use crate::said::Said;
use bleedwright_planner::JarMark;
use maud::{Markup, html};
use serde::Serialize;

/// What the counter has to know.
#[derive(Serialize)]
struct Counter<'c> {
    number: usize,
    name: String,
    unit: &'static str,
    wanted: u64,
    give_up_ml: f64,
    jars: Vec<Jar<'c>>,
    stops: Vec<Stop<'c>>,
    waits_for: &'c [String],
}

#[derive(Serialize)]
struct Jar<'c> {
    jar: &'c str,
    push_ml: u64,
    is_emptied: bool,
}

#[derive(Serialize)]
struct Stop<'c> {
    after: u64,
    text: &'c str,
    compartment: &'c str,
}

impl<'c> Counter<'c> {
    fn new(step: &'c CardStep, waits_for: &'c [String]) -> Self {
        let jar = |jar: &'c JarMark| Jar {
            jar: jar.circuit.as_deref().unwrap_or_default(),
            push_ml: jar.push_ml,
            is_emptied: jar.is_emptied,
        };
        let mut stops: Vec<Stop<'c>> = step
            .stops
            .iter()
            .map(|stop| Stop {
                after: stop.after,
                text: if stop.is_top_up { "TOP UP" } else { "DRAW OFF" },
                compartment: &stop.compartment,
            })
            .collect();
        stops.sort_by_key(|stop| stop.after);
        Self {
            number: step.number,
            name: clean(&step.name()).into_owned(),
            unit: if step.strokes.is_some() {
                "strokes"
            } else {
                "ml"
            },
            wanted: step.strokes.unwrap_or(step.push_ml),
            give_up_ml: step.give_up_ml,
            jars: step.jars.iter().map(jar).collect(),
            stops,
            waits_for,
        }
    }
}

/// The step as an item of the list. It is not its turn before these lines are ticked.
pub(super) fn item(step: &CardStep, titles: &Titles, waits_for: &[String]) -> Markup {
    let counter = Counter::new(step, waits_for);
    let data = super::json(&counter);
    let id = format!("step-{}", step.number);
    html! {
        li class="step" id=(id) data-step=(data) aria-labelledby=(format!("{id}-name")) {
            h3 id=(format!("{id}-name")) {
                span class="number" { (step.number) } " " (counter.name) " "
                span class="live now" {}
            }
            @for hand in &step.hands { p class="hand" { (plain(hand)) } }
            @for row in &step.rows { (figures(row, titles)) }
            (counter_markup(&counter, &id))
            div class="jars" {
                @for (nth, jar) in step.jars.iter().enumerate() { (jar_field(jar, &id, nth + 1, step.jars.len())) }
            }
            @for tool in step.rows.iter().filter_map(|row| row.tool.as_ref()) { p class="tools" { (plain(tool)) } }
            ul class="ticks" {
                li {
                    label {
                        input type="checkbox" autocomplete="off" data-tick=(format!("step {}", step.number));
                        span { "Step " (step.number) " done: ran clear, shut: " (counter.name) }
                    }
                }
            }
            details class="note" {
                summary { "Why" }
                p { (super::said(&step.why)) "." @for note in &step.notes { " " (super::said(note)) "." } }
                @for least in &step.least { p { (super::said(least)) } }
                p { "Bounds: " (step.bounds[0]) " ml, " (step.bounds[1]) ", " (step.bounds[2]) "." }
            }
        }
    }
}

fn plain(said: &Said) -> String {
    clean(&said.plain()).into_owned()
}

/// What a hand needs, each figure below its name.
fn figures(row: &Row, titles: &Titles) -> Markup {
    let named = row
        .cells
        .iter()
        .zip(titles)
        .filter(|(cell, _)| !cell.is_empty());
    html! {
        dl class="figures" aria-label=[row.screw.as_deref().map(clean)] {
            @for (cell, title) in named {
                div { dt { (title.join(" ")) } dd { (plain(cell)) } }
            }
            @for (name, when) in &row.levels {
                div class="level" { dt { (titles[4].join(" ")) " " (clean(name)) } dd { (plain(when)) } }
            }
        }
    }
}

fn counter_markup(counter: &Counter<'_>, id: &str) -> Markup {
    let is_strokes = counter.unit == "strokes";
    let (less, more, count) = if is_strokes {
        ("− 1", "+ 1 stroke", "Strokes")
    } else {
        ("− 10 ml", "+ 10 ml", "ml")
    };
    html! {
        div class="live counter" role="group" aria-label=(format!("{count} at {}", counter.name)) {
            button type="button" class="less" aria-label=(format!("{less}, {}", counter.name)) { (less) }
            button type="button" class="more" aria-label=(format!("{more}, {}", counter.name)) { (more) }
            label class="count" for=(format!("{id}-count")) {
                span { (count) }
                input type="number" id=(format!("{id}-count")) min="0" max="99999" step="1" inputmode="numeric"
                    autocomplete="off" value="0";
                span { "of " (counter.wanted) }
            }
            p class="fluid" id=(format!("{id}-fluid")) {}
        }
    }
}

/// A jar is read off, or its mark is written down on paper.
fn jar_field(jar: &JarMark, id: &str, nth: usize, all: usize) -> Markup {
    let id = format!("{id}-jar-{nth}");
    html! {
        div class="jar" {
            label for=(id) {
                @if all > 1 { "Jar of " (clean(&jar.screw)) " reads, ml" } @else { "Jar reads, ml" }
            }
            input id=(id) type="number" min="0" max="99999" step="any" inputmode="decimal" autocomplete="off"
                aria-describedby=(format!("{id}-wanted"));
            span id=(format!("{id}-wanted")) { "wanted " (jar.mark_ml) }
        }
    }
}
