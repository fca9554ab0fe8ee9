//! The command line.

use crate::check::CheckArguments;
use crate::companion::CompletionsArguments;
use crate::compare::CompareArguments;
use crate::draft_args::DraftArguments;
use crate::draw::DrawArguments;
use crate::exit::Exit;
use crate::fluid::FluidArguments;
use crate::output::{Output, complain};
use crate::pedal::PedalArguments;
use crate::plan::PlanArguments;
use crate::readings::ReadingsArguments;
use crate::simulate::SimulateArguments;
use crate::volumes::VolumesArguments;
use anyhow::Result;
use bleedwright_report::clean;
use clap::{ColorChoice, Parser, Subcommand};

const EXAMPLES: &str = "\
Examples:
  bleedwright check layouts/lapwing.ron
  bleedwright plan layouts/lapwing.ron
  bleedwright plan layouts/lapwing.ron --opened \"front left caliper\"
  bleedwright pedal layouts/lapwing.ron
  bleedwright volumes layouts/curlew.ron --format json

Exit codes: 0 done (warnings, advice and bad verdicts on pedal, fluid or
readings included), 1 could not run, 2 wrong usage, 3 the layout or the record
has errors and nothing was planned, computed or judged, 4 planned, but the
order given breaks a rule of the pipework.

The maker's manual governs. Work on brakes is done or checked by a competent,
where required licensed, person.";

/// Computes a brake bleed plan from the pipework.
///
/// A text file describes reservoir, cylinder, valves, lines and brakes;
/// bleedwright derives circuits and runs from it and says which bleed screws
/// to open in which order, why, and how much fluid to push through each.
#[derive(Debug, Parser)]
#[command(name = "bleedwright", version, after_help = EXAMPLES, propagate_version = true)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) verb: Verb,

    /// When to use colour [default: auto]; the variable `NO_COLOR` is obeyed.
    #[arg(long, global = true, value_name = "WHEN")]
    pub(crate) color: Option<ColorChoice>,

    /// Columns to write for; by default those of the terminal, else 80.
    #[arg(long, global = true, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(24..=400))]
    pub(crate) width: Option<u16>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Verb {
    /// Say everything that is wrong with a layout, or worth knowing.
    Check(CheckArguments),
    /// Plan a bleed: order, amounts, strokes, top-ups, checks.
    Plan(PlanArguments),
    /// Draft a layout file from a few measurements.
    Draft(DraftArguments),
    /// Draw the pipework, with the screws numbered in the order of the plan.
    Draw(DrawArguments),
    /// Say how the pedal should feel, and what air a measured travel implies.
    Pedal(PedalArguments),
    /// Compare two layouts, sets of options, or every order of the screws.
    Compare(CompareArguments),
    /// Do the plan stroke by stroke: air and old fluid left, and where.
    Simulate(SimulateArguments),
    /// Record the checks after the work, and make the handover sheet.
    Readings(ReadingsArguments),
    /// Add up what every line, part, run and circuit holds.
    Volumes(VolumesArguments),
    /// Print completions for a shell.
    Completions(CompletionsArguments),
    /// Print the manual page of the whole command, for man.
    Manual,
    /// Judge brake fluid: limits of its grade, moisture, boiling point, the
    /// bottle.
    Fluid(FluidArguments),
}

impl Arguments {
    /// What was asked for and means nothing to this verb, in words.
    pub(crate) fn unused(&self) -> Option<String> {
        let is_for_programs = matches!(self.verb, Verb::Completions(_) | Verb::Manual);
        let option = match (self.color, self.width) {
            (Some(_), _) => "--color",
            (_, Some(_)) => "--width",
            (None, None) => return None,
        };
        is_for_programs.then(|| {
            format!(
                "{option} means nothing here: a shell or `man` reads this, and sets it by itself"
            )
        })
    }
}

/// Prints help or version, which were asked for.
pub(crate) fn print_asked(asked: &clap::Error) -> Result<Exit> {
    let mut output = Output::new(ColorChoice::Auto, None);
    let text = asked.render();
    if output.has_colour() {
        output.print(&text.ansi().to_string())?;
    } else {
        output.print(&text.to_string())?;
    }
    output.finish()?;
    Ok(Exit::Done)
}

/// Says what is wrong with a call. The words of the caller are shown without what steers a terminal: the same call with
/// marks in its place is refused in the same way.
pub(crate) fn refuse(error: &clap::Error) -> Exit {
    let words: Vec<_> = std::env::args_os().collect();
    let shown = words.iter().map(|word| word.to_string_lossy());
    let shown: Vec<String> = shown
        .map(|word| clean(&word).replace('\n', "\u{fffd}"))
        .collect();
    let is_plain = words
        .iter()
        .zip(&shown)
        .all(|(word, shown)| word == shown.as_str());
    let printed = match Arguments::try_parse_from(&shown) {
        _ if is_plain => error.print(),
        Err(error) if error.use_stderr() => error.print(),
        _ => {
            complain(&error.render().to_string());
            Ok(())
        }
    };
    // Nobody is left to tell when standard error is gone.
    drop(printed);
    Exit::Usage
}
