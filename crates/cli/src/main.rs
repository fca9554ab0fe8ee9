//! `bleedwright`: from a layout file to a bleed plan.
//!
//! The only place that reads and writes files, prints and exits.
//!
//! Invariant: a file is written whole or not at all, and none that cannot be read is touched.
//!
//! # Map
//!
//! - `check`, `plan`, `draw`, `draft`, `simulate`, `compare`, `pedal`, `volumes`, `fluid`, `readings`: one verb each
//! - `args`, `plan_args`, `draft_args`, `fluid_args`, `quantity_args`, `words`: the command line
//! - `companion`: completions and the manual page
//! - `dialogue`, `draft_options`: the questions of `draft`; the options that say the same as the answers
//! - `shape`, `setting`, `update`: layouts to start from; values to set, and set in a file
//! - `input`, `layout`, `planned`: a file read whole; a layout; a sound one, and its plan
//! - `destination`, `whole_file`, `output`: where a sheet goes; a file written whole or not at all; printing
//! - `refusal`, `exit`: what stands in the way of a verb; how it and the program end
//! - `interrupt`, `progress`: Ctrl-C, never while a file is written; how far a long job is, on a terminal

mod args;
mod check;
mod companion;
mod compare;
mod destination;
mod dialogue;
mod draft;
mod draft_args;
mod draft_options;
mod draw;
mod exit;
mod fluid;
mod fluid_args;
mod input;
mod interrupt;
mod layout;
mod output;
mod pedal;
mod plan;
mod plan_args;
mod planned;
mod progress;
mod quantity_args;
mod readings;
mod refusal;
mod setting;
mod shape;
mod simulate;
mod update;
mod volumes;
mod whole_file;
mod words;

use args::{Arguments, Verb};
use clap::{CommandFactory, Parser};
use exit::{Ended, Exit};
use output::{Output, is_broken_pipe};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) if error.use_stderr() => return args::refuse(&error).into(),
        Err(asked) => return end(args::print_asked(&asked)),
    };
    end(run(&arguments))
}

fn run(arguments: &Arguments) -> anyhow::Result<Exit> {
    let mut output = Output::new(arguments.color.unwrap_or_default(), arguments.width);
    if let Some(unused) = arguments.unused() {
        output::complain(&unused);
        return Ok(Exit::Usage);
    }
    let result = match &arguments.verb {
        Verb::Check(check) => check::run(check, &mut output),
        Verb::Pedal(arguments) => pedal::run(arguments, &mut output),
        Verb::Plan(plan) => plan::run(plan, &mut output),
        Verb::Compare(arguments) => compare::run(arguments, &mut output),
        Verb::Completions(completions) => {
            companion::completions(completions, Arguments::command(), &mut output)
        }
        Verb::Manual => companion::manual(Arguments::command(), &mut output),
        Verb::Draft(draft) => draft::run(draft, &mut output),
        Verb::Draw(arguments) => draw::run(arguments, &mut output),
        Verb::Fluid(fluid) => fluid::run(fluid, &mut output),
        Verb::Simulate(arguments) => simulate::run(arguments, &mut output),
        Verb::Readings(readings) => readings::run(readings, &mut output),
        Verb::Volumes(volumes) => volumes::run(volumes, &mut output),
    };
    let exit = match result {
        Ok(exit) => exit,
        Err(error) => error.downcast::<Ended>()?.tell(),
    };
    output.finish()?;
    Ok(exit)
}

fn end(result: anyhow::Result<Exit>) -> ExitCode {
    match result {
        Ok(exit) => exit.into(),
        Err(error) if is_broken_pipe(&error) => ExitCode::SUCCESS,
        Err(error) => {
            output::complain(&format!("{error:#}"));
            Exit::CouldNotRun.into()
        }
    }
}
