//! One step on the sheet.

use super::paper::Paper;
use crate::number::{duration, metres, ml, ml_mark, ml_range, mm, two_figures};
use bleedwright_planner::{Drive, LevelAction, LevelStop, Method, Plan, Progress, Step, StepScrew};
use std::collections::BTreeMap;
use uom::si::f64::Volume;
use uom::si::ratio::percent;
use uom::si::volume::milliliter;
use uom::si::volume_rate::milliliter_per_second;

/// Stops listed one by one; beyond, the rhythm is enough.
const MOST_STOPS: usize = 6;

/// Above this Reynolds number the flow model does not hold.
const LAMINAR_LIMIT: f64 = 2000.0;

const INDENT: &str = "    ";

/// Writes a step; `jars` is what each jar holds before it, in whole millilitres
/// as printed, so that the marks on the sheet add up. Screws that are opened
/// together have a jar each.
pub(crate) fn write_step(
    step: &Step,
    plan: &Plan,
    previous: Option<&Step>,
    jars: &mut BTreeMap<String, f64>,
    paper: &mut Paper,
) {
    let is_paired = plan.steps.iter().any(|step| step.screws.len() > 1);
    let names: Vec<String> = step
        .screws
        .iter()
        .map(|screw| screw.screw.to_uppercase())
        .collect();
    let mut marks: Vec<String> = Vec::new();
    for screw in &step.screws {
        let jar = if is_paired {
            screw.circuit.as_str()
        } else {
            ""
        };
        let mark = jars.entry(jar.to_owned()).or_default();
        *mark += screw.push.nominal.get::<milliliter>().round();
        marks.push(format!("{mark:.0}"));
    }
    let marks = match (plan.head.method, is_paired) {
        (Method::Reverse, _) => format!("{} so far", marks.join(" + ")),
        (_, true) => format!("jars {}", marks.join(" + ")),
        (_, false) => format!("jar {}", marks.join(" + ")),
    };
    let digits = plan.steps.len().to_string().len();
    let amounts: Vec<String> = step
        .screws
        .iter()
        .map(|screw| ml_mark(screw.push.nominal))
        .collect();
    let amount = amounts.join(" + ");
    let work = match step.drive {
        Drive::Strokes {
            strokes,
            pedal_travel,
        } => format!(
            "push {amount} ml, {} strokes to {}",
            strokes.nominal,
            mm(pedal_travel.nominal)
        ),
        Drive::Steady { .. } if plan.head.method == Method::Reverse => {
            format!("push in {amount} ml")
        }
        Drive::Steady { .. } => format!("let out {amount} ml"),
    };
    let heading = format!(
        "{:>digits$} [ ] {}: {work}; {marks}",
        step.number,
        names.join(" + ")
    );
    let tools = one_or_all(&step.screws.iter().map(tool).collect::<Vec<_>>());
    let mut sentences = Vec::new();
    if !paper.heading_and_rest(&heading, &tools) {
        sentences.push(format!("{tools}."));
    }
    sentences.push(bounds(step));
    sentences.extend(level_stops(&step.level_stops));
    if let Some(back) = step.draw_back {
        sentences.push(format!("Then draw {} ml back.", ml_mark(back)));
    }
    // Inside a circuit the comparison with the step before says it all.
    let is_same_circuit =
        previous.is_some_and(|previous| previous.screws[0].circuit_id == step.screws[0].circuit_id);
    let mut why = Vec::new();
    if !is_same_circuit || step.after_previous.is_none() {
        why.push(step.why_here.clone());
    }
    why.extend(
        step.after_previous
            .clone()
            .filter(|after| *after != step.why_here || why.is_empty()),
    );
    sentences.push(format!("Why: {}.", why.join("; ")));
    sentences.extend(
        step.screws
            .iter()
            .map(|screw| run(screw, step.screws.len() > 1)),
    );
    sentences.extend(step.notes.iter().map(|note| format!("Note: {note}.")));
    paper.indented(INDENT, INDENT, &sentences.join(" "));
}

/// What the bold line leaves out.
fn bounds(step: &Step) -> String {
    let time = duration(step.time);
    let give_up = ml(step.stop_rule.give_up);
    let range = ml_range(step.push);
    match step.drive {
        Drive::Strokes { strokes, .. } => {
            // The count is worked out with the smallest stroke that the
            // tolerances allow; most strokes bring more.
            let each = step.push.nominal / strokes.nominal as f64;
            format!(
                "{range} ml, {} strokes of {}+ ml, {time}; give up at {give_up} ml.",
                if strokes.low == strokes.high {
                    strokes.low.to_string()
                } else {
                    format!("{}-{}", strokes.low, strokes.high)
                },
                ml(each)
            )
        }
        Drive::Steady { flow, reynolds, .. } => {
            let rate = flow.nominal.get::<milliliter_per_second>() * 60.0;
            let doubt = if reynolds > LAMINAR_LIMIT {
                " (may be slower: the flow is not laminar)"
            } else {
                ""
            };
            format!(
                "{range} ml at {} ml a minute, {time}{doubt}; give up at {give_up} ml.",
                two_figures(rate)
            )
        }
    }
}

fn tool(screw: &StepScrew) -> String {
    let spanner = screw
        .spanner
        .as_ref()
        .map(|spanner| format!("spanner {spanner}"));
    let parts: Vec<String> = spanner.into_iter().chain(screw.torque.clone()).collect();
    parts.join(", ")
}

fn one_or_all(texts: &[String]) -> String {
    let mut texts: Vec<&str> = texts
        .iter()
        .map(String::as_str)
        .filter(|t| !t.is_empty())
        .collect();
    texts.dedup();
    texts.join(" + ")
}

/// The run of a screw; its name is repeated where a step has two.
fn run(screw: &StepScrew, is_named: bool) -> String {
    let name = if is_named {
        format!("{} {} ml: ", screw.screw, ml_mark(screw.push.nominal))
    } else {
        String::new()
    };
    let contents = &screw.contents;
    let parts: Vec<String> = [
        (contents.shared.nominal, "shared"),
        (contents.own.nominal, "own"),
        (contents.cavities.nominal, "cavity"),
    ]
    .into_iter()
    .filter(|(volume, _)| *volume > Volume::default())
    .map(|(volume, what)| format!("{} {what}", ml(volume)))
    .collect();
    let holds = if parts.is_empty() {
        "0".to_owned()
    } else {
        parts.join(" + ")
    };
    let mut text = format!(
        "{name}{}, {}, {}: {holds} ml (plug {})",
        screw.part,
        screw.circuit,
        metres(screw.run_length.nominal),
        ml(screw.plug)
    );
    if let Some(inside) = screw.old_left_inside
        && inside.get::<percent>() >= 0.5
    {
        text.push_str(&format!("; {:.0} % old stays", inside.get::<percent>()));
    }
    text.push('.');
    text
}

/// The stops, compartment by compartment.
fn level_stops(stops: &[LevelStop]) -> Option<String> {
    let mut compartments: Vec<&str> = stops.iter().map(|stop| stop.compartment.as_str()).collect();
    compartments.sort_unstable();
    compartments.dedup();
    let action = match stops.first()?.action {
        LevelAction::TopUp => "TOP UP",
        LevelAction::DrawOff => "DRAW OFF",
    };
    let lists: Vec<String> = compartments
        .into_iter()
        .map(|compartment| {
            let places: Vec<(u64, &str)> = stops
                .iter()
                .filter(|stop| stop.compartment == compartment)
                .map(|stop| match stop.after {
                    Progress::Strokes(strokes) => (strokes, ""),
                    // Rounded down: sooner is safe.
                    Progress::Volume(volume) => (volume.get::<milliliter>().floor() as u64, " ml"),
                })
                .collect();
            let unit = places.first().map_or("", |(_, unit)| unit);
            let places: Vec<u64> = places.iter().map(|(place, _)| *place).collect();
            let shown: Vec<String> = places.iter().take(MOST_STOPS).map(u64::to_string).collect();
            let shown = shown.join(", ");
            let shown = match places.first() {
                Some(0) if places.len() == 1 => "before the first".to_owned(),
                Some(0) => {
                    let rest = shown.trim_start_matches(['0', ',', ' ']);
                    format!("before the first, after {rest}")
                }
                _ => format!("after {shown}"),
            };
            let more = match places.as_slice() {
                [.., before, last] if places.len() > MOST_STOPS => {
                    format!(" and every {} on", last - before)
                }
                _ => String::new(),
            };
            format!("{compartment} {shown}{unit}{more}")
        })
        .collect();
    Some(format!("{action} {}.", lists.join("; ")))
}
