//! `bleedwright fluid`: what speaks against brake fluid.

use crate::exit::{Exit, usage};
use crate::fluid_args;
use crate::layout;
use crate::output::Output;
use crate::planned::sound;
use crate::refusal::Told;
use crate::words::one_of;
use anyhow::Result;
use bleedwright_inspection::fluid::{
    BottleReading, FluidError, FluidReading, Label, Look, Subject, judge,
};
use bleedwright_network::{Bounds, Fluid};
use bleedwright_report::fluid_text;
use bleedwright_report::json::{FluidJson, pretty};
use clap::builder::TypedValueParser;
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};

const EXAMPLES: &str = "\
Examples:
  bleedwright fluid --grade dot4
  bleedwright fluid --grade dot4 --moisture \"2.5 %\" --age \"30 months\"
  bleedwright fluid --layout layouts/lapwing.ron --boiling \"340 degF\"
  bleedwright fluid --grade dot4 --label-wet \"311 degF\" --bottle-moisture \"0.4 %\"

Without a reading it prints the limits of the grade. The verdict is one of: not
checked, no reason found, renew soon, renew now, unsafe; where nothing was
measured, or readings contradict each other, it is not checked. The exit code is
0 whatever the verdict; read it in the text or in the field `verdict` of the JSON.";

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct FluidArguments {
    /// text or json
    #[arg(long, value_enum, default_value = "text")]
    format: Format,

    #[command(flatten)]
    car: CarOptions,

    #[command(flatten)]
    bottle: BottleOptions,
}

/// The fluid in the car.
#[derive(Debug, Args)]
#[command(next_help_heading = "In the car")]
struct CarOptions {
    /// The fluid in the car, in the words that layout files use
    #[arg(long, value_name = "GRADE", value_parser = fluid_args::grade)]
    grade: Option<Fluid>,

    /// A layout file, or - for standard input: the grade that the car needs
    #[arg(long, value_name = "FILE")]
    layout: Option<PathBuf>,

    /// Water in it by a tester, with its sign: "2.5 %" or "2.5 % ± 0.5 %"
    #[arg(long, value_name = "SHARE", value_parser = fluid_args::moisture, allow_hyphen_values = true)]
    moisture: Option<Bounds<Ratio>>,

    /// Its boiling point by a tester: "180 degC" or "356 degF ± 9 degF"
    #[arg(long, value_name = "TEMPERATURE", value_parser = fluid_args::boiling, allow_hyphen_values = true)]
    boiling: Option<Bounds<ThermodynamicTemperature>>,

    /// How long it has been in the car: "30 months", "2 years"
    #[arg(long, value_name = "TIME", value_parser = fluid_args::age, allow_hyphen_values = true)]
    age: Option<Time>,

    /// After how long the maker wants it renewed; two years where nothing is given
    #[arg(long, value_name = "TIME", value_parser = fluid_args::age, allow_hyphen_values = true)]
    interval: Option<Time>,

    /// What a sample in a clear glass looks like
    #[arg(long, value_parser = look())]
    look: Option<Look>,

    /// Another grade that was added to it; may be given several times
    #[arg(long, value_name = "GRADE", value_parser = fluid_args::grade)]
    mixed_with: Vec<Fluid>,

    /// The car was filled with the very fluid of the label: its boiling points
    /// count in the estimate
    #[arg(long)]
    of_the_label: bool,
}

/// The new bottle.
#[derive(Debug, Args)]
#[command(next_help_heading = "New bottle")]
struct BottleOptions {
    /// Its grade, when it is not the one that the car needs
    #[arg(long, value_name = "GRADE", value_parser = fluid_args::grade)]
    bottle_grade: Option<Fluid>,

    /// Water in it by a tester, with its sign: "0.4 %"
    #[arg(long, value_name = "SHARE", value_parser = fluid_args::moisture, allow_hyphen_values = true)]
    bottle_moisture: Option<Bounds<Ratio>>,

    /// How long it has been open: "8 months", "3 weeks"
    #[arg(long, value_name = "TIME", value_parser = fluid_args::age, allow_hyphen_values = true)]
    opened_for: Option<Time>,

    /// Wet boiling point on its label: "311 degF"
    #[arg(long, value_name = "TEMPERATURE", value_parser = fluid_args::label, allow_hyphen_values = true)]
    label_wet: Option<ThermodynamicTemperature>,

    /// Dry boiling point on its label: "446 degF"
    #[arg(long, value_name = "TEMPERATURE", value_parser = fluid_args::label, allow_hyphen_values = true)]
    label_dry: Option<ThermodynamicTemperature>,
}

/// What a sample looks like.
fn look() -> impl TypedValueParser<Value = Look> {
    one_of([
        ("clear", "Nothing to be seen in it", Look::Clear),
        ("water", "Drops of water, or cloudy", Look::Water),
        ("dirt", "Dirt, rust or rubber", Look::Dirt),
    ])
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
}

impl FluidArguments {
    fn to_reading(&self, required: Option<Fluid>) -> FluidReading {
        FluidReading {
            grade: self.car.grade,
            required,
            mixed_with: self.car.mixed_with.clone(),
            moisture: self.car.moisture,
            boiling: self.car.boiling,
            age: self.car.age,
            interval: self.car.interval,
            look: self.car.look,
            bottle: self.bottle.to_reading(),
            is_of_the_label: self.car.of_the_label,
        }
    }
}

impl BottleOptions {
    fn to_reading(&self) -> Option<BottleReading> {
        let reading = BottleReading {
            grade: self.bottle_grade,
            moisture: self.bottle_moisture,
            opened_for: self.opened_for,
            label: Label {
                dry: self.label_dry,
                wet: self.label_wet,
            },
        };
        (reading != BottleReading::default()).then_some(reading)
    }
}

pub(crate) fn run(arguments: &FluidArguments, output: &mut Output) -> Result<Exit> {
    if arguments.car.grade.is_none() && arguments.car.layout.is_none() {
        return Err(usage(
            "which fluid? Give --grade with what is in the car, or --layout with a file that says what it needs",
        ));
    }
    let file = match &arguments.car.layout {
        Some(path) => Some(layout::read(path)?),
        None => None,
    };
    let mut vehicle = None;
    let mut required = None;
    if let Some(file) = &file {
        let told = Told::json_if(arguments.format == Format::Json);
        let layout = sound(file, "no fluid was judged", told, output)?.layout();
        vehicle = Some(layout.name.as_str());
        required = layout.fluid;
        if required.is_none() && arguments.car.grade.is_none() {
            return Err(usage(format!(
                "{} does not say which fluid the car needs: give --grade, or add the field `fluid` to the layout",
                file.name
            )));
        }
    }
    let reading = arguments.to_reading(required);
    let judgement = judge(&reading).map_err(|error| usage(refusal(&error)))?;
    let text = match arguments.format {
        Format::Json => pretty(&FluidJson::new(vehicle, &reading, &judgement)),
        Format::Text => fluid_text(vehicle, &reading, &judgement, output.paper()),
    };
    output.print(&text)?;
    Ok(Exit::Done)
}

/// What is wrong, with the option it stands in.
fn refusal(error: &FluidError) -> String {
    let option = match error.subject() {
        Some(Subject::Moisture) => "--moisture: ",
        Some(Subject::Boiling) => "--boiling: ",
        Some(Subject::Age) => "--age: ",
        Some(Subject::Interval) => "--interval: ",
        Some(Subject::BottleMoisture) => "--bottle-moisture: ",
        Some(Subject::OpenedFor) => "--opened-for: ",
        Some(Subject::LabelDry) => "--label-dry: ",
        Some(Subject::LabelWet) => "--label-wet: ",
        None if matches!(error, FluidError::NotTheSameFluid { .. }) => "--of-the-label: ",
        _ => "",
    };
    format!("{option}{error}")
}
