//! What the figures of a circuit rest on beside the layout, as facts; their numbers stand in [`crate::assumed`].

use bleedwright_network::Usual;

/// Something that is taken for granted of a cylinder or its circuit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Guessed {
    /// A figure of which the file is silent.
    Usual(Usual),
    /// What springs and seals of master pistons take.
    Drag,
    /// The wall of steel pipes.
    PipeWall,
    /// How far braided hoses swell.
    BraidedHoses,
    /// How far rubber hoses, and those of unknown make, swell.
    RubberHoses,
    /// The clearance of drum brakes.
    DrumClearance,
    /// The clearance of disc brakes.
    DiscClearance,
    /// The flexing of drum brakes.
    DrumGive,
    /// The flexing of disc brakes.
    DiscGive,
    /// What closes the clearance of drum brakes.
    DrumTouch,
    /// What closes the clearance of disc brakes.
    DiscTouch,
    /// This valve stands as for an empty vehicle.
    Unladen(String),
    /// This valve has no settings in the layout and is taken as open.
    TakenAsOpen(String),
}
