//! The options of a plan, shared by `plan` and `check`.

use crate::exit::usage;
use crate::quantity_args::{self, Names};
use crate::words::one_of;
use anyhow::Result;
use bleedwright_network::Fluid;
use bleedwright_planner::{Begin, Method, Options, Purpose, usual_stroke};
use clap::builder::TypedValueParser;
use clap::{Args, Command, FromArgMatches};
use std::fmt::Display;
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, Volume};

/// What to plan for, and how.
#[derive(Debug, Args)]
#[command(next_help_heading = "Plan options")]
pub(crate) struct PlanOptions {
    /// Why: renew old fluid, remove air, or fill an empty system [default:
    /// renew, or air once something was opened]
    #[arg(long = "for", value_name = "WHY", value_parser = purpose())]
    purpose: Option<Purpose>,

    /// A part or line that was opened, at every joint it has; may be given
    /// several times. Pads, shoes and discs alone open nothing
    #[arg(long, value_name = "ID")]
    opened: Vec<String>,

    /// A part or line that is new and full of air; may be given several times.
    /// A new anti-lock unit comes filled or dry: "anti-lock unit=filled",
    /// "anti-lock unit=dry"
    #[arg(long, value_name = "ID")]
    replaced: Vec<String>,

    /// A part or line known to have run empty; may be given several times
    #[arg(long, value_name = "ID")]
    drained: Vec<String>,

    /// A rubber hose that was clamped while the system was open
    #[arg(long, value_name = "LINE")]
    clamped: Vec<String>,

    /// A line whose open end was plugged while the system was open, or a part
    /// with a plug in the line to it; may be given several times
    #[arg(long, value_name = "ID")]
    plugged: Vec<String>,

    /// The pedal was propped just past the cut-off while the system was open
    #[arg(long)]
    propped: bool,

    /// A reservoir compartment that ran dry; may be given several times
    #[arg(long, value_name = "COMPARTMENT")]
    ran_dry: Vec<String>,

    /// The vehicle stood for long: what sticks is found first, and strokes are
    /// half as long
    #[arg(long)]
    laid_up: bool,

    /// Stored pressure was released by the maker's routine
    #[arg(long)]
    depressurised: bool,

    /// What tells this vehicle from its like: registration, chassis or fleet
    /// number; printed at the head of the sheet, blank by default
    #[arg(long, value_name = "TEXT", value_parser = quantity_args::registration)]
    registration: Option<String>,

    /// Printed at the head of the sheet; blank by default
    #[arg(long, value_name = "DATE", value_parser = quantity_args::date)]
    date: Option<String>,

    /// How the fluid is driven
    #[arg(long, value_parser = method(), default_value = "pedal")]
    method: Method,

    /// Which run of a circuit comes first
    #[arg(long, value_parser = begin(), default_value = "farthest")]
    begin: Begin,

    /// The circuit to begin with
    #[arg(long, value_name = "CIRCUIT")]
    circuit_first: Option<String>,

    /// Screws in the order wanted, "a, b, c"; the rest follows as derived
    #[arg(long, value_name = "SCREWS", value_parser = quantity_args::names)]
    order: Option<Names>,

    /// A screw to leave out; may be given several times
    #[arg(long, value_name = "SCREW")]
    skip: Vec<String>,

    /// A screw finished earlier; may be given several times
    #[arg(long, value_name = "SCREW")]
    done: Vec<String>,

    /// Old share of what leaves at which renewal ends [default: 5 %]
    #[arg(long, value_name = "SHARE", value_parser = quantity_args::residual)]
    residual: Option<Ratio>,

    /// Share of the cylinder's stroke that is used by the pedal method
    /// [default: 60 %, with --laid-up 30 %]
    #[arg(long, value_name = "SHARE", value_parser = quantity_args::stroke)]
    stroke: Option<Ratio>,

    /// Pressure in the tank by the pressure method, as its maker states it
    /// [default: 0.83 to 1.03 bar, which is 12 to 15 psi]
    #[arg(long, value_name = "PRESSURE", value_parser = quantity_args::tank_pressure)]
    tank_pressure: Option<Pressure>,

    /// A bottle size on sale; may be given several times [default: 250 ml,
    /// 500 ml, 1 l, 5 l]
    #[arg(long, value_name = "VOLUME", value_parser = quantity_args::bottle)]
    bottle: Vec<Volume>,

    /// Temperature of the fluid
    #[arg(long, value_name = "TEMPERATURE", default_value = "20 degC", value_parser = quantity_args::temperature, allow_hyphen_values = true)]
    temperature: ThermodynamicTemperature,

    /// The fluid poured in, when it is not the layout's, in the words that
    /// layout files use
    #[arg(long, value_name = "GRADE", value_parser = quantity_args::fluid)]
    new_fluid: Option<Fluid>,
}

fn purpose() -> impl TypedValueParser<Value = Purpose> {
    one_of([Purpose::Renew, Purpose::Air, Purpose::Fill].map(|it| (it.word(), "", it)))
}

fn method() -> impl TypedValueParser<Value = Method> {
    use Method::{Gravity, Pedal, Pressure, Reverse, Vacuum};
    one_of([Pedal, Pressure, Vacuum, Gravity, Reverse].map(|it| (it.word(), "", it)))
}

fn begin() -> impl TypedValueParser<Value = Begin> {
    one_of([Begin::Farthest, Begin::Nearest].map(|it| (it.word(), "", it)))
}

impl PlanOptions {
    fn to_options(&self) -> Options {
        let defaults = Options::default();
        Options {
            purpose: self.purpose,
            opened: self.opened.clone(),
            drained: self.drained.clone(),
            replaced: self.replaced.clone(),
            clamped: self.clamped.clone(),
            plugged: self.plugged.clone(),
            propped: self.propped,
            ran_dry: self.ran_dry.clone(),
            is_laid_up: self.laid_up,
            depressurised: self.depressurised,
            registration: self.registration.clone(),
            date: self.date.clone(),
            method: self.method,
            begin: self.begin,
            circuit_first: self.circuit_first.clone(),
            order: self.order.clone(),
            skip: self.skip.clone(),
            done: self.done.clone(),
            residual: self.residual.unwrap_or(defaults.residual),
            stroke: self.stroke.unwrap_or_else(|| usual_stroke(self.laid_up)),
            tank_pressure: self.tank_pressure,
            bottles: if self.bottle.is_empty() {
                defaults.bottles
            } else {
                self.bottle.clone()
            },
            temperature: self.temperature,
            new_fluid: self.new_fluid,
        }
    }
}

impl PlanOptions {
    /// The options; `unused` says which of them would change nothing.
    pub(crate) fn used(&self, unused: impl Fn(&Self) -> Option<String>) -> Result<Options> {
        match unused(self) {
            Some(unused) => Err(usage(unused)),
            None => Ok(self.to_options()),
        }
    }

    /// The same of a set such as `--begin nearest`, given as one text.
    pub(crate) fn of_set(set: &str, unused: impl Fn(&Self) -> Option<String>) -> Result<Options> {
        let wrong = |why: &dyn Display| usage(format!("--with \"{set}\": {why}"));
        let words = shlex::split(set).ok_or_else(|| wrong(&"a quotation mark is not closed"))?;
        let command = Self::augment_args(Command::new("--with").no_binary_name(true));
        let matches = command
            .try_get_matches_from(words)
            .map_err(|error| wrong(&error.render()))?;
        let options = Self::from_arg_matches(&matches).map_err(usage)?;
        options.used(unused).map_err(|error| wrong(&error))
    }

    /// What was asked for and would change nothing, in words: an option is
    /// refused, never ignored.
    pub(crate) fn unused(&self) -> Option<String> {
        let options = self.to_options();
        if self.stroke.is_some() && options.method != Method::Pedal {
            return Some(format!(
                "--stroke means nothing by the {} method: no pedal is pressed",
                options.method.word()
            ));
        }
        if self.tank_pressure.is_some() && options.method != Method::Pressure {
            return Some(format!(
                "--tank-pressure means nothing by the {} method: it is for `--method pressure`",
                options.method.word()
            ));
        }
        if self.residual.is_some() && options.purpose() != Purpose::Renew {
            return Some(format!(
                "--residual means nothing with `--for {}`: it is for renewing old fluid",
                options.purpose().word()
            ));
        }
        None
    }

    /// The same for a verb that makes no sheet of the plan: no vehicle is named, and nothing bought or dated there.
    pub(crate) fn unused_off_the_sheet(&self) -> Option<String> {
        if self.registration.is_some() {
            return Some(
                "--registration means nothing here: it is for a sheet or a record".to_owned(),
            );
        }
        if self.laid_up && self.method != Method::Pedal {
            return Some(format!(
                "--laid-up means nothing here by the {} method: it shortens the strokes of a pedal",
                self.method.word()
            ));
        }
        self.unused_in_a_record()
    }

    /// The same for the record of a job: nothing is bought there, and the day is that of its readings.
    pub(crate) fn unused_in_a_record(&self) -> Option<String> {
        let option = match (&self.date, self.bottle.as_slice()) {
            (Some(_), _) => "--date",
            (None, [_, ..]) => "--bottle",
            (None, []) => return self.unused(),
        };
        Some(format!(
            "{option} means nothing here: it is for the sheet that `plan` makes"
        ))
    }
}
