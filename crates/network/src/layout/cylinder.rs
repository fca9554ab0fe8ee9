//! Master cylinders.

use super::part::{Accumulator, Position, Screw};
use super::words::{BoosterKind, Control, Works};
use crate::bounds::{Bounds, Figure};
use uom::si::f64::{Area, Force, Length, Ratio, Volume};

/// A master cylinder.
#[derive(Clone, Debug)]
pub struct Cylinder {
    /// Its name.
    pub id: String,
    /// One chamber, or two in line.
    pub kind: CylinderKind,
    /// Its chambers: one, or primary and secondary.
    pub chambers: Vec<Chamber>,
    /// What it works.
    pub purpose: Works,
    /// What the driver presses.
    pub control: Control,
    /// Pedal or lever travel per piston travel.
    pub pedal_ratio: Figure<Ratio>,
    /// Travel at the pedal before the piston moves.
    pub free_play: Figure<Length>,
    /// How far pedal and bulkhead flex under 500 N on the pedal, measured at
    /// the pedal.
    pub flex_at_500_n: Option<Bounds<Length>>,
    /// Its booster.
    pub booster: Option<Booster>,
    /// Height above the ground.
    pub height: Option<Bounds<Length>>,
    /// Where it sits.
    pub position: Option<Position>,
    /// Bleed screws on the cylinder itself.
    pub screws: Vec<Screw>,
}

/// How many chambers a master cylinder has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CylinderKind {
    /// One piston, one chamber.
    Single,
    /// Two pistons in line; the primary one is pushed by the pedal.
    Tandem,
}

/// One pressure chamber of a master cylinder.
#[derive(Clone, Debug)]
pub struct Chamber {
    /// `primary` or `secondary`; empty for a single cylinder.
    pub port: &'static str,
    /// Bore of its piston.
    pub bore: Bounds<Length>,
    /// The whole stroke of its piston.
    pub stroke: Bounds<Length>,
    /// The travel that closes the port to the reservoir.
    pub cut_off: Figure<Length>,
    /// The label the layout gives its circuit.
    pub circuit_label: Option<String>,
}

impl Chamber {
    /// Piston area.
    pub fn area(&self) -> Bounds<Area> {
        self.bore
            .map(|bore| bore * bore * std::f64::consts::FRAC_PI_4)
    }

    /// Contents in front of the piston at rest: area times stroke.
    pub fn contents(&self) -> Bounds<Volume> {
        self.area().zip(self.stroke, |area, stroke| area * stroke)
    }
}

/// A brake booster.
#[derive(Clone, Debug)]
pub struct Booster {
    /// Where its force comes from.
    pub kind: BoosterKind,
    /// Output force per input force.
    pub ratio: Option<Bounds<Ratio>>,
    /// The most that it adds to the force on the rod.
    pub most_help: Option<Bounds<Force>>,
    /// Its pressure accumulator.
    pub accumulator: Option<Accumulator>,
}

/// A bar that shares one pedal between two single cylinders.
#[derive(Clone, Debug)]
pub struct BalanceBar {
    /// The two cylinders, as written.
    pub cylinders: Vec<String>,
    /// The share of the force that the first of them gets.
    pub share: Figure<Ratio>,
}
