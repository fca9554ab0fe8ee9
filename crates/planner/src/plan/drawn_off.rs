//! How the old fluid is drawn off a compartment.

use uom::si::f64::{Ratio, Volume};

/// The work on one compartment before it is filled with new fluid.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnOff {
    /// The compartment.
    pub compartment: String,
    /// What the syringe leaves.
    pub left: Volume,
    /// How often it is rinsed with a little new fluid.
    pub rinses: u32,
    /// New fluid of one rinse.
    pub rinse: Volume,
    /// The old share once it is filled, at most.
    pub old: Ratio,
}
