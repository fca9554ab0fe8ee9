//! What can be wrong with a network of pedal strokes.

use crate::range::OutOfRange;

/// Why a stroke gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StrokeError {
    /// A size of the network, of a motion or of the run cannot be.
    #[error(transparent)]
    Number(#[from] OutOfRange),
    /// A branch begins and ends at one node.
    #[error("a branch must join two different nodes")]
    BranchToItself,
    /// A piston stands at an end, whose pressure nothing changes.
    #[error("a piston must stand at a node, not at an end of fixed pressure")]
    PistonAtEnd,
    /// A node or branch of another network.
    #[error("the network has no {what} number {index}")]
    Unknown {
        /// What was meant.
        what: &'static str,
        /// Its number.
        index: usize,
    },
    /// The steps became too small to go on, as when a pocket is pressed to nothing.
    #[error("the pressures change too fast to be followed at {time_s} s")]
    StepTooSmall {
        /// Where it stopped.
        time_s: f64,
    },
    /// The integration used all of its steps.
    #[error("the run needed more than {steps} steps and stopped at {time_s} s")]
    TooManySteps {
        /// The number of steps made.
        steps: usize,
        /// Where it stopped.
        time_s: f64,
    },
}
