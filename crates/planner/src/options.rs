//! What the user asks for.

use bleedwright_network::Fluid;
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, Volume};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::milliliter;

/// Why the brakes are bled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Old fluid is replaced by new.
    Renew,
    /// Air is removed.
    Air,
    /// An empty system is filled.
    Fill,
}

impl Purpose {
    /// As written on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Self::Renew => "renew",
            Self::Air => "air",
            Self::Fill => "fill",
        }
    }
}

/// How the fluid is driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Two people, one of them on the pedal.
    Pedal,
    /// A pressure tank on the reservoir.
    Pressure,
    /// A vacuum pump at the screw.
    Vacuum,
    /// Weight alone.
    Gravity,
    /// Fluid in at the screw, out at the reservoir.
    Reverse,
}

impl Method {
    /// As written on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Self::Pedal => "pedal",
            Self::Pressure => "pressure",
            Self::Vacuum => "vacuum",
            Self::Gravity => "gravity",
            Self::Reverse => "reverse",
        }
    }
}

/// Which end of a circuit comes first where nothing forces an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begin {
    /// The longest run first.
    Farthest,
    /// The shortest run first.
    Nearest,
}

impl Begin {
    /// As written on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Self::Farthest => "farthest",
            Self::Nearest => "nearest",
        }
    }

    /// The other school.
    pub(crate) fn other(self) -> Self {
        match self {
            Self::Farthest => Self::Nearest,
            Self::Nearest => Self::Farthest,
        }
    }
}

/// The coldest and the warmest fluid that a job is planned for, in degrees Celsius.
///
/// ASSUMPTION: nobody works on brakes beyond that; every grade has figures there.
pub const TEMPERATURES_DEGC: [f64; 2] = [-40.0, 60.0];

/// The share of a cylinder's stroke that is used where none is asked for.
///
/// ASSUMPTION: 60 %. Half of that where a vehicle stood for long: driving sweeps about a third of the bore, and what lies
/// beyond may be rusty (common practice, no source).
pub fn usual_stroke(is_laid_up: bool) -> Ratio {
    Ratio::new::<percent>(if is_laid_up { 30.0 } else { 60.0 })
}

/// The options of a plan. Names are those of the layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// Why; by default renewal, or air once something was opened.
    pub purpose: Option<Purpose>,
    /// Parts and lines that were opened.
    pub opened: Vec<String>,
    /// Parts and lines known to have run empty.
    pub drained: Vec<String>,
    /// Parts and lines that are new: opened, and full of air. Of an anti-lock
    /// unit it is said whether it came filled or dry: `unit=filled`, `unit=dry`.
    pub replaced: Vec<String>,
    /// Hoses that were clamped while the system was open.
    pub clamped: Vec<String>,
    /// Lines whose open end was plugged, and parts at whose inlet a plug sat.
    pub plugged: Vec<String>,
    /// Whether the pedal was propped just past the cut-off while the system was
    /// open.
    pub propped: bool,
    /// Reservoir compartments that ran dry.
    pub ran_dry: Vec<String>,
    /// Whether the vehicle stood for long: more is looked at, and strokes are short.
    pub is_laid_up: bool,
    /// Whether stored pressure was released by the maker's routine.
    pub depressurised: bool,
    /// What tells this vehicle from its like: its registration, chassis or fleet number. Printed on the sheet.
    pub registration: Option<String>,
    /// Printed on the sheet.
    pub date: Option<String>,
    /// How the fluid is driven.
    pub method: Method,
    /// Longest or shortest run first.
    pub begin: Begin,
    /// The circuit to begin with.
    pub circuit_first: Option<String>,
    /// The order the user wants; it may repeat a screw and may be partial.
    pub order: Option<Vec<String>>,
    /// Screws to leave out.
    pub skip: Vec<String>,
    /// Screws finished in an earlier session.
    pub done: Vec<String>,
    /// Renewal is finished when this share of what leaves is old.
    pub residual: Ratio,
    /// Share of the chamber's stroke that is used.
    pub stroke: Ratio,
    /// Pressure in the tank of the pressure method, as its maker states it; by
    /// default 12 to 15 psi.
    pub tank_pressure: Option<Pressure>,
    /// Sizes of the bottles on sale.
    pub bottles: Vec<Volume>,
    /// Temperature of the fluid, within [`TEMPERATURES_DEGC`]; nothing is planned for another one.
    pub temperature: ThermodynamicTemperature,
    /// The fluid that is poured in; by default the layout's.
    pub new_fluid: Option<Fluid>,
}

impl Default for Options {
    fn default() -> Self {
        let ml = Volume::new::<milliliter>;
        Self {
            purpose: None,
            opened: Vec::new(),
            drained: Vec::new(),
            replaced: Vec::new(),
            clamped: Vec::new(),
            plugged: Vec::new(),
            propped: false,
            ran_dry: Vec::new(),
            is_laid_up: false,
            depressurised: false,
            registration: None,
            date: None,
            method: Method::Pedal,
            begin: Begin::Farthest,
            circuit_first: None,
            order: None,
            skip: Vec::new(),
            done: Vec::new(),
            residual: Ratio::new::<percent>(5.0),
            stroke: usual_stroke(false),
            tank_pressure: None,
            bottles: vec![ml(250.0), ml(500.0), ml(1000.0), ml(5000.0)],
            temperature: bleedwright_mechanism::usual_temperature(),
            new_fluid: None,
        }
    }
}

impl Options {
    /// Whether the temperature is one that a job is planned for.
    pub(crate) fn has_usual_temperature(&self) -> bool {
        let [coldest, warmest] =
            TEMPERATURES_DEGC.map(ThermodynamicTemperature::new::<degree_celsius>);
        (coldest..=warmest).contains(&self.temperature)
    }

    /// The temperature, or the default one where nothing is planned for it.
    pub(crate) fn usual_temperature(&self) -> ThermodynamicTemperature {
        if self.has_usual_temperature() {
            self.temperature
        } else {
            Self::default().temperature
        }
    }

    /// The purpose, with its default: renewal, or air once something was
    /// opened or the fluid is driven from the wheels.
    pub fn purpose(&self) -> Purpose {
        self.purpose.unwrap_or({
            let is_open = !self.opened.is_empty()
                || !self.replaced.is_empty()
                || !self.drained.is_empty()
                || !self.ran_dry.is_empty()
                || self.method == Method::Reverse;
            if is_open {
                Purpose::Air
            } else {
                Purpose::Renew
            }
        })
    }
}
