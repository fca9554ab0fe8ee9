//! `bleedwright simulate`: the plan done stroke by stroke.

use crate::exit::{Exit, usage};
use crate::layout;
use crate::output::Output;
use crate::plan_args::PlanOptions;
use crate::planned::{Planned, planned};
use crate::quantity_args;
use crate::refusal::Told;
use anyhow::Result;
use bleedwright_report::json::{SimulationJson, pretty};
use bleedwright_report::{curve_csv, curve_svg, simulation_text};
use bleedwright_simulation::{Parameters, ScrewHandling, simulate};
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use uom::si::f64::{Length, Ratio, Time};

const EXAMPLES: &str = "\
Examples:
  bleedwright simulate layouts/lapwing.ron --for fill
  bleedwright simulate layouts/lapwing.ron --opened \"front left caliper\"
  bleedwright simulate layouts/plover.ron --for air --format svg > plover.svg

It follows the plan with nominal sizes and a person's technique, and says what
air and old fluid are left where. It is a check on the plan, not a promise for
the vehicle.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct SimulateArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// text, json, csv (air after every stroke) or svg (the same as a picture)
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

    #[command(flatten)]
    technique: Technique,

    #[command(flatten)]
    options: PlanOptions,
}

/// How the two at pedal and screw work.
#[derive(Debug, Args)]
#[command(next_help_heading = "Technique")]
struct Technique {
    /// Seconds that the pedal takes down
    #[arg(long, value_name = "SECONDS", default_value = "2", value_parser = quantity_args::seconds)]
    press: Time,

    /// Seconds that it is held there before the screw is shut (default: as the plan says)
    #[arg(long, value_name = "SECONDS", value_parser = quantity_args::seconds)]
    hold: Option<Time>,

    /// Seconds that it takes up again
    #[arg(long, value_name = "SECONDS", default_value = "3", value_parser = quantity_args::seconds)]
    release: Time,

    /// Leave out the gravity filling that the plan asks for
    #[arg(long)]
    without_gravity: bool,

    /// The screw stays open while the pedal comes up
    #[arg(long)]
    left_open: bool,

    /// How far air reaches into each line from a joint that was opened, 0 to
    /// 300 mm
    #[arg(long, value_name = "LENGTH", default_value = "100 mm", value_parser = quantity_args::pocket)]
    pocket: Length,

    /// Polytropic index of the air, 1 (slow) to 1.4 (fast)
    #[arg(long, value_name = "NUMBER", default_value = "1.2", value_parser = quantity_args::polytropic_index)]
    index: Ratio,
}

impl Technique {
    fn to_parameters(&self) -> Parameters {
        Parameters {
            press: self.press,
            hold: self.hold,
            release: self.release,
            pocket: self.pocket,
            polytropic_index: self.index,
            is_filled_by_gravity: !self.without_gravity,
            screw: if self.left_open {
                ScrewHandling::LeftOpen
            } else {
                ScrewHandling::ShutBeforeRelease
            },
            ..Parameters::default()
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
    Csv,
    Svg,
}

pub(crate) fn run(arguments: &SimulateArguments, output: &mut Output) -> Result<Exit> {
    let options = arguments.options.used(PlanOptions::unused_off_the_sheet)?;
    let file = layout::read(&arguments.layout)?;
    if !options.done.is_empty() {
        return Err(usage("`simulate` follows a whole bleed: leave out --done"));
    }
    let (what, told) = (
        "nothing was simulated",
        Told::json_if(arguments.format == Format::Json),
    );
    let Planned { network, plan } = planned(&file, &options, what, told, output)?;
    let outcome = simulate(
        network,
        &options,
        &plan,
        &arguments.technique.to_parameters(),
    )?;
    let text = match arguments.format {
        Format::Json => pretty(&SimulationJson::new(
            &plan,
            &outcome,
            &plan.findings,
            &file.source,
        )),
        Format::Csv => curve_csv(&outcome),
        Format::Svg => curve_svg(&plan.head.vehicle, &outcome),
        Format::Text => simulation_text(&plan, &outcome, output.paper()),
    };
    output.print(&text)?;
    Ok(Exit::with(&plan))
}
