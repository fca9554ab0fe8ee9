//! `bleedwright compare`: two layouts, or one under several sets of options.

use crate::destination::{Destination, Source};
use crate::exit::{Exit, usage};
use crate::interrupt::end_on_interrupt;
use crate::layout::{self, LayoutFile};
use crate::output::Output;
use crate::pedal::usual_force;
use crate::plan_args::PlanOptions;
use crate::planned::{Planned, planned};
use crate::progress::Progress;
use crate::quantity_args::count_of_orders;
use crate::refusal::Told;
use anyhow::Result;
use bleedwright_drawing::schematic;
use bleedwright_network::Network;
use bleedwright_pedal::{Control, Question, assess, controls, remaining};
use bleedwright_planner::Options;
use bleedwright_report::json::{ComparisonJson, OrdersJson, pretty};
use bleedwright_report::{
    LessonPedal, LessonSide, comparison_text, drawn_words, lesson_html, orders_text,
};
use bleedwright_simulation::{Parameters, Side, every_order};
use clap::{Args, ValueEnum};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::path::{Path, PathBuf};

const EXAMPLES: &str = "\
Examples:
  bleedwright compare layouts/lapwing.ron layouts/plover.ron
  bleedwright compare layouts/lapwing.ron --with \"--begin nearest\"
  bleedwright compare layouts/lapwing.ron --with \"--method pedal\" --with \"--method pressure\"
  bleedwright compare layouts/lapwing.ron layouts/plover.ron --format html -o lesson.html
  bleedwright compare layouts/lapwing.ron --orders --for fill
  bleedwright compare layouts/lapwing.ron --for fill --without-gravity --with \"--begin nearest\"

How much does the order matter? --orders simulates every order that breaks no
rule of the pipework. If it hardly matters, that is the answer. Where there are
too many, it says how many of how many were looked at.";

/// Rows of the tables of a page, all sides together.
///
/// ASSUMPTION: about 130 bytes a row, so that a page stays near 5 MB, which a browser of a class opens.
const MOST_ROWS: usize = 40_000;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CompareArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// A second layout, planned with the same options
    other: Option<PathBuf>,

    /// A set of plan options for the first layout; given once it is compared
    /// with the options of the command line, else the sets with each other
    #[arg(
        long,
        value_name = "PLAN OPTIONS",
        allow_hyphen_values = true,
        conflicts_with = "other"
    )]
    with: Vec<String>,

    /// Simulate every admissible order of the screws
    #[arg(long, conflicts_with_all = ["other", "with"])]
    orders: bool,

    /// Try up to so many orders, however long it takes [default: up to 400, and fewer where each takes long]
    #[arg(long, value_name = "COUNT", requires = "orders", value_parser = count_of_orders)]
    most_orders: Option<usize>,

    /// Leave out the gravity filling that the plans ask for, so that the air
    /// leaves by the steps alone
    #[arg(long)]
    without_gravity: bool,

    /// text, json, or html for a page to step through
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

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
}

/// A layout with the options that it is planned under.
struct Case<'a> {
    label: String,
    layout: &'a Path,
    options: Options,
}

/// The layouts of all cases, each read once: standard input can be read no
/// second time.
fn read_layouts<'a>(cases: &[Case<'a>]) -> Result<BTreeMap<&'a Path, LayoutFile>> {
    let mut files = BTreeMap::new();
    for case in cases {
        if let Entry::Vacant(new) = files.entry(case.layout) {
            new.insert(layout::read(case.layout)?);
        }
    }
    Ok(files)
}

pub(crate) fn run(arguments: &CompareArguments, output: &mut Output) -> Result<Exit> {
    let cases = cases(arguments)?;
    if arguments.orders && arguments.format == Format::Html {
        return Err(usage(
            "--orders has no page: leave out --format html, or compare two orders by --with",
        ));
    }
    let parameters = Parameters {
        is_filled_by_gravity: !arguments.without_gravity,
        ..Parameters::default()
    };
    if cases.iter().any(|case| !case.options.done.is_empty()) {
        return Err(usage("`compare` simulates whole bleeds: leave out --done"));
    }
    let files = read_layouts(&cases)?;
    let source = Source {
        kind: "layout",
        paths: files.keys().copied().collect(),
    };
    let mut rows = 0;
    let mut sides = Vec::with_capacity(cases.len());
    let mut networks = Vec::with_capacity(cases.len());
    for case in &cases {
        let file = &files[case.layout];
        let what = format!("nothing was compared: no plan ({})", case.label);
        let told = Told::json_if(arguments.format == Format::Json);
        let Planned { network, plan } = planned(file, &case.options, &what, told, output)?;
        if arguments.orders {
            end_on_interrupt("ended; no file was written")?;
            let mut progress = Progress::new("orders looked at");
            let orders = every_order(
                network,
                &case.options,
                &plan,
                &parameters,
                arguments.most_orders,
                |looked_at, of| progress.show(looked_at, of),
            )?;
            drop(progress);
            let text = match arguments.format {
                Format::Json => pretty(&OrdersJson::new(&plan, &orders)),
                Format::Text | Format::Html => {
                    orders_text(&plan, &orders, arguments.destination.paper(output))
                }
            };
            arguments.destination.put(&text, &source, output)?;
            return Ok(Exit::with(&plan));
        }
        let is_page = arguments.format == Format::Html;
        if is_page {
            rows += (plan.steps.len() + 1)
                * (network.all_cells().count() + network.all_links().count());
        }
        if rows > MOST_ROWS {
            return Err(usage(format!(
                "the page would hold {rows} rows, one for each line and part after every step, and a browser follows up to \
                 {MOST_ROWS}: compare with --format text or json, fewer sets by --with, or a layout of one circuit"
            )));
        }
        sides.push(Side::new(
            case.label.clone(),
            network,
            &case.options,
            plan,
            &parameters,
            is_page,
        )?);
        networks.push(network);
    }
    let text = match arguments.format {
        Format::Json => pretty(&ComparisonJson::new(&sides)),
        Format::Text => comparison_text(&sides, arguments.destination.paper(output)),
        Format::Html => lesson(&networks, &sides),
    };
    arguments.destination.put(&text, &source, output)?;
    let mut exits = sides.iter().map(|side| Exit::with(&side.plan));
    Ok(exits.find(|exit| *exit != Exit::Done).unwrap_or(Exit::Done))
}

/// The page to step through.
fn lesson(networks: &[&Network], sides: &[Side]) -> String {
    let lessons: Vec<LessonSide<'_>> = sides
        .iter()
        .zip(networks)
        .map(|(side, network)| LessonSide {
            side,
            network,
            picture: schematic(network, &side.plan, drawn_words),
            pedals: pedals(network),
        })
        .collect();
    lesson_html(&lessons)
}

/// Every pedal and lever with its circuits lost in turn.
fn pedals(network: &Network) -> Vec<LessonPedal> {
    let question = |control: &Control| Question {
        force: usual_force(network, control),
        is_boosted: true,
        air: None,
        readings: Vec::new(),
        symptom: None,
        candidates: Vec::new(),
    };
    controls(network)
        .into_iter()
        .map(|control| LessonPedal {
            remaining: remaining(network, &control),
            assessment: assess(network, &control, &question(&control)).ok(),
            name: control.name,
        })
        .collect()
}

/// What is to be compared, or what is wrong with the question.
fn cases(arguments: &CompareArguments) -> Result<Vec<Case<'_>>> {
    let own = arguments.options.used(PlanOptions::unused_off_the_sheet)?;
    let with_own = |layout| Case {
        label: bleedwright_report::clean(&layout::file_name(layout)).into_owned(),
        layout,
        options: own.clone(),
    };
    let first = arguments.layout.as_path();
    if arguments.orders {
        return Ok(vec![with_own(first)]);
    }
    if let Some(other) = &arguments.other {
        return Ok(vec![with_own(first), with_own(other)]);
    }
    let mut cases = arguments
        .with
        .iter()
        .map(|set| {
            Ok(Case {
                label: set.clone(),
                layout: first,
                options: PlanOptions::of_set(set, PlanOptions::unused_off_the_sheet)?,
            })
        })
        .collect::<Result<Vec<_>>>()?;
    match cases.len() {
        0 => Err(usage(
            "nothing to compare with: give a second layout, --with \"PLAN OPTIONS\", or --orders",
        )),
        1 => {
            let own = Case {
                label: "as on the command line".to_owned(),
                ..with_own(first)
            };
            cases.insert(0, own);
            Ok(cases)
        }
        _ => Ok(cases),
    }
}
