//! `bleedwright check`: everything found in a layout.

use crate::exit::Exit;
use crate::layout::{self, LayoutFile};
use crate::output::Output;
use crate::plan_args::PlanOptions;
use anyhow::Result;
use bleedwright_network::Finding;
use bleedwright_planner::plan_loaded;
use bleedwright_report::json::{CheckJson, pretty};
use bleedwright_report::{findings_plain, paragraph};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  bleedwright check layouts/lapwing.ron
  bleedwright check layouts/whimbrel.ron --method reverse
  bleedwright check layouts/plover.ron --format plain

Every finding carries a code that docs/findings.md explains.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CheckArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// text with the lines of the file, plain with one line a finding, or json
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

    #[command(flatten)]
    options: PlanOptions,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Format {
    Text,
    Plain,
    Json,
}

pub(crate) fn run(arguments: &CheckArguments, output: &mut Output) -> Result<Exit> {
    let options = arguments.options.used(PlanOptions::unused_off_the_sheet)?;
    let file = layout::read(&arguments.layout)?;
    let findings = plan_loaded(&file.loaded, &options).findings;
    let text = match arguments.format {
        Format::Json => {
            let network = file.loaded.network.as_ref();
            pretty(&CheckJson::new(
                &file.name,
                network,
                &findings,
                &file.source,
            ))
        }
        Format::Plain => findings_plain(&findings, &file.name, &file.source),
        Format::Text => {
            let mut text = output.findings(&findings, &file.name, &file.source);
            text.push_str(&paragraph(&summary(&file, &findings), output.width()));
            text
        }
    };
    output.print(&text)?;
    Ok(Exit::for_findings(&findings))
}

fn summary(file: &LayoutFile, findings: &[Finding]) -> String {
    use bleedwright_network::Severity::{Advice, Error, Warning};
    let count = |severity| {
        findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    };
    let number = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    };
    let found = format!(
        "{}, {}, {}",
        number(count(Error), "error", "errors"),
        number(count(Warning), "warning", "warnings"),
        number(count(Advice), "piece of advice", "pieces of advice")
    );
    match &file.loaded.network {
        Some(network) if count(Error) == 0 => {
            let circuits: Vec<String> = network
                .circuits()
                .map(|(_, circuit)| {
                    let screws = number(circuit.screws.len(), "screw", "screws");
                    format!("{} ({screws})", circuit.name)
                })
                .collect();
            let wheels = network.wheels().len();
            let braked = number(wheels, "wheel with a brake", "wheels with a brake");
            // A clutch has no split.
            let split = if wheels == 0 {
                String::new()
            } else {
                format!(" Split {};", network.split().text())
            };
            let circuits = circuits.join(", ");
            format!(
                "{}: {found}.{split} {braked}; circuits: {circuits}.",
                file.name
            )
        }
        _ => format!("{}: {found}. Nothing can be planned.", file.name),
    }
}
