//! `bleedwright volumes`: what everything holds.

use crate::exit::Exit;
use crate::layout;
use crate::output::Output;
use crate::refusal::{Told, refuse};
use anyhow::Result;
use bleedwright_planner::volumes;
use bleedwright_report::json::{VolumesJson, pretty};
use bleedwright_report::{Paper, volumes_text};
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

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Format {
    Text,
    Json,
}

pub(crate) fn run(arguments: &VolumesArguments, output: &mut Output) -> Result<Exit> {
    let file = layout::read(&arguments.layout)?;
    let findings = &file.loaded.findings;
    let Some(network) = file.loaded.sound_network() else {
        let told = match arguments.format {
            Format::Json => Told::Json,
            Format::Text => Told::Text,
        };
        return refuse(&file, findings, "nothing was added up", told, output);
    };
    let volumes = volumes(network);
    let text = match arguments.format {
        Format::Json => pretty(&VolumesJson::new(&volumes)),
        Format::Text => volumes_text(&volumes, Paper::new(output.width(), output.has_colour())),
    };
    output.print(&text)?;
    Ok(Exit::Done)
}
