//! Measured viscosity.

use crate::bounds::Bounds;
use uom::si::f64::{KinematicViscosity, ThermodynamicTemperature};

/// What the fluid's viscosity is at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ViscosityPoint {
    /// The temperature.
    pub temperature: ThermodynamicTemperature,
    /// The kinematic viscosity there.
    pub viscosity: Bounds<KinematicViscosity>,
}
