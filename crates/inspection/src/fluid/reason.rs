//! Why an item says of the fluid in the car what it says.

use super::boiling_lines::BoilingLines;
use super::reading::Look;
use super::verdict::Verdict;
use bleedwright_network::{Bounds, Fluid, Substitute};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};

/// Why, by what was looked at.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// Its grade.
    Grade(GradeReason),
    /// What was added to it.
    Mixture(MixtureReason),
    /// What a sample looks like; none where nobody looked.
    Look(Option<Look>),
    /// The water in it.
    Moisture(MoistureReason),
    /// Its measured boiling point.
    Boiling(BoilingReason),
    /// How long it has been in the car.
    Age(AgeReason),
}

/// Of the grade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GradeReason {
    /// Nobody says what is in the car.
    Unknown,
    /// What is in it is stated, what the maker asks for is not.
    Stated(Fluid),
    /// Taken for what the maker asks for.
    Asked(Fluid),
    /// What was added to it comes first.
    AddedFirst,
    /// Held against what the maker asks for.
    Held {
        /// The grade that it is judged as, or the thickest in it.
        is: Fluid,
        /// What the maker asks for.
        wanted: Fluid,
        /// How the one stands to the other.
        substitute: Substitute,
    },
}

/// Of what was added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MixtureReason {
    /// Nothing, as far as anybody says.
    NotAdded,
    /// Fluid of another family; what was in the car before, where it is known.
    OtherFamily {
        /// Before.
        base: Option<Fluid>,
        /// Added.
        added: Vec<Fluid>,
    },
    /// Added to a fluid that is not known.
    ToUnknown(Vec<Fluid>),
    /// One that is too thick for what was in the car.
    TooThick {
        /// The thick one.
        is: Fluid,
        /// Before.
        base: Fluid,
        /// How the one stands to the other.
        substitute: Substitute,
    },
    /// It mixes without harm.
    Mixes {
        /// Before.
        base: Fluid,
        /// Added.
        added: Vec<Fluid>,
        /// The lower grade that the whole counts as; none where it keeps its own.
        falls_to: Option<Fluid>,
    },
}

/// Of the water in it.
#[derive(Clone, Debug, PartialEq)]
pub enum MoistureReason {
    /// It takes up none.
    NoWater(Fluid),
    /// Not read.
    NotRead,
    /// Fluids that do not mix may be in the car.
    Meaningless(Bounds<Ratio>),
    /// Read, and judged at the wetter end.
    Read {
        /// The reading.
        moisture: Bounds<Ratio>,
        /// The boiling point that it leaves, where one is estimated.
        boils: Option<EstimatedBoiling>,
        /// Whether it is so much that no boiling point is given.
        is_too_much: bool,
        /// What the water says by itself.
        by_water: Verdict,
        /// Whether it would be found fit if the grade were known.
        lacks_grade: bool,
    },
}

/// The cautious estimate held against a wet minimum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EstimatedBoiling {
    /// The boiling point, estimated.
    pub point: ThermodynamicTemperature,
    /// The grade whose minimum it is held against.
    pub grade: Fluid,
    /// That minimum.
    pub least_wet: ThermodynamicTemperature,
    /// What follows.
    pub says: EstimateSays,
}

/// What follows from an estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EstimateSays {
    /// Not below the minimum.
    NotBelow,
    /// Below it, but the boiling point was measured too, and that counts.
    MeasuredCounts,
    /// Below it.
    Below,
    /// Below that of any class.
    BelowEveryClass,
}

/// Of the boiling point.
#[derive(Clone, Debug, PartialEq)]
pub enum BoilingReason {
    /// Not measured.
    NotMeasured,
    /// Fluids that do not mix may be in the car.
    Meaningless(Bounds<ThermodynamicTemperature>),
    /// No law states one of this grade.
    NoLaw {
        /// The reading.
        boiling: Bounds<ThermodynamicTemperature>,
        /// The grade.
        grade: Fluid,
        /// Whether it boils lower than any class of brake fluid may.
        is_below_every_class: bool,
    },
    /// Held against the lines of a grade at its lower end.
    Held {
        /// The reading.
        boiling: Bounds<ThermodynamicTemperature>,
        /// The lines.
        lines: BoilingLines,
        /// Whether it lies below the least wet boiling point.
        is_below_wet: bool,
        /// What the grade must reach new and dry, where it is known.
        least_dry: Option<ThermodynamicTemperature>,
        /// Whether it reaches that.
        reaches_dry: bool,
        /// Whether it would be found fit if the grade were known.
        lacks_grade: bool,
    },
}

/// Of its age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AgeReason {
    /// Not known.
    NotKnown,
    /// The rule is one for fluid that takes up water, and this one does not.
    NoRule(Time),
    /// Held against an interval.
    Held {
        /// How long it has been in the car.
        age: Time,
        /// The maker's interval; none where the rule of the trade stands in for it.
        interval: Option<Time>,
        /// How the one stands to the other.
        due: Due,
    },
}

/// Whether renewal is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    /// Not yet.
    NotYet,
    /// Due.
    Now,
    /// Overdue, whatever the interval.
    Overdue,
}
