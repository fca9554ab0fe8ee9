//! What a drawing says in words: facts here, and whoever has it drawn gives the words.

use bleedwright_network::{Bounds, Split, Wheel, Works};
use uom::si::f64::Volume;

/// Something that stands in words in a drawing, beside it or in its description.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Told<'n> {
    /// From where it is seen.
    FromAbove,
    /// What a number in a frame is.
    FramedNumbers,
    /// What a hose looks like.
    Hoses,
    /// Where lines meet, and where they cross.
    Crossings,
    /// What a line inside a case is.
    Direct,
    /// What a full circle is.
    Steps,
    /// What a hollow circle is.
    StaysShut,
    /// What a line beside a disc is.
    Drillings,
    /// These cylinders have one pedal, with a balance bar.
    BalanceBar(&'n [String]),
    /// So many values of the layout are guesses.
    Guesses(usize),
    /// What governs.
    ManualGoverns,
    /// Who works on brakes.
    Competent,
    /// What is looked for afterwards.
    Leaks,
    /// What a circuit feeds and holds.
    Circuit {
        /// What it is for.
        purpose: Works,
        /// Its wheels.
        wheels: &'n [Wheel],
        /// What it holds.
        holds: Bounds<Volume>,
    },
    /// The heading of the screws.
    ScrewsInOrder,
    /// What a compartment holds at the maximum mark.
    Full(&'n str, Volume),
    /// The vehicle.
    Title(&'n str),
    /// How its circuits are split.
    Split(Split),
    /// One of its circuits.
    Described {
        /// Its name.
        name: &'n str,
        /// How many lines it has.
        lines: usize,
        /// How many screws.
        screws: usize,
        /// Its wheels.
        wheels: &'n [Wheel],
    },
    /// Where all lines are listed.
    Listed,
}

/// The words of a fact.
pub type Words = fn(Told<'_>) -> String;
