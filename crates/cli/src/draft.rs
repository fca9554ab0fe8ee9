//! `bleedwright draft`: a layout file from a few measurements.

use crate::destination::Source;
use crate::dialogue::{Dialogue, ask};
use crate::draft_args::{DraftArguments, measures};
use crate::draft_options::{as_call, gives_nothing};
use crate::exit::{Ended, Exit, usage};
use crate::output::{Output, complain, complain_at_length};
use crate::shape;
use crate::update::update;
use anyhow::Result;
use bleedwright_drafting::{Draft, draft};
use bleedwright_network::{Loaded, load};
use bleedwright_planner::{Options, plan, worth_measuring};
use bleedwright_report::{clean, measurement_text, order_text};
use std::io::{IsTerminal, stderr, stdin};
use uom::si::volume::milliliter;

/// So many measurements are named after a draft.
const MOST_MEASUREMENTS: usize = 4;

pub(crate) fn run(arguments: &DraftArguments, output: &mut Output) -> Result<Exit> {
    if let Some(path) = &arguments.update {
        if !gives_nothing(arguments) || arguments.ask || arguments.destination.file().is_some() {
            return Err(usage(
                "--update changes a file that exists; give it --set and nothing else",
            ));
        }
        return update(path, &arguments.set, output);
    }
    let mut arguments = arguments.clone();
    let is_asked = arguments.ask || gives_nothing(&arguments);
    if is_asked {
        let dialogue = Dialogue {
            answers: &mut stdin().lock(),
            screen: &mut stderr(),
            width: output.width(),
            shows_answers: stdin().is_terminal(),
        };
        ask(&mut arguments, dialogue)?;
    }
    let arguments = &arguments;
    let Draft { text, loaded } = if let Some(name) = &arguments.from {
        let text = shape::find(name, arguments.shapes.as_deref())?;
        Draft {
            loaded: load(text.as_bytes()),
            text,
        }
    } else {
        draft(&measures(arguments)).map_err(|impossible| {
            complain(&impossible.to_string());
            if is_asked {
                complain("your answers as options, to mend and give again:");
                // On one line of its own, to be copied.
                complain_at_length(&format!("{}\n", clean(&as_call(arguments))));
            }
            Ended::Told(Exit::Usage)
        })?
    };
    let shape = match (&arguments.from, &arguments.shapes) {
        (Some(name), Some(folder)) => Some(folder.join(format!("{name}.ron"))),
        _ => None,
    };
    let source = Source {
        kind: "layout",
        paths: shape.as_deref().into_iter().collect(),
    };
    arguments.destination.put(&text, &source, output)?;
    let Some(path) = arguments.destination.file() else {
        return Ok(Exit::Done);
    };
    let shown = clean(&path.to_string_lossy()).into_owned();
    let next = format!(
        "`{shown}` is written. `bleedwright check {shown}` says what to look at, `bleedwright plan \
         {shown}` what to measure first. Figures that end in ? are guesses."
    );
    output.say(&next)?;
    for line in worth(&loaded) {
        output.say(&line)?;
    }
    Ok(Exit::Done)
}

/// What to measure first, and whether the order stands already.
fn worth(loaded: &Loaded) -> Vec<String> {
    let Some(network) = loaded.sound_network() else {
        return Vec::new();
    };
    // Where stored pressure stands in the way nothing is planned, and `check` says so.
    let options = Options::default();
    let Some(plan) = plan(network, &options).plan else {
        return Vec::new();
    };
    let worth = worth_measuring(network, &options, &plan, MOST_MEASUREMENTS);
    let mut lines: Vec<String> = worth
        .measurements
        .iter()
        .map(|it| {
            let gain = it.gain.get::<milliliter>();
            let settles: Vec<String> = it
                .settles
                .iter()
                .map(|[first, then]| format!("; settles whether {first} or {then} goes first"))
                .collect();
            format!(
                "- {}: narrows the fluid to buy by {gain:.0} ml, of a spread of {:.0} ml{}",
                measurement_text(it),
                worth.width.get::<milliliter>(),
                settles.concat()
            )
        })
        .collect();
    if !lines.is_empty() {
        lines.insert(0, "WORTH MEASURING, the most telling first:".to_owned());
    }
    lines.extend(order_text(&plan.order_certainty).map(String::from));
    lines
}
