//! What can hurt.

use crate::options::Method;
use strum::IntoStaticStr;
use uom::si::f64::ThermodynamicTemperature;

/// A danger of the job.
#[derive(Clone, Debug, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum Caution {
    /// The maker's manual and local rules govern; the work is for a competent person.
    ManualGoverns,
    /// Nothing is pressed with a brake open, and no vehicle moves before what is pressed is firm.
    PressedOpen {
        /// Whether a coupler alone is pressed.
        by_coupler: bool,
    },
    /// Fluid harms, and is used once; dust is not blown about.
    FluidHarms {
        /// Whether brakes are among what is bled.
        has_brakes: bool,
    },
    /// Pipes and braided hoses are never clamped.
    NeverClamp {
        /// Whether the vehicle has braided hoses.
        has_braided: bool,
    },
    /// This part or cylinder stores pressure.
    StoresPressure(String),
    /// Silicone fluid holds dissolved air.
    Silicone,
    /// The fluid is thick in the cold.
    Cold {
        /// Of the fluid.
        temperature: ThermodynamicTemperature,
        /// How it is moved.
        method: Method,
    },
    /// One circuit alone tilts the balance bar.
    BarTilts,
}
