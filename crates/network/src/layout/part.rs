//! Everything that holds fluid between the cylinders and the road.

use super::line::bore_area;
use super::words::{Level, Lining, Mounting, ParkingBrake, Wheel};
use crate::bounds::{Bounds, Figure};
use uom::si::f64::{Length, Pressure, Ratio, Torque, Volume};

/// A tee, a valve, an anti-lock unit, a brake or a clutch slave.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its name.
    pub id: String,
    /// What it is.
    pub kind: PartKind,
    /// The wheel it brakes.
    pub wheel: Option<Wheel>,
    /// Upper or lower, where two sit on one wheel.
    pub place: Option<Level>,
    /// Independent passages of a valve that serves several circuits; one
    /// unnamed passage when empty.
    pub sections: Vec<String>,
    /// Fluid inside a tee or valve, per passage.
    pub contents: Figure<Volume>,
    /// Height above the ground.
    pub height: Option<Bounds<Length>>,
    /// Where it sits.
    pub position: Option<Position>,
    /// Its bleed screws.
    pub screws: Vec<Screw>,
    /// A pressure accumulator on it.
    pub accumulator: Option<Accumulator>,
    /// What works it when the vehicle is parked, where the layout says so.
    pub parking_brake: Option<ParkingBrake>,
}

/// The kinds of part.
#[derive(Clone, Debug)]
pub enum PartKind {
    /// A tee, block or union: all its ports are joined.
    Junction {
        /// `tee`, `block` or `union`.
        word: &'static str,
    },
    /// A valve on the way.
    Valve(Valve),
    /// An anti-lock unit.
    AntiLock {
        /// Its separate passages.
        circuits: Vec<AntiLockCircuit>,
        /// Where the maker's routine is found.
        routine: Option<String>,
    },
    /// A caliper, a wheel cylinder or a clutch slave.
    Brake(Brake),
}

impl PartKind {
    /// The kind in plain words.
    pub fn text(&self) -> &'static str {
        match self {
            Self::Junction { word } => word,
            Self::Valve(valve) => valve.kind.text(),
            Self::AntiLock { .. } => "anti-lock unit",
            Self::Brake(brake) => match brake.kind {
                BrakeKind::Caliper { .. } => "caliper",
                BrakeKind::WheelCylinder => "wheel cylinder",
                BrakeKind::ClutchSlave => "clutch slave cylinder",
            },
        }
    }
}

impl PartKind {
    /// Whether it brakes a wheel; a clutch slave does not.
    pub fn is_wheel_brake(&self) -> bool {
        matches!(self, Self::Brake(brake) if brake.kind != BrakeKind::ClutchSlave)
    }
}

/// A valve and its settings.
#[derive(Clone, Debug)]
pub struct Valve {
    /// Which valve.
    pub kind: ValveKind,
    /// How a metering valve is held open.
    pub held_open_by: Option<String>,
    /// Pressure at which it begins to act.
    pub cut_in: Option<Bounds<Pressure>>,
    /// The same with the vehicle laden.
    pub cut_in_laden: Option<Bounds<Pressure>>,
    /// Outlet pressure rise per inlet pressure rise beyond the cut-in.
    pub ratio: Option<Bounds<Ratio>>,
    /// Pressure below which a metering valve stays shut.
    pub hold_off: Option<Bounds<Pressure>>,
    /// Pressure that a residual valve keeps in the line.
    pub holds: Option<Bounds<Pressure>>,
    /// Pressure that opens a check valve.
    pub opens: Option<Bounds<Pressure>>,
}

/// The valves of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveKind {
    /// Lets the rear pressure rise more slowly beyond its cut-in.
    Proportioning,
    /// Lets the rear pressure rise no further.
    PressureLimiting,
    /// A proportioning valve set by the load.
    LoadSensing,
    /// Holds the front discs off until the rear shoes touch.
    Metering,
    /// Keeps a small pressure in a drum circuit.
    Residual,
    /// Lets fluid pass away from the cylinder only.
    Check,
    /// Moves when one circuit loses pressure.
    DifferentialSwitch,
}

impl ValveKind {
    /// The kind in plain words.
    pub fn text(self) -> &'static str {
        match self {
            Self::Proportioning => "proportioning valve",
            Self::PressureLimiting => "pressure-limiting valve",
            Self::LoadSensing => "load-sensing valve",
            Self::Metering => "metering valve",
            Self::Residual => "residual valve",
            Self::Check => "check valve",
            Self::DifferentialSwitch => "pressure-differential switch",
        }
    }

    /// Whether it keeps the rear brakes from locking first.
    pub fn holds_rear_back(self) -> bool {
        matches!(
            self,
            Self::Proportioning | Self::PressureLimiting | Self::LoadSensing
        )
    }

    /// Whether it matters which port faces the cylinder.
    pub fn is_directed(self) -> bool {
        self != Self::DifferentialSwitch
    }
}

/// One passage of an anti-lock unit.
#[derive(Clone, Debug)]
pub struct AntiLockCircuit {
    /// The port toward the cylinder.
    pub inlet: String,
    /// The ports toward the brakes.
    pub outlets: Vec<String>,
    /// Fluid on the way through, flushed by bleeding.
    pub through: Bounds<Volume>,
    /// Fluid behind closed valves, moved only by the maker's routine.
    pub trapped: Bounds<Volume>,
}

/// A caliper, wheel cylinder or clutch slave.
#[derive(Clone, Debug)]
pub struct Brake {
    /// Which.
    pub kind: BrakeKind,
    /// Its cavities: one, or several with names.
    pub cavities: Vec<Cavity>,
    /// Contents of the passage that joins the cavities; without it they are
    /// separate and may belong to different circuits.
    pub crossover: Option<Bounds<Volume>>,
    /// The cavity that the maker wants bled first.
    pub bleed_first: Option<String>,
    /// Lining state, where the layout gives it.
    pub lining: Option<Lining>,
    /// Piston travel from new to fully worn linings.
    pub wear_travel: Figure<Length>,
    /// Clearance of the released pistons.
    pub running_clearance: Option<Bounds<Length>>,
    /// Fluid that it takes up at 100 bar because it flexes.
    pub gives_at_100_bar: Option<Bounds<Volume>>,
}

/// The kinds of brake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BrakeKind {
    /// Disc brake.
    Caliper {
        /// Fixed or sliding, where the layout says so.
        mounting: Option<Mounting>,
    },
    /// Drum brake.
    WheelCylinder,
    /// Clutch.
    ClutchSlave,
}

/// One cavity: pistons and the fluid behind them.
#[derive(Clone, Debug)]
pub struct Cavity {
    /// Its name; empty when the brake has one cavity.
    pub id: String,
    /// Its pistons.
    pub pistons: Vec<Piston>,
    /// Fluid left when all pistons are pushed home.
    pub dead_volume: Figure<Volume>,
}

/// Pistons of one size.
#[derive(Clone, Debug)]
pub struct Piston {
    /// Diameter.
    pub bore: Bounds<Length>,
    /// How far each stands out of its fully retracted position.
    pub extension: Figure<Length>,
    /// How many.
    pub count: u32,
    /// Whether the number is an assumption (wheel cylinders have two).
    pub is_count_assumed: bool,
}

impl Cavity {
    /// Dead volume and piston area times extension.
    pub fn contents(&self) -> Bounds<Volume> {
        let behind_pistons: Bounds<Volume> = self
            .pistons
            .iter()
            .map(|piston| {
                let count = f64::from(piston.count);
                bore_area(piston.bore).zip(piston.extension.bounds, |area, extension| {
                    area * extension * count
                })
            })
            .sum();
        self.dead_volume.bounds + behind_pistons
    }

    /// The largest piston bore of the cavity.
    pub fn largest_bore(&self) -> Option<Bounds<Length>> {
        self.pistons
            .iter()
            .map(|piston| piston.bore)
            .max_by(|a, b| a.nominal.value.total_cmp(&b.nominal.value))
    }
}

/// A bleed screw.
#[derive(Clone, Debug)]
pub struct Screw {
    /// Its name.
    pub id: String,
    /// The chamber, cavity or port it opens, where the part has several.
    pub chamber: Option<String>,
    /// Whether it is the top of its cavity, where the layout says so.
    pub at_top: Option<bool>,
    /// How far below the top of the cavity it opens.
    pub below_top: Option<Bounds<Length>>,
    /// Bore of the drilling that the fluid leaves by.
    pub bore: Figure<Length>,
    /// Spanner size.
    pub spanner: Option<Bounds<Length>>,
    /// The spanner size as written, for printing.
    pub spanner_text: Option<String>,
    /// Tightening torque.
    pub torque: Option<Bounds<Torque>>,
    /// The torque as written, for printing.
    pub torque_text: Option<String>,
}

/// A pressure accumulator.
#[derive(Clone, Debug)]
pub struct Accumulator {
    /// Its pressure when charged.
    pub pressure: Option<Bounds<Pressure>>,
    /// Where the maker's routine to release it is found.
    pub routine: Option<String>,
}

/// A place on the vehicle, axes of ISO 8855: x forward, y left, z up.
#[derive(Clone, Copy, Debug)]
pub struct Position {
    /// Forward.
    pub x: Bounds<Length>,
    /// To the left.
    pub y: Bounds<Length>,
    /// Up.
    pub z: Option<Bounds<Length>>,
}
