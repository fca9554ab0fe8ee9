//! What a check found.

use crate::record::{Answer, Day, FluidLevel, StepEnd};
use bleedwright_network::Fluid;
use uom::si::f64::{Ratio, ThermodynamicTemperature};

/// What was found; a text in it stands as somebody wrote it.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// Nobody looked.
    Nothing,
    /// As written.
    Written(String),
    /// An answer.
    Answer(Answer),
    /// A level.
    Level(FluidLevel),
    /// A day.
    Day(Day),
    /// A grade of fluid.
    Grade(Fluid),
    /// How a step ended, and what it pushed.
    Step(Option<StepEnd>, Option<String>),
    /// Distances of the pedal from the floor.
    Travel {
        /// Of the free pedal.
        free: Option<String>,
        /// Of the depressed one.
        depressed: String,
        /// The share of the travel that is used, where it was worked out.
        used: Option<Ratio>,
        /// At what force.
        force: Option<String>,
    },
    /// A press that was held.
    Hold {
        /// How hard.
        force: Option<String>,
        /// How long.
        time: Option<String>,
        /// Whether the pedal went on sinking.
        dropped: Option<Answer>,
    },
    /// Readings of the fluid.
    Fluid {
        /// Water in it.
        moisture: Option<String>,
        /// Its boiling point.
        boiling: Option<String>,
        /// The boiling point by the water, where none was measured.
        estimated: Option<ThermodynamicTemperature>,
    },
}
