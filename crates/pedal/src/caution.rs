//! What to beware of at a pedal, as facts.

/// Something to beware of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PedalCaution {
    /// The figures are those of a model, and say nothing of safety.
    Model,
    /// What must be in place before anybody presses.
    BeforePressing,
    /// What a leak shows by.
    Leak,
    /// What may be clamped, and how.
    Clamps,
    /// A plugged outlet is an opened system.
    Plugs,
    /// What another cylinder is chosen for.
    OtherCylinder,
}
