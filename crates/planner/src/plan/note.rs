//! What else there is to know at a step.

use strum::IntoStaticStr;
use uom::si::f64::{Length, Volume};

/// Something worth saying at a wheel, in the order in which it is said.
#[derive(Clone, Debug, PartialEq, PartialOrd, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum StepNote {
    /// The block moves to this travel of the pedal.
    BlockTo(Length),
    /// The brake is unbolted and tilted, or about this much air stays above its screw.
    Unbolted(Volume),
    /// This part has a chamber on another circuit too.
    OtherChamber(String),
    /// Two screws are opened together, so that the balance bar stays level.
    OpenBoth,
    /// Its screw was opened before.
    SecondVisit,
    /// The circuit that is shut may take up nearly all of a stroke.
    ShutTakesUp,
    /// One circuit alone tilts the balance bar.
    BarTilts,
    /// Air elsewhere in its circuit takes up strokes.
    AirElsewhere,
    /// Air in the primary circuit takes up strokes of the secondary.
    AirInPrimary {
        /// Whether gravity may fill its run instead.
        or_by_gravity: bool,
    },
}
