//! What a job changes on the vehicle, by what it is changed on.

use super::Standing;

/// A change to the vehicle that must be undone.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Change {
    /// The electric parking brake is in service mode.
    ServiceMode,
    /// A load-sensing lever is tied toward laden; the valve's name.
    LeverTied(String),
    /// A hose clamp is on; the line's name.
    Clamp(String),
    /// A plug sits in an open end; the name of the line, or of the part.
    Plug(String),
    /// The pedal or lever of these cylinders is propped just past the cut-off.
    Propped(Vec<String>),
    /// A block lies under the pedal or lever of this cylinder, or of the two under one balance bar.
    PedalBlock(Vec<String>),
    /// A metering valve is held open; its name.
    MeteringHeld(String),
    /// A spacer blocks the pistons of an unbolted brake; its name.
    Spacer(String),
    /// Stored pressure was released; the owner's name.
    PressureReleased(String),
    /// A pressure tank is on the reservoir.
    TankOn,
    /// The vehicle stands on supports.
    OnSupports(Standing),
    /// Screw caps are off.
    CapsOff,
    /// Unions were loosened to let air out; their names.
    UnionLoosened(Vec<String>),
    /// The banjo of a lever's cylinder was cracked like a screw; the cylinder's name.
    BanjoCracked(String),
    /// The reverse lock-out of a coupler is set so that the shaft brakes; the cylinder's name.
    ReverseLockSet(String),
    /// The breakaway cable of a trailer is off.
    BreakawayOff,
}
