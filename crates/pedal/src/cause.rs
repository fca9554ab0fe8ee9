//! What may be wrong with a pedal, each with the check that tells it from the others, as facts.

/// A cause of a symptom. Where one cause is told in different ways by different symptoms it stands once for each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Low: fluid was lost.
    FluidLost,
    /// Low: shoes are too far from their drums.
    ShoesFarLow,
    /// Low: pistons were pushed back.
    PistonsPushedBack,
    /// Low: air in a circuit.
    AirLow,
    /// Low: too much free play, or a short rod.
    FreePlay,
    /// Low: the balance bar stands against its stop.
    BarAtStop,
    /// Rises: shoes are too far from their drums.
    ShoesFar,
    /// Rises: pistons were knocked back, or pads have not settled.
    KnockedBack,
    /// Rises: the electric parking brake is in service mode.
    ServiceMode,
    /// Rises: a residual valve holds nothing.
    ResidualValve,
    /// Rises: air as well.
    AirAsWell,
    /// Springy: air.
    Air,
    /// Springy: air in the closed part of the anti-lock unit.
    AirInUnit,
    /// Springy: a hose that swells.
    HoseSwells,
    /// Springy: pads and slides.
    PadsAndSlides,
    /// Springy: shoes that do not lie in their drums.
    ShoesNotBedded,
    /// Springy: fluid that boiled.
    Boiled,
    /// Sinking: a leak outside.
    Leak,
    /// Sinking: seals of the master cylinder.
    CylinderSeals,
    /// Sinking: a valve of the anti-lock unit.
    UnitValve,
    /// Sinking: the booster's help as the engine starts.
    BoosterComesIn,
    /// Hard: no help of the booster.
    NoHelp,
    /// Hard: pistons, slides or linings.
    Sticking,
    /// Hard: a closed hose.
    HoseClosed,
    /// Hard: a rod that keeps the ports shut.
    PortsShut,
    /// Soft again: a leak.
    LeakAgain,
    /// Soft again: air that rose together.
    AirRose,
    /// Soft again: air out of the anti-lock unit.
    AirFromUnit,
    /// Soft again: a wheel cylinder draws in air.
    CylinderDrawsAir,
    /// Soft again: pistons were knocked back while driving.
    KnockedBackDriving,
}
