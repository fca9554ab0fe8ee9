//! What can be wrong with a network of pedal strokes.

/// Why a stroke gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StrokeError {
    /// A node's compliance is negative, infinite or not a number.
    #[error("a compliance must be finite and zero or more, found {compliance_m3_per_pa} m3/Pa")]
    ComplianceOutOfRange {
        /// The compliance found.
        compliance_m3_per_pa: f64,
    },
    /// A pocket's volume is not a finite number above nothing.
    #[error("a gas pocket must have a finite volume above 0, found {volume_ml} ml")]
    PocketVolumeOutOfRange {
        /// The volume found, in millilitres.
        volume_ml: f64,
    },
    /// A polytropic index lies outside 1 to 1.4.
    #[error("a polytropic index must lie between 1 and 1.4, found {index}")]
    IndexOutOfRange {
        /// The index found.
        index: f64,
    },
    /// An absolute pressure is not a finite number above nothing.
    #[error("an absolute pressure must be finite and above 0, found {pressure_pa} Pa")]
    AbsolutePressureOutOfRange {
        /// The pressure found.
        pressure_pa: f64,
    },
    /// The pressure of an end is not a finite number above the vacuum.
    #[error("a gauge pressure must be finite and above the vacuum, found {pressure_pa} Pa")]
    GaugePressureOutOfRange {
        /// The pressure found.
        pressure_pa: f64,
    },
    /// A branch's linear coefficient is not a finite number above nothing.
    #[error(
        "a linear resistance must be finite and above 0, found {resistance_pa_s_per_m3} Pa s/m3"
    )]
    LinearOutOfRange {
        /// The coefficient found.
        resistance_pa_s_per_m3: f64,
    },
    /// A branch's quadratic coefficient is negative, infinite or not a number.
    #[error(
        "a quadratic resistance must be finite and zero or more, found {resistance_pa_s2_per_m6} Pa s2/m6"
    )]
    QuadraticOutOfRange {
        /// The coefficient found.
        resistance_pa_s2_per_m6: f64,
    },
    /// A branch begins and ends at one node.
    #[error("a branch must join two different nodes")]
    BranchToItself,
    /// A piston stands at an end, whose pressure nothing changes.
    #[error("a piston must stand at a node, not at an end of fixed pressure")]
    PistonAtEnd,
    /// A piston's area is not a finite number above nothing.
    #[error("a piston must have a finite area above 0, found {area_mm2} mm2")]
    AreaOutOfRange {
        /// The area found, in square millimetres.
        area_mm2: f64,
    },
    /// A length or time of a motion cannot be.
    #[error("a motion needs finite travels and times that do not run back, found {value} {unit}")]
    MotionOutOfRange {
        /// The value found.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// The time to run for or a time asked for is not finite, or it is negative.
    #[error("a time must be finite and zero or more, found {time_s} s")]
    TimeOutOfRange {
        /// The time found.
        time_s: f64,
    },
    /// A state is asked for after the end of the run.
    #[error("a state was asked for at {asked_s} s, and the run ends at {until_s} s")]
    AskedAfterEnd {
        /// The time asked for.
        asked_s: f64,
        /// The end of the run.
        until_s: f64,
    },
    /// A tolerance is too large or too small to mean anything.
    #[error("a tolerance must lie between {least} and {most} {unit}, found {found} {unit}")]
    ToleranceOutOfRange {
        /// The tolerance found.
        found: f64,
        /// The smallest that rounding leaves room for.
        least: f64,
        /// The largest that still controls anything.
        most: f64,
        /// Its unit.
        unit: &'static str,
    },
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

/// The time in seconds, if a run can reach it.
pub(super) fn checked_s(time_s: f64) -> Result<f64, StrokeError> {
    if time_s.is_finite() && time_s >= 0.0 {
        Ok(time_s)
    } else {
        Err(StrokeError::TimeOutOfRange { time_s })
    }
}
