//! What a plan rests on beside the layout, as facts; renderers have the words.

use bleedwright_network::{Bounds, Usual};
use strum::IntoStaticStr;
use uom::si::f64::{
    DiffusionCoefficient, KinematicViscosity, Length, Pressure, Ratio, Time, Volume,
};

/// An assumption and what it was made for.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// What is assumed.
    pub what: Assumed,
    /// The parts, lines and circuits concerned, sorted; empty for the method itself.
    pub of: Vec<String>,
}

/// Something that is assumed.
#[derive(Clone, Copy, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Assumed {
    /// A figure of which the file is silent.
    Usual(Usual),
    /// Screws sit at the top of their cavity.
    ScrewsAtTop,
    /// No brake lies above its reservoir, where heights are missing that decide it.
    NoneAbove,
    /// What the file marks as a guess.
    Guesses,
    /// Which half of a cylinder feeds these lines is marked as a guess.
    Connected,
    /// Air stays at an opened joint whose height nobody knows.
    AirAtJoint,
    /// How far the reservoir stands above a screw.
    ReservoirHeight(Bounds<Length>),
    /// Strokes are counted as if the block let the piston go by this share of its stroke.
    FirmPedal(Ratio),
    /// The viscosity that times rest on.
    Viscosity(Bounds<KinematicViscosity>, ViscosityFrom),
    /// What the shut circuit takes up of a stroke.
    TakenUp(Bounds<Volume>),
    /// What moves pistons, and closes clearances, of what takes it up.
    Takers,
    /// The share of a cavity that the flow passes by.
    Stirring(Bounds<Ratio>),
    /// The diffusivity of old in new fluid.
    Diffusion(Bounds<DiffusionCoefficient>),
    /// The share that is spilt.
    Spilt(Ratio),
    /// A cavity of fluid follows the last bubble.
    CavityAfterAir,
    /// Air leaves ahead of the fluid.
    AirAhead,
    /// So many strokes come clear.
    ClearStrokes(u32),
    /// So much comes clear.
    ClearVolume(Volume),
    /// Strokes are half as long as usual, after long standing.
    ShortStrokes,
    /// The bore of the ports.
    Ports(Bounds<Length>),
    /// The jar stands as high as the screw.
    JarAtScrew,
    /// What a syringe presses with.
    Syringe(Bounds<Pressure>),
    /// What a tank of no known pressure presses with.
    Tank(Bounds<Pressure>),
    /// What a stroke takes in any fluid that is not thick, and how long of it the pedal is held.
    Cycle {
        /// The whole of it.
        stroke: Bounds<Time>,
        /// What it is held for.
        held: Time,
    },
}

/// How well a viscosity is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ViscosityFrom {
    /// Measured.
    Measured,
    /// Measured, and followed beyond the points.
    BeyondPoints,
    /// Typical of the grade.
    Typical,
    /// A guess.
    Guess,
}
