//! `bleedwright compare`: two layouts, or one under several sets of options.

use crate::Exit;
use crate::destination::{Destination, Source};
use crate::layout::{self, LayoutFile};
use crate::output::{Output, complain};
use crate::pedal::usual_force;
use crate::plan_args::PlanOptions;
use crate::refusal::{Told, refuse};
use anyhow::{Result, anyhow};
use bleedwright_drawing::schematic;
use bleedwright_network::{Finding, Network};
use bleedwright_pedal::{Control, Question, assess, controls, remaining};
use bleedwright_planner::{Options, Plan, plan};
use bleedwright_report::json::{ComparisonJson, OrdersJson, pretty};
use bleedwright_report::{LessonPedal, LessonSide, comparison_text, lesson_html, orders_text};
use bleedwright_simulation::{Parameters, Side, every_order};
use clap::{Args, FromArgMatches, ValueEnum};
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  bleedwright compare layouts/lapwing.ron layouts/plover.ron
  bleedwright compare layouts/lapwing.ron --with \"--begin nearest\"
  bleedwright compare layouts/lapwing.ron --with \"--method pedal\" --with \"--method pressure\"
  bleedwright compare layouts/lapwing.ron layouts/plover.ron --format html -o lesson.html
  bleedwright compare layouts/lapwing.ron --orders --for fill

How much does the order matter? --orders simulates every order that breaks no
rule of the pipework. If it hardly matters, that is the answer.";

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
struct Case {
    label: String,
    file: LayoutFile,
    options: Options,
}

pub(crate) fn run(arguments: &CompareArguments, output: &mut Output) -> Result<Exit> {
    let cases = match cases(arguments) {
        Ok(cases) => cases,
        Err(error) => {
            complain(&error.to_string());
            return Ok(Exit::Usage);
        }
    };
    if arguments.orders && arguments.format == Format::Html {
        complain("--orders has no page: leave out --format html, or compare two orders by --with");
        return Ok(Exit::Usage);
    }
    let parameters = Parameters::default();
    let mut sides = Vec::with_capacity(cases.len());
    let mut is_unsafe = false;
    if cases.iter().any(|case| !case.options.done.is_empty()) {
        complain("`compare` simulates whole bleeds: leave out --done");
        return Ok(Exit::Usage);
    }
    let source = Source {
        kind: "layout",
        path: &arguments.layout,
    };
    for case in &cases {
        let plan = match plan_of(case) {
            Ok(plan) => plan,
            Err(findings) => {
                let what = format!("nothing was compared: no plan ({})", case.label);
                let told = match arguments.format {
                    Format::Json => Told::Json,
                    Format::Text | Format::Html => Told::Text,
                };
                return refuse(&case.file, &findings, &what, told, output);
            }
        };
        let Some(network) = case.file.loaded.sound_network() else {
            continue;
        };
        is_unsafe |= plan.is_unsafe_by_options;
        if arguments.orders {
            let orders = every_order(network, &case.options, &plan, &parameters)?;
            let text = match arguments.format {
                Format::Json => pretty(&OrdersJson::new(&plan, &orders)),
                Format::Text | Format::Html => {
                    orders_text(&plan, &orders, arguments.destination.paper(output))
                }
            };
            arguments.destination.put(&text, &source, output)?;
            return Ok(exit(is_unsafe));
        }
        let label = case.label.clone();
        sides.push(Side::new(label, network, &case.options, plan, &parameters)?);
    }
    let text = match arguments.format {
        Format::Json => pretty(&ComparisonJson::new(&sides)),
        Format::Text => comparison_text(&sides, arguments.destination.paper(output)),
        Format::Html => lesson(&cases, &sides),
    };
    arguments.destination.put(&text, &source, output)?;
    Ok(exit(is_unsafe))
}

/// The page to step through; every side was planned, so that its network is sound.
fn lesson(cases: &[Case], sides: &[Side]) -> String {
    let networks = cases
        .iter()
        .filter_map(|case| case.file.loaded.sound_network());
    let lessons: Vec<LessonSide<'_>> = sides
        .iter()
        .zip(networks)
        .map(|(side, network)| LessonSide {
            side,
            network,
            picture: schematic(network, Some(&side.plan)),
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

fn exit(is_unsafe: bool) -> Exit {
    if is_unsafe {
        Exit::UnsafeByOptions
    } else {
        Exit::Done
    }
}

fn cases(arguments: &CompareArguments) -> Result<Vec<Case>> {
    if let Some(unused) = arguments.options.unused() {
        return Err(anyhow!(unused));
    }
    let own = arguments.options.to_options();
    let case = |label: String, path: &PathBuf, options: Options| -> Result<Case> {
        Ok(Case {
            label,
            file: layout::read(path)?,
            options,
        })
    };
    let name = |path: &PathBuf| bleedwright_report::clean(&path.to_string_lossy()).into_owned();
    if arguments.orders {
        return Ok(vec![case(name(&arguments.layout), &arguments.layout, own)?]);
    }
    if let Some(other) = &arguments.other {
        return Ok(vec![
            case(name(&arguments.layout), &arguments.layout, own.clone())?,
            case(name(other), other, own)?,
        ]);
    }
    let sets: Vec<(String, Options)> = arguments
        .with
        .iter()
        .map(|set| Ok((set.clone(), options_of(set)?)))
        .collect::<Result<_>>()?;
    if sets.is_empty() {
        return Err(anyhow!(
            "nothing to compare with: give a second layout, --with \"PLAN OPTIONS\", or --orders"
        ));
    }
    let mut cases = Vec::new();
    if sets.len() == 1 {
        let label = "as on the command line".to_owned();
        cases.push(case(label, &arguments.layout, own)?);
    }
    for (label, options) in sets {
        cases.push(case(label, &arguments.layout, options)?);
    }
    Ok(cases)
}

/// The options of a set such as `--begin nearest`.
fn options_of(set: &str) -> Result<Options> {
    let words = shlex::split(set)
        .ok_or_else(|| anyhow!("--with \"{set}\": a quotation mark is not closed"))?;
    let command = PlanOptions::augment_args(clap::Command::new("--with").no_binary_name(true));
    let matches = command
        .try_get_matches_from(words)
        .map_err(|error| anyhow!("--with \"{set}\": {}", error.render()))?;
    let options = PlanOptions::from_arg_matches(&matches)?;
    match options.unused() {
        Some(unused) => Err(anyhow!("--with \"{set}\": {unused}")),
        None => Ok(options.to_options()),
    }
}

fn plan_of(case: &Case) -> Result<Plan, Vec<Finding>> {
    let mut findings = case.file.loaded.findings.clone();
    let Some(network) = case.file.loaded.sound_network() else {
        return Err(findings);
    };
    let planned = plan(network, &case.options);
    planned.plan.map(|plan| *plan).ok_or_else(|| {
        findings.extend(planned.findings);
        findings.sort_by_key(|finding| finding.severity);
        findings
    })
}
