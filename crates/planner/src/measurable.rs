//! What may be worth measuring: a figure of a thing that has a name.

/// A figure of a layout that can be measured.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Measurable {
    /// Which figure.
    pub what: Dimension,
    /// The part, line, cavity, chamber or compartment, by name.
    pub of: String,
}

/// Which figure of a thing can be measured. Where two are worth the same, the one that stands first here comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// How far pistons stand out.
    Extension,
    /// The bore of a line, a cylinder or one chamber of it.
    Bore,
    /// What it holds.
    Contents,
    /// What the drilling between the cavities of a brake holds.
    Crossover,
    /// What the hose from a compartment holds.
    FeedHose,
    /// What a cavity holds with its pistons in.
    DeadVolume,
    /// The length of a line.
    Length,
    /// What a compartment holds at its maximum mark.
    Maximum,
    /// The same at its minimum mark.
    Minimum,
    /// The bore of pistons.
    PistonBore,
    /// The stroke of a chamber.
    Stroke,
    /// The travel that closes the port of a chamber.
    CutOff,
    /// What a syringe leaves in a compartment.
    LeftWhenDrawnOff,
}
