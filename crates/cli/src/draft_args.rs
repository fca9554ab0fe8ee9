//! The words that `draft` takes.

use clap::ValueEnum;

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum CylinderWord {
    /// One piston
    Single,
    /// Two pistons in one bore
    Tandem,
    /// Two cylinders and a balance bar
    Twin,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum HalfWord {
    /// The half nearest the pedal
    Nearest,
    /// The half farthest from it
    Farthest,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum BoosterWord {
    /// A vacuum booster
    Vacuum,
    /// No booster
    None,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum BrakeWord {
    /// A caliper
    #[value(alias = "disk")]
    Disc,
    /// A drum with one wheel cylinder
    Drum,
    /// A drum with two wheel cylinders
    DoubleDrum,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum RearAxleWord {
    /// One hose to the axle, pipes on it
    Rigid,
    /// A hose at each wheel
    Independent,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum UnitWord {
    /// Metres and millimetres
    Mm,
    /// Inches
    Inch,
}
