//! What a check holds its finding against.

use crate::record::{Answer, BrakeType, Day};
use bleedwright_network::Fluid;
use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};

/// What is wanted; a text in it stands as somebody wrote it.
#[derive(Clone, Debug, PartialEq)]
pub enum Wanted {
    /// No limit is known.
    Unknown,
    /// The good answer.
    Answer(Answer),
    /// A step is done.
    Done,
    /// What a step pushes at least.
    Pushed(String),
    /// By what a routine is run.
    Routine,
    /// That it is stated.
    Stated,
    /// That it is stated, or left blank.
    StatedOrBlank,
    /// That there is none.
    None,
    /// [`crate::limit::most_pedal_travel`] at [`crate::limit::reserve_force`].
    Travel,
    /// [`crate::limit::hold_force`] for [`crate::limit::hold_time`].
    Hold,
    /// None is known for a hand lever.
    NotForHandLevers,
    /// None is known for an overrun coupler.
    NotForCouplers,
    /// The figure on a disc or drum, where it is given.
    Embossed(BrakeType, Option<String>),
    /// The maker's least lining, where it is given.
    MakersLining(Option<String>),
    /// The least lining of the law.
    LiningOfTheLaw {
        /// The figure.
        least: Length,
        /// Whether it is one over the shoe.
        is_over_shoe: bool,
    },
    /// [`crate::limit::lining_floor`].
    LiningFloor,
    /// The maker's torque, where it is given, and how far it may be missed where it has no tolerance.
    Torque(Option<String>, Option<Ratio>),
    /// The maximum mark.
    MaximumMark,
    /// The grade that the maker asks for.
    Grade(Fluid),
    /// The wet minimum of a grade.
    WetMinimum(Fluid, ThermodynamicTemperature),
    /// Opened within a month before the work.
    OpenedLately,
    /// On a day or before it.
    By(Day),
}
