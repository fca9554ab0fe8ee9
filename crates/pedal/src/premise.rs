//! What an answer about a pedal rests on beside the layout, as facts.

use bleedwright_mechanism::Guessed;
use bleedwright_network::Bounds;
use uom::si::f64::Force;

/// Something that an answer takes for granted.
#[derive(Clone, Debug, PartialEq)]
pub enum Premise {
    /// Of its cylinders and their circuits.
    Guessed(Guessed),
    /// The pedal of a balance bar is the one that is given for this cylinder.
    BarAtCylinder(String),
    /// A balance bar tilts as far as the pistons let it.
    BarTilts,
    /// The state of the fluid, and of trapped air.
    FluidAndAir,
    /// How the pedal is held and pumped.
    HeldAndPumped,
    /// The flexing of a coupler's shaft and its drawbar.
    CouplerFlex,
    /// The flexing of pedal and bulkhead.
    PedalFlex,
    /// How much a running booster multiplies.
    BoosterRatio,
    /// The most that a vacuum booster adds.
    VacuumHelp,
    /// No end of a booster's help is known.
    HelpWithoutEnd,
    /// How well a measured travel is known.
    MeasuredTravel,
    /// Forces that no gauge showed, each once.
    RoughForces(Vec<Bounds<Force>>),
}
