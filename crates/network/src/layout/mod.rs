//! A layout whose every value has been read: parts, lines, cylinders,
//! reservoirs, with quantities as quantities.

mod cylinder;
mod guess;
mod line;
mod part;
mod reservoir;
mod substitute;
mod viscosity;
mod words;

pub use cylinder::{BalanceBar, Booster, Chamber, Cylinder, CylinderKind};
pub use guess::Guess;
pub(crate) use line::bore_area;
pub use line::{Line, LineEnd, LineKind, PipeSize, Via};
pub use part::{
    Accumulator, AntiLockCircuit, Brake, BrakeKind, Cavity, Part, PartKind, Piston, Position,
    Screw, Valve, ValveKind,
};
pub(crate) use reservoir::is_less;
pub use reservoir::{Compartment, FeedHose, Reservoir};
pub use substitute::Substitute;
pub use viscosity::ViscosityPoint;
pub use words::{
    BoosterKind, Control, Expansion, Fluid, FluidFamily, HoseMaterial, Level, Lining, Mounting,
    ParkingBrake, Side, Split, Steering, Wheel, Works,
};

/// A vehicle's brake pipework.
#[derive(Clone, Debug)]
pub struct Layout {
    /// The vehicle's name.
    pub name: String,
    /// A remark of the writer, printed on the sheet.
    pub notes: Option<String>,
    /// The side of the steering wheel, and so of the master cylinder.
    pub steering: Option<Steering>,
    /// The fluid the system is made for.
    pub fluid: Option<Fluid>,
    /// Two measured viscosities of that fluid, the colder one first; without
    /// them the usual ones of its grade are taken.
    pub viscosity: Option<[ViscosityPoint; 2]>,
    /// The split the writer believes in; checked against the pipework.
    pub declared_split: Option<Split>,
    /// Reservoirs with their compartments.
    pub reservoirs: Vec<Reservoir>,
    /// Master cylinders.
    pub cylinders: Vec<Cylinder>,
    /// Balance bars, each joining two single cylinders to one pedal.
    pub balance_bars: Vec<BalanceBar>,
    /// Everything else that holds fluid.
    pub parts: Vec<Part>,
    /// Pipes, hoses and direct joints.
    pub lines: Vec<Line>,
    /// The order of the maker's manual, where the layout carries it.
    pub maker_order: Option<Vec<String>>,
    /// The values that the file marks as guesses, list by list in the order of
    /// the format, and in each in the order of the file.
    pub guesses: Vec<Guess>,
}
