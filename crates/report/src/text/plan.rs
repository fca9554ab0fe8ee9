//! The plan on a sheet.

use super::certainty::order_text;
use super::paper::Paper;
use super::step::write_step;
use crate::number::{duration_within, ml, ml_mark, ml_or_l, ml_within};
use bleedwright_network::{Bounds, Code, Severity};
use bleedwright_planner::{Assumption, Begin, CircuitScope, Head, Method, Plan, Progress, Purpose};
use std::collections::BTreeMap;
use uom::si::f64::{Ratio, Time};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Writes the plan for a sheet of `paper`'s width.
pub fn plan_text(plan: &Plan, mut paper: Paper) -> String {
    write_head(plan, &mut paper);
    write_warnings(plan, &mut paper);
    write_list(
        &mut paper,
        "BEFORE",
        plan.preparations
            .iter()
            .map(|preparation| preparation.text.as_str()),
    );
    write_steps(plan, &mut paper);
    write_buy(plan, &mut paper);
    write_list(
        &mut paper,
        "AFTER",
        plan.checks_after.iter().map(|check| check.text.as_str()),
    );
    write_cautions(plan, &mut paper);
    write_assumptions(plan, &mut paper);
    paper.into_text()
}

fn write_head(plan: &Plan, paper: &mut Paper) {
    let head = &plan.head;
    let date = head.date.as_deref().unwrap_or("____________");
    paper.apart(
        &format!("BLEED PLAN: {}", head.vehicle),
        &format!("Date {date}"),
    );
    let mut facts = vec![format!("Split {}", head.split.text())];
    facts.extend(head.steering.map(|steering| steering.text().to_owned()));
    facts.push(match (head.fluid, head.new_fluid) {
        (Some(own), Some(new)) if own != new => {
            format!("{}, filled with {}", own.text(), new.text())
        }
        (Some(own), _) => own.text().to_owned(),
        (None, Some(new)) => format!("fluid not stated, filled with {}", new.text()),
        (None, None) => "fluid not stated".to_owned(),
    });
    paper.paragraph(&format!(
        "{}. {} {}",
        facts.join(", "),
        job(head),
        circuits(&plan.scope)
    ));
    if let Some(notes) = &head.notes {
        paper.paragraph(notes);
    }
}

/// What is done, and with which options.
fn job(head: &Head) -> String {
    let what = match head.purpose {
        Purpose::Renew => format!(
            "Renew the fluid until {} % of what leaves is old",
            share(head.residual)
        ),
        Purpose::Air if head.opened.is_empty() => "Remove air".to_owned(),
        Purpose::Air => format!("Remove air after opening {}", head.opened.join(", ")),
        Purpose::Fill => "Fill the empty system".to_owned(),
    };
    let begin = match head.begin {
        Begin::Farthest => "longest run first",
        Begin::Nearest => "shortest run first",
    };
    let stroke = match head.method {
        Method::Pedal => format!(", {:.0} % of the stroke", head.stroke.get::<percent>()),
        _ => String::new(),
    };
    let mut text = format!(
        "{what}; {} method, {begin}{stroke}, {:.0} °C.",
        head.method.word(),
        head.temperature.get::<degree_celsius>()
    );
    if !head.done.is_empty() {
        text.push_str(&format!(" Done before: {}.", head.done.join(", ")));
    }
    text
}

/// A share in percent, without decimals that say nothing.
fn share(share: Ratio) -> String {
    let text = format!("{:.1}", share.get::<percent>());
    text.strip_suffix(".0").unwrap_or(&text).to_owned()
}

fn circuits(scope: &[CircuitScope]) -> String {
    let list = |is_bled: bool| -> Vec<&CircuitScope> {
        scope
            .iter()
            .filter(|circuit| circuit.is_bled == is_bled)
            .collect()
    };
    let describe = |circuits: &[&CircuitScope]| {
        // One reason for several circuits is said once.
        let mut parts: Vec<String> = Vec::new();
        let mut rest = circuits.to_vec();
        while let Some(first) = rest.first().copied() {
            let (same, other): (Vec<_>, Vec<_>) = rest
                .into_iter()
                .partition(|circuit| circuit.why == first.why);
            let names: Vec<&str> = same
                .iter()
                .map(|circuit| circuit.circuit.as_str())
                .collect();
            parts.push(format!("{} ({})", names.join(", "), first.why));
            rest = other;
        }
        parts.join("; ")
    };
    let (bled, shut) = (list(true), list(false));
    let mut text = format!("Bled: {}.", describe(&bled));
    if !shut.is_empty() {
        text.push_str(&format!(" Not bled: {}.", describe(&shut)));
    }
    text
}

fn write_warnings(plan: &Plan, paper: &mut Paper) {
    if plan.is_unsafe_by_options {
        paper.danger("UNSAFE ORDER: the order given breaks a rule of the pipework, see below.");
    }
    // What stays is said with its volume below.
    let is_said = |code| matches!(code, Code::NeedsRoutine | Code::NotAtTop);
    let mut codes: Vec<Code> = Vec::new();
    for finding in &plan.findings {
        if finding.severity != Severity::Warning
            || is_said(finding.code)
            || codes.contains(&finding.code)
        {
            continue;
        }
        codes.push(finding.code);
        let more = plan
            .findings
            .iter()
            .filter(|other| other.code == finding.code)
            .count()
            - 1;
        let more = match more {
            0 => String::new(),
            more => format!(" (and {more} more like it)"),
        };
        paper.warning(&format!(
            "! {} {}{more}",
            finding.code.text(),
            finding.message
        ));
    }
    for remains in &plan.remains {
        paper.warning(&format!(
            "! stays in `{}`: {} {}",
            remains.part,
            ml_within(remains.volume),
            remains.text
        ));
    }
}

fn write_list<'p>(paper: &mut Paper, heading: &str, texts: impl Iterator<Item = &'p str>) {
    paper.heading(heading);
    paper.tick_list(texts);
}

fn write_steps(plan: &Plan, paper: &mut Paper) {
    paper.heading("STEPS");
    let calls: Vec<String> = plan
        .calls
        .iter()
        .map(|call| match call.says {
            "" => call.does.to_owned(),
            says => format!("{} {}, \"{says}\"", call.who, call.does),
        })
        .collect();
    let clear = plan
        .steps
        .first()
        .map_or(Progress::Strokes(0), |step| step.stop_rule.clear);
    paper.paragraph(&match clear {
        Progress::Strokes(clear) => format!(
            "Each stroke: {}. Done: ml reached AND clear for {clear} strokes. Top up at the \
             stroke or the mark, whichever is first. Not clear at give-up: stop, find where air \
             enters.",
            calls.join("; ")
        ),
        Progress::Volume(clear) => format!(
            "Each screw, one person: {}. Done: ml reached AND the last {} ml without a bubble. \
             {}Not so at give-up: stop, find where air enters.",
            calls.join("; "),
            ml_mark(clear),
            match plan.head.method {
                Method::Reverse => {
                    "Draw off at the ml or at the maximum mark, whichever is first. "
                }
                Method::Vacuum | Method::Gravity => {
                    "Top up at the ml or the mark, whichever is first. "
                }
                Method::Pedal | Method::Pressure => "",
            }
        ),
    });
    let (mut previous, mut jars) = (None, BTreeMap::new());
    for step in &plan.steps {
        write_step(step, plan, previous, &mut jars, paper);
        previous = Some(step);
    }
    paper.paragraph(&format!(
        "{}In all {}.",
        other_order(plan),
        total_time(plan)
    ));
    for note in &plan.order_notes {
        paper.paragraph(&format!("Order: {note}."));
    }
}

/// Why the other school's order was not taken; nothing where there is none.
fn other_order(plan: &Plan) -> String {
    let Some(other) = &plan.other_order else {
        return String::new();
    };
    let school = match other.begin {
        Begin::Farthest => "longest run first",
        Begin::Nearest => "shortest run first",
    };
    let (this, that) = (other.this_push, other.other_push);
    let difference = ((that - this) / this).get::<percent>();
    if difference.abs() < 2.0 {
        return format!("Why not {school}? It takes almost the same. ");
    }
    let more = if difference > 0.0 { "more" } else { "less" };
    format!(
        "Why not {school}? It takes {:.0} % {more} ({} ml, not {}). ",
        difference.abs(),
        ml_mark(that),
        ml_mark(this)
    )
}

/// The time at the screws with its bounds; the walks are not in it.
fn total_time(plan: &Plan) -> String {
    let zero = Bounds::exact(Time::default());
    let time = plan
        .steps
        .iter()
        .fold(zero, |sum, step| sum.zip(step.time, |a, b| a + b));
    duration_within(time)
}

fn write_buy(plan: &Plan, paper: &mut Paper) {
    let bottles: Vec<String> = plan
        .buy
        .bottles
        .iter()
        .map(|(size, count)| format!("{count} x {}", ml_or_l(*size)))
        .collect();
    let parts: Vec<String> = plan
        .buy
        .parts
        .iter()
        .map(|(what, volume)| format!("{what} {}", ml_mark(*volume)))
        .collect();
    let text = format!(
        "{} ml sealed: {} ({}). Jar for {}.",
        ml_mark(plan.buy.needed),
        bottles.join(" + "),
        parts.join(", "),
        ml_or_l(plan.buy.catch)
    );
    paper.strong_start("BUY ", &text);
}

fn write_cautions(plan: &Plan, paper: &mut Paper) {
    paper.strong_start("CAUTION: ", &plan.cautions.join(" "));
}

fn write_assumptions(plan: &Plan, paper: &mut Paper) {
    let share = plan.spread.assumed_share().get::<percent>();
    let list: Vec<String> = plan.assumptions.iter().map(describe).collect();
    let mut text = format!("{}.", list.join("; "));
    if let Some(source) = &plan.spread.measure_next {
        text.push_str(&format!(
            " {share:.0} % of the spread is assumed; measuring {} would narrow it \
             most, by {} ml.",
            source.what,
            ml(source.volume)
        ));
    }
    if let Some(order) = order_text(&plan.order_certainty) {
        text.push_str(&format!(" {order}"));
    }
    paper.strong_start("ASSUMED: ", &text);
}

/// An assumption and how many parts it concerns; their names are in the JSON.
fn describe(assumption: &Assumption) -> String {
    match assumption.of.as_slice() {
        [] => assumption.text.clone(),
        [one] => format!("{} ({one})", assumption.text),
        several => format!("{} ({} x)", assumption.text, several.len()),
    }
}
