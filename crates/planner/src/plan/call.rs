//! Who says and does what at each screw.

use crate::options::Method;
use bleedwright_network::Control;
use uom::si::f64::Time;

/// How the steps go.
#[derive(Clone, Debug, PartialEq)]
pub enum Calls {
    /// Two people, stroke by stroke.
    Strokes {
        /// What is pressed; more than one kind where circuits of different controls are bled.
        controls: Vec<Control>,
        /// How long it is held before the screw is shut.
        hold: Time,
        /// Whether a screw stands above the fluid that feeds it: open without pressure it draws air.
        may_draw_air: bool,
    },
    /// One person at the screw, by any method but the pedal's.
    Alone(Method),
}
