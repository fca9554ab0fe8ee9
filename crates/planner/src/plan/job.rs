//! What a job is done on: how it stands, what its circuits feed, what works them.

use bleedwright_network::Control;

/// How the vehicle is held while it is worked on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Standing {
    /// Lifted, its wheels off.
    CarOnStands,
    /// The same without a vehicle before it: its drawbar may tip.
    TrailerOnStands,
    /// Upright on its stand.
    MotorcycleOnStand,
    /// A clutch alone asks for no wheel off.
    WheelsOn,
}

/// What the circuits of the job feed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fed {
    /// Calipers.
    pub has_discs: bool,
    /// Wheel cylinders in drums.
    pub has_drums: bool,
    /// Slave cylinders of a clutch.
    pub has_clutch: bool,
}

/// A pedal, lever or coupler.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Worked {
    /// What it is.
    pub control: Control,
    /// Its cylinder, or the two under one balance bar.
    pub cylinders: Vec<String>,
}
