//! `bleedwright pedal`: travel, pressures, and the air that a measured travel implies.

use crate::exit::{Exit, usage};
use crate::layout;
use crate::output::Output;
use crate::planned::sound;
use crate::quantity_args::{self, Bores, Pressed};
use crate::refusal::Told;
use crate::words::one_of;
use anyhow::Result;
use bleedwright_network::{Control as WorkedBy, Network, suggest};
use bleedwright_pedal::{Candidate, Control, Question, Reading, Symptom, assess, controls};
use bleedwright_report::json::{PedalJson, pretty};
use bleedwright_report::{pedal_text, travel_svg};
use clap::builder::TypedValueParser;
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use uom::si::f64::{Force, Length, Ratio, Volume};
use uom::si::force::newton;

const EXAMPLES: &str = "\
Examples:
  bleedwright pedal layouts/lapwing.ron
  bleedwright pedal layouts/lapwing.ron --booster exhausted \\
      --measured \"50 N: 42 mm\" --measured \"300 N: 61 mm\" --pumped \"50 N: 35 mm\"
  bleedwright pedal layouts/plover.ron --symptom sinking
  bleedwright pedal layouts/lapwing.ron --format svg > travel.svg
  bleedwright pedal layouts/curlew.ron --force \"500 N\" --bore \"0.7 in\" --bore \"0.7 in + 13/16 in\"

Measure the travel at the middle of the pedal's pad, from rest, the pedal held
still for a few seconds. A first push follows half a minute's rest; a pumped one
follows quick strokes until the pedal rises no further.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct PedalArguments {
    /// The layout file, or - for standard input
    layout: PathBuf,

    /// text, json, or svg (travel against force as a picture)
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

    /// The pedal or lever, by the name of its cylinder; needed where there are several
    #[arg(long, value_name = "CYLINDER")]
    control: Option<String>,

    /// Force on the pedal or lever [default: 300 N by foot, 100 N by hand]
    #[arg(long, value_name = "FORCE", value_parser = quantity_args::force)]
    force: Option<Force>,

    /// Whether the booster helps: running unless said otherwise, but to be said with a reading
    #[arg(long, value_parser = booster(), value_name = "STATE")]
    booster: Option<bool>,

    /// Take so much air to be trapped, at atmospheric pressure
    #[arg(long, value_name = "VOLUME", value_parser = quantity_args::air, conflicts_with_all = ["measured", "pumped"])]
    air: Option<Volume>,

    /// The circuit that this air is in; the first one without
    #[arg(long, value_name = "CIRCUIT", requires = "air")]
    air_in: Option<String>,

    /// A travel that was measured on a first push, as in "300 N: 62 mm" or "300 N: 62 mm ± 1 mm"; without a gauge
    /// "light push: 42 mm" and "hard push: 62 mm"; repeatable
    #[arg(long, value_name = "READING", value_parser = quantity_args::reading)]
    measured: Vec<(Pressed, Length, Length)>,

    /// The same just after pumping; repeatable
    #[arg(long, value_name = "READING", value_parser = quantity_args::reading)]
    pumped: Vec<(Pressed, Length, Length)>,

    /// What is wrong with the pedal: gives causes and how to tell them apart
    #[arg(long, value_parser = symptom())]
    symptom: Option<Symptom>,

    /// Try another bore of the master cylinder; with a balance bar also two, "0.7 in + 3/4 in"; repeatable
    #[arg(long, value_name = "BORE", value_parser = quantity_args::bores)]
    bore: Vec<Bores>,

    /// Try another lever ratio; repeatable
    #[arg(long, value_name = "RATIO", value_parser = quantity_args::pedal_ratio)]
    ratio: Vec<Ratio>,

    /// Try another setting of the balance bar: the share of the first cylinder; repeatable
    #[arg(long, value_name = "SHARE", value_parser = quantity_args::bar_share)]
    share: Vec<Ratio>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
    Svg,
}

fn symptom() -> impl TypedValueParser<Value = Symptom> {
    use Symptom::{Hard, Low, RisesWhenPumped, Sinking, SoftAgain, Springy};
    one_of([
        (
            "low",
            "Far down before it gets firm, also after pumping",
            Low,
        ),
        (
            "rises-when-pumped",
            "Higher and firmer after pumping",
            RisesWhenPumped,
        ),
        (
            "springy",
            "Gives like a spring, also after pumping",
            Springy,
        ),
        ("sinking", "Creeps down under a steady force", Sinking),
        ("hard", "Needs much force and hardly moves", Hard),
        (
            "soft-again",
            "Was firm after bleeding and is soft again",
            SoftAgain,
        ),
    ])
}

/// Whether the booster runs.
fn booster() -> impl TypedValueParser<Value = bool> {
    one_of([("running", "", true), ("exhausted", "", false)])
}

pub(crate) fn run(arguments: &PedalArguments, output: &mut Output) -> Result<Exit> {
    let file = layout::read(&arguments.layout)?;
    let told = Told::json_if(arguments.format == Format::Json);
    let network = sound(&file, "nothing was computed", told, output)?;
    let control = control(network, arguments.control.as_deref()).map_err(usage)?;
    let question = question(network, &control, arguments).map_err(usage)?;
    let pedal = assess(network, &control, &question).map_err(usage)?;
    let text = match arguments.format {
        Format::Json => pretty(&PedalJson::new(&pedal)),
        Format::Svg => travel_svg(&pedal),
        Format::Text => pedal_text(&pedal, output.paper()),
    };
    output.print(&text)?;
    Ok(Exit::Done)
}

fn control(network: &Network, name: Option<&str>) -> Result<Control, String> {
    let all = controls(network);
    let names: Vec<&str> = all.iter().map(|control| control.name.as_str()).collect();
    let listed = names.join(", ");
    match (name, &all[..]) {
        (_, []) => Err("no cylinder of this layout works a brake".to_owned()),
        (None, [one]) => Ok(one.clone()),
        (None, _) => Err(format!(
            "this layout has several pedals or levers; say which with --control: {listed}"
        )),
        (Some(name), _) => all
            .iter()
            .find(|control| {
                control.name == name
                    || control
                        .cylinders
                        .iter()
                        .any(|index| network.layout().cylinders[*index].id == name)
            })
            .cloned()
            .ok_or_else(|| {
                format!(
                    "no pedal or lever is called `{name}`; there is {listed}{}",
                    suggestion(name, &names)
                )
            }),
    }
}

fn suggestion(name: &str, names: &[&str]) -> String {
    let found = suggest(name, names);
    if found.is_empty() {
        found
    } else {
        format!(" ({found})")
    }
}

fn question(
    network: &Network,
    control: &Control,
    arguments: &PedalArguments,
) -> Result<Question, String> {
    let has_booster = network.layout().cylinders[control.cylinders[0]]
        .booster
        .is_some();
    let has_reading = !(arguments.measured.is_empty() && arguments.pumped.is_empty());
    let is_boosted = match (has_booster, arguments.booster) {
        (false, Some(true)) => {
            return Err(format!(
                "{} has no booster in this layout; leave out --booster, or give the cylinder its `booster`",
                control.name
            ));
        }
        (true, None) if has_reading => {
            return Err(
                "say whether the readings were taken with --booster running or exhausted: the same force gives several times the pressure"
                    .to_owned(),
            );
        }
        (true, None | Some(true)) => true,
        _ => false,
    };
    if control.bar.is_none() {
        if !arguments.share.is_empty() {
            return Err(format!(
                "{} has no balance bar; leave out --share",
                control.name
            ));
        }
        if arguments.bore.iter().any(|bores| bores.len() > 1) {
            return Err(format!(
                "{} is one cylinder: give one bore with each --bore",
                control.name
            ));
        }
    }
    let worked_by = control.worked_by(network);
    let reading = |(pressed, travel, tolerance): &(Pressed, Length, Length), is_pumped| Reading {
        force: match pressed {
            Pressed::Measured(force) => *force,
            Pressed::Felt(push) => push.force(worked_by),
        },
        travel: *travel,
        tolerance: *tolerance,
        is_pumped,
        is_boosted,
    };
    let measured = arguments.measured.iter().map(|it| reading(it, false));
    let pumped = arguments.pumped.iter().map(|it| reading(it, true));
    Ok(Question {
        force: arguments
            .force
            .unwrap_or_else(|| usual_force(network, control)),
        is_boosted,
        air: arguments.air.map(|air| (air, arguments.air_in.clone())),
        readings: measured.chain(pumped).collect(),
        symptom: arguments.symptom,
        candidates: candidates(arguments),
    })
}

/// The force that is asked for where none is given.
pub(crate) fn usual_force(network: &Network, control: &Control) -> Force {
    let newtons = match control.worked_by(network) {
        WorkedBy::Pedal => 300.0,
        WorkedBy::HandLever => 100.0,
        // ASSUMPTION: about a tenth of the weight of a trailer of 1 t.
        WorkedBy::Coupler => 1000.0,
    };
    Force::new::<newton>(newtons)
}

/// Every bore with every ratio and every share.
fn candidates(arguments: &PedalArguments) -> Vec<Candidate> {
    fn or_none<T: Clone>(all: &[T]) -> Vec<Option<T>> {
        if all.is_empty() {
            vec![None]
        } else {
            all.iter().cloned().map(Some).collect()
        }
    }
    let mut candidates = Vec::new();
    for bores in or_none(&arguments.bore) {
        for pedal_ratio in or_none(&arguments.ratio) {
            for bar_share in or_none(&arguments.share) {
                candidates.push(Candidate {
                    bores: bores.as_ref().map_or(Vec::new(), |bores| bores.to_vec()),
                    pedal_ratio,
                    bar_share,
                });
            }
        }
    }
    candidates.retain(|candidate| *candidate != Candidate::default());
    candidates
}
