//! What drives the fluid by each method, how fast it flows, how long that takes.

mod flow;
mod pressure;
mod technique;

pub(crate) use flow::{
    Flows, PORT_MM, SteadyFlow, assumed_height, stated_height, valve_at, viscosity, weight,
};
pub use flow::{fluid_state, line_resistance, liquid, screw_loss};
pub(crate) use pressure::{pump, syringe, tank, usual_tank};
pub(crate) use technique::{CLEAR_ML, CLEAR_STROKES, counted, cycle, hold, usual_cycle};

use crate::options::Method;

/// How many people a method takes.
pub(crate) fn hands(method: Method) -> u8 {
    match method {
        Method::Pedal => 2,
        Method::Pressure | Method::Vacuum | Method::Gravity | Method::Reverse => 1,
    }
}
