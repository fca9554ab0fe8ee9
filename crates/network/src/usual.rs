//! What is taken where the file is silent: every figure of it, once.

/// What is taken of something that the file does not give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Usual {
    /// Travel from new to worn linings of a sliding caliper, whose piston follows the wear of both, in mm.
    SlidingWearTravel,
    /// The same of a fixed caliper, each piston that of its own lining, in mm.
    FixedWearTravel,
    /// The same of a caliper that may be either, in mm.
    CaliperWearTravel,
    /// The same of a wheel cylinder, in mm.
    WheelCylinderWearTravel,
    /// How far the pistons of a sliding caliper stand out, linings unknown, in mm.
    SlidingExtension,
    /// The same of a fixed caliper, in mm.
    FixedExtension,
    /// The same of a caliper that may be either, in mm.
    CaliperExtension,
    /// The same of a wheel cylinder, in mm.
    WheelCylinderExtension,
    /// The same of a clutch's slave cylinder, in mm.
    ClutchExtension,
    /// What a caliper holds with its pistons in, in ml.
    CaliperDeadVolume,
    /// The same of a wheel cylinder, in ml.
    WheelCylinderDeadVolume,
    /// The same of a clutch's slave cylinder, in ml.
    ClutchDeadVolume,
    /// How much of the wear travel new linings have used, in %.
    NewLinings,
    /// The same of half-worn ones, in %.
    HalfWornLinings,
    /// The same of worn ones, in %.
    WornLinings,
    /// Two pistons of a wheel cylinder.
    WheelCylinderPistons,
    /// The lever's ratio of a pedal.
    PedalRatio,
    /// Travel of a pedal before the rod moves, in mm.
    FreePlay,
    /// Travel of a piston that closes its port, in mm.
    CutOff,
    /// Share of the force that a balance bar gives the first cylinder, in %.
    BarShare,
    /// What a syringe leaves of a compartment's contents, in %.
    LeftBySyringe,
    /// Bore of a hose, in mm.
    HoseBore,
    /// Bore of a bleed screw's drilling, in mm.
    ScrewBore,
    /// Contents of tees, unions and valves, in ml.
    PartContents,
    /// Bore of a pipe within the tolerances of its size, which has the figures.
    PipeBore,
}

impl Usual {
    /// Low, nominal and high, in the unit of each; no number where something else has them.
    ///
    /// ASSUMPTION: dead volumes, wear travels and extensions are orders of magnitude of the trade, the cut-off and what a
    /// syringe leaves around the ports too, all from memory. Where nobody knows whether a caliper is sliding or fixed, it may
    /// be either. A bar that nobody measured stands near its middle. The sources of the others stand where they are read.
    pub const fn figures(self) -> [f64; 3] {
        match self {
            Self::SlidingWearTravel => [10.0, 14.0, 18.0],
            Self::FixedWearTravel => [6.0, 8.0, 11.0],
            Self::CaliperWearTravel => [6.0, 10.0, 18.0],
            Self::WheelCylinderWearTravel => [3.0, 4.0, 6.0],
            Self::SlidingExtension => [0.5, 7.0, 17.0],
            Self::FixedExtension => [0.5, 4.0, 10.0],
            Self::CaliperExtension => [0.5, 5.0, 17.0],
            Self::WheelCylinderExtension => [0.5, 2.5, 6.0],
            Self::ClutchExtension => [2.0, 8.0, 16.0],
            Self::CaliperDeadVolume | Self::ClutchDeadVolume => [1.0, 2.0, 4.0],
            Self::WheelCylinderDeadVolume => [0.5, 1.0, 2.0],
            Self::NewLinings => [0.0, 5.0, 15.0],
            Self::HalfWornLinings => [30.0, 50.0, 70.0],
            Self::WornLinings => [75.0, 90.0, 100.0],
            Self::PedalRatio => [4.0, 5.0, 6.0],
            Self::FreePlay => [2.0, 6.0, 10.0],
            Self::CutOff | Self::ScrewBore => [1.0, 1.5, 2.0],
            Self::BarShare => [45.0, 50.0, 55.0],
            Self::LeftBySyringe => [2.0, 5.0, 10.0],
            Self::HoseBore => [2.8, 3.175, 3.6],
            Self::PartContents => [0.0; 3],
            Self::WheelCylinderPistons | Self::PipeBore => [f64::NAN; 3],
        }
    }
}
