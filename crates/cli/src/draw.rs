//! `bleedwright draw`: the pipework as a picture.

use crate::Exit;
use crate::layout;
use crate::output::{Output, complain};
use crate::plan_args::PlanOptions;
use crate::refusal::{Told, refuse};
use crate::whole_file::Claim;
use anyhow::{Context, Result, bail};
use bleedwright_drawing::{schematic, svg};
use bleedwright_planner::plan;
use clap::Args;
use std::path::{Path, PathBuf};

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

    /// Write into this file instead of to standard output
    #[arg(short, long, value_name = "FILE.svg")]
    output: Option<PathBuf>,

    /// Let -o write over a file that exists
    #[arg(long, requires = "output")]
    overwrite: bool,

    #[command(flatten)]
    options: PlanOptions,
}

pub(crate) fn run(arguments: &DrawArguments, output: &mut Output) -> Result<Exit> {
    if let Some(unused) = arguments.options.unused() {
        complain(&unused);
        return Ok(Exit::Usage);
    }
    let file = layout::read(&arguments.layout)?;
    let options = arguments.options.to_options();
    let mut findings = file.loaded.findings.clone();
    let planned = file.loaded.sound_network().map(|network| {
        let result = plan(network, &options);
        findings.extend(result.findings);
        findings.sort_by_key(|finding| finding.severity);
        (network, result.plan)
    });
    let Some((network, Some(plan))) = planned else {
        return refuse(&file, &findings, "nothing was drawn", Told::Text, output);
    };
    let text = svg(&schematic(network, Some(&plan)));
    match &arguments.output {
        None => output.print(&text)?,
        Some(path) => write(
            path,
            &arguments.layout,
            text.as_bytes(),
            arguments.overwrite,
        )?,
    }
    Ok(if plan.is_unsafe_by_options {
        Exit::UnsafeByOptions
    } else {
        Exit::Done
    })
}

fn write(path: &Path, layout: &Path, content: &[u8], may_overwrite: bool) -> Result<()> {
    let whole = |path: &Path| std::fs::canonicalize(path).ok();
    if whole(path).is_some() && whole(path) == whole(layout) {
        bail!("-o names the layout itself, which is left as it is; choose another name");
    }
    let claim = Claim::new(path)?;
    if may_overwrite {
        claim.replace(content)
    } else {
        claim
            .create(content)
            .context("-o writes over nothing without --overwrite")
    }
}
