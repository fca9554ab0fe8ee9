//! What can hurt or mislead.

/// A caution beside a judgement of a fluid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FluidCaution {
    /// The wrong fluid: nobody drives, tops up or bleeds.
    WrongFluid,
    /// Fluid that may boil at any time: nobody drives.
    MayBoil,
    /// Fluid that boils where brakes get hot.
    BoilsHot,
    /// What governs.
    ManualGoverns,
    /// What a tester's reading does not show.
    TesterAlone,
    /// The fluid of the reservoir is not that of the brakes.
    ReservoirOnly,
    /// An estimate is no measurement.
    Estimate,
    /// What colour does not show.
    Colour,
    /// How silicone fluid behaves.
    Silicone,
    /// What fluid does to people and paint.
    Harms,
}
