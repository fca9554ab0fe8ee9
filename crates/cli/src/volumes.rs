//! `bleedwright volumes`: what everything holds.

use crate::exit::Exit;
use crate::layout;
use crate::output::Output;
use crate::planned::sound;
use crate::refusal::Told;
use anyhow::Result;
use bleedwright_planner::volumes;
use bleedwright_report::json::{VolumesJson, pretty};
use bleedwright_report::volumes_text;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  bleedwright volumes layouts/curlew.ron
  bleedwright volumes layouts/curlew.ron --format json";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct VolumesArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// text or json
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
}

pub(crate) fn run(arguments: &VolumesArguments, output: &mut Output) -> Result<Exit> {
    let file = layout::read(&arguments.layout)?;
    let told = Told::json_if(arguments.format == Format::Json);
    let volumes = volumes(sound(&file, "nothing was added up", told, output)?);
    let text = match arguments.format {
        Format::Json => pretty(&VolumesJson::new(&volumes)),
        Format::Text => volumes_text(&volumes, output.paper()),
    };
    output.print(&text)?;
    Ok(Exit::Done)
}
