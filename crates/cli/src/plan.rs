//! `bleedwright plan`: the bleed plan.

use crate::destination::{Destination, Source};
use crate::exit::{Exit, usage};
use crate::layout;
use crate::output::Output;
use crate::plan_args::PlanOptions;
use crate::planned::{Planned, planned};
use crate::refusal::Told;
use anyhow::Result;
use bleedwright_drawing::{schematic, schematic_for_card, svg_for_page};
use bleedwright_planner::worth_measuring;
use bleedwright_print::pdf;
use bleedwright_report::json::{PlanJson, pretty};
use bleedwright_report::{
    Card, Pages, card_html, drawn_words, plan_markdown, plan_text, record_of,
};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

const EXAMPLES: &str = "\
Examples:
  bleedwright plan layouts/lapwing.ron
  bleedwright plan layouts/lapwing.ron --opened \"front left caliper\"
  bleedwright plan layouts/lapwing.ron --why
  bleedwright plan layouts/plover.ron --for fill --bottle \"500 ml\"
  bleedwright plan layouts/whimbrel.ron --begin nearest --format json
  bleedwright plan layouts/lapwing.ron --format html -o card.html
  bleedwright plan layouts/lapwing.ron --format pdf -o card.pdf
  bleedwright plan layouts/curlew.ron --done \"front left inner\"";

/// So many measurements are worth a line.
const MOST_MEASUREMENTS: usize = 5;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct PlanArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// text for a sheet, json, html for a card to work by on a tablet or on
    /// paper, markdown, or pdf for the printer
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

    /// After what to do, why: bounds, runs, reasons, assumptions; `--why only`
    /// leaves out what to do. Text only: the other formats have both
    #[arg(long, value_name = "PAGE", num_args = 0..=1, default_missing_value = "too")]
    why: Option<Why>,

    /// One line a step and nothing else. Text only
    #[arg(long, conflicts_with = "why")]
    brief: bool,

    #[command(flatten)]
    destination: Destination,

    #[command(flatten)]
    options: PlanOptions,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
    Html,
    Markdown,
    Pdf,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Why {
    /// After what to do
    Too,
    /// Without what to do
    Only,
}

impl PlanArguments {
    fn pages(&self) -> Pages {
        match self.why {
            _ if self.brief => Pages::Brief,
            None => Pages::Work,
            Some(Why::Too) => Pages::Both,
            Some(Why::Only) => Pages::Why,
        }
    }
}

pub(crate) fn run(arguments: &PlanArguments, output: &mut Output) -> Result<Exit> {
    let options = arguments.options.used(PlanOptions::unused)?;
    if arguments.format == Format::Pdf && arguments.destination.is_terminal() {
        return Err(usage(
            "a PDF is no text for a terminal; give -o card.pdf, or lead the output into a file or a program",
        ));
    }
    let is_text = arguments.format == Format::Text;
    if !is_text && arguments.pages() != Pages::Work {
        return Err(usage(
            "--why and --brief choose pages of the text; every other format has all of them",
        ));
    }
    let file = layout::read(&arguments.layout)?;
    let (what, told) = (
        "nothing was planned",
        Told::json_if(arguments.format == Format::Json),
    );
    let Planned { network, mut plan } = planned(&file, &options, what, told, output)?;
    // Many plans are made to find out; who works by the first page does not wait for them.
    if !is_text || matches!(arguments.pages(), Pages::Both | Pages::Why) {
        plan.worth = Some(worth_measuring(network, &options, &plan, MOST_MEASUREMENTS));
    }
    let sheet = match arguments.format {
        Format::Json => pretty(&PlanJson::new(&plan, &file.source)).into_bytes(),
        Format::Html => {
            let picture = svg_for_page(&schematic(network, &plan, drawn_words));
            card_html(&plan, &record_of(network, &plan, &options), Some(&picture)).into_bytes()
        }
        Format::Markdown => plan_markdown(&plan).into_bytes(),
        Format::Pdf => {
            let picture = schematic_for_card(network, &plan, drawn_words);
            pdf(
                &Card::new(&plan),
                &layout_name(&arguments.layout),
                Some(&picture),
            )?
        }
        Format::Text => {
            let paper = arguments.destination.paper(output);
            plan_text(&plan, arguments.pages(), paper).into_bytes()
        }
    };
    let source = Source {
        kind: "layout",
        paths: vec![&arguments.layout],
    };
    arguments.destination.put(&sheet, &source, output)?;
    Ok(Exit::with(&plan))
}

/// The name of the layout's file; empty for standard input.
fn layout_name(path: &Path) -> String {
    if path == Path::new("-") {
        return String::new();
    }
    layout::file_name(path)
}
