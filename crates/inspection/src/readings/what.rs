//! What a check looked at.

/// What was looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Whether the record says what the plan asked for.
    Plan,
    /// Whether a step or a task is done.
    Done,
    /// Whether the level was kept and every stop seen to.
    LevelKept,
    /// By what a routine was run.
    RoutineBy,
    /// When it was run.
    RoutineOn,
    /// Whether the vehicle's list names anything.
    List,
    /// The share of the pedal's travel that is used.
    Travel,
    /// Whether the pedal is firm.
    Firm,
    /// Whether it holds under a hard press.
    Hold,
    /// A brake of which nobody wrote down anything.
    Brake,
    /// The thickness of a disc.
    Disc,
    /// The diameter of a drum.
    Drum,
    /// The thickness of the lining.
    Lining,
    /// The torque of a bleed screw.
    Torque,
    /// Whether it is dry.
    Dry,
    /// Whether its dust cap is on.
    DustCap,
    /// The level in a compartment.
    Level,
    /// Whether its cap is on.
    Cap,
    /// A leak anywhere.
    Leak,
    /// Hoses and pipes.
    Hoses,
    /// Whether the warning lamp lights.
    LampLights,
    /// Whether it goes out.
    LampGoesOut,
    /// Whether the fluid is clear.
    FluidClear,
    /// The fluid that was filled in.
    Fluid,
    /// Its boiling point.
    Boiling,
    /// When its bottle was opened.
    BottleOpened,
    /// The vehicle.
    Vehicle,
    /// What tells it from its like.
    Registration,
    /// Who did the work.
    DoneBy,
    /// Who checked it.
    CheckedBy,
    /// When.
    Date,
    /// Where the sample before the work was taken.
    SampleBefore,
    /// The bottle.
    Bottle,
    /// By what torques were set.
    TorqueTool,
    /// Parts that were fitted.
    PartsFitted,
    /// Work that the owner did not want.
    Refused,
    /// When the fluid is due again.
    NextDue,
}
