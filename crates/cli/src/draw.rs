//! `bleedwright draw`: the pipework as a picture.

use crate::destination::{Destination, Source};
use crate::exit::Exit;
use crate::layout;
use crate::output::Output;
use crate::plan_args::PlanOptions;
use crate::planned::{Planned, planned};
use crate::refusal::Told;
use anyhow::Result;
use bleedwright_drawing::{schematic, svg};
use bleedwright_report::drawn_words;
use clap::Args;
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  bleedwright draw layouts/lapwing.ron -o lapwing.svg
  bleedwright draw layouts/lapwing.ron --opened \"front left caliper\" -o lapwing.svg --overwrite
  bleedwright draw layouts/godwit.ron > godwit.svg

The picture is SVG, which any browser shows and prints. Front is up. A number in
a circle is the step of the plan that opens the screw; docs/drawing.md explains
the symbols.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct DrawArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    #[command(flatten)]
    destination: Destination,

    #[command(flatten)]
    options: PlanOptions,
}

pub(crate) fn run(arguments: &DrawArguments, output: &mut Output) -> Result<Exit> {
    let options = arguments.options.used(PlanOptions::unused_off_the_sheet)?;
    let file = layout::read(&arguments.layout)?;
    let what = "nothing was drawn";
    let Planned { network, plan } = planned(&file, &options, what, Told::Text, output)?;
    let text = svg(&schematic(network, &plan, drawn_words));
    let source = Source {
        kind: "layout",
        paths: vec![&arguments.layout],
    };
    arguments.destination.put(&text, &source, output)?;
    Ok(Exit::with(&plan))
}
