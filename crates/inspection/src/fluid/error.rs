//! What is refused instead of being judged.

use super::subject::Subject;
use bleedwright_network::Fluid;
use thiserror::Error;

/// Why a reading is not judged.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum FluidError {
    /// A moisture reading of a fluid that takes up no water.
    #[error(
        "{subject} means nothing for {}: it takes up no water. {}",
        grade.text(),
        instead_of_moisture(*grade)
    )]
    NoMoisture {
        /// Which reading.
        subject: Subject,
        /// The fluid.
        grade: Fluid,
    },
    /// A reading that no fluid can have.
    #[error(
        "{subject} of {found}{unit} cannot be: allowed is {low} to {high}{unit}. Look at the figure and its unit"
    )]
    Implausible {
        /// Which reading.
        subject: Subject,
        /// What was found.
        found: f64,
        /// The lowest allowed.
        low: f64,
        /// The highest allowed.
        high: f64,
        /// The unit of all three, with the space before it.
        unit: &'static str,
    },
    /// Bounds that do not stand in their order.
    #[error("{subject}: low, nominal and high do not stand in their order. Give them rising")]
    NotOrdered {
        /// Which reading.
        subject: Subject,
    },
    /// A label whose wet boiling point is not below its dry one.
    #[error(
        "the label's wet boiling point, {wet_degc:.0} degC, is not below its dry one, {dry_degc:.0} degC. Read \
         the label again: the two may be exchanged, or one of them may be in degF"
    )]
    LabelExchanged {
        /// The dry boiling point.
        dry_degc: f64,
        /// The wet boiling point.
        wet_degc: f64,
    },
    /// A fluid that is said to be of a label, without the label's figures or of another family or grade.
    #[error("the fluid in the car cannot be taken for that of the label: {why}")]
    NotTheSameFluid {
        /// Why not.
        why: &'static str,
    },
    /// A temperature at which liquid water does not exist.
    #[error("water has no vapour pressure at {found_k} K: allowed is {low_k} to {high_k} K")]
    WaterTemperature {
        /// What was found.
        found_k: f64,
        /// The lowest allowed.
        low_k: f64,
        /// The highest allowed.
        high_k: f64,
    },
}

impl FluidError {
    /// The reading that is refused, where it is a single one.
    pub fn subject(&self) -> Option<Subject> {
        match self {
            Self::NoMoisture { subject, .. }
            | Self::Implausible { subject, .. }
            | Self::NotOrdered { subject } => Some(*subject),
            Self::LabelExchanged { .. } => Some(Subject::LabelWet),
            Self::NotTheSameFluid { .. } | Self::WaterTemperature { .. } => None,
        }
    }
}

/// What to do where a moisture tester is of no use.
pub fn instead_of_moisture(grade: Fluid) -> &'static str {
    if grade == Fluid::Dot5 {
        "Water lies in it as drops, which gather at the lowest places, boil at 100 degC and freeze at 0: draw a sample from \
         the lowest screw into a clear glass, let it stand and look for drops or cloudiness, measure the \
         boiling point, and renew when the maker says"
    } else {
        "A moisture tester for brake fluid does not read it: look at a sample from the lowest screw for \
         drops and cloudiness, and renew when the maker says"
    }
}
