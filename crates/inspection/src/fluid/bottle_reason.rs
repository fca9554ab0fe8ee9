//! Why an item says of a bottle what it says.

use bleedwright_network::{Bounds, Fluid, Substitute};
use uom::si::f64::{Ratio, ThermodynamicTemperature, Time};

/// Why, by what was looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BottleReason {
    /// Nobody knows what the car needs.
    NeedNotKnown,
    /// Taken for what the car needs.
    TakenFor(Fluid),
    /// Its grade held against what the car needs.
    Grade {
        /// Its grade.
        is: Fluid,
        /// What the car needs.
        wanted: Fluid,
        /// How the one stands to the other.
        substitute: Substitute,
    },
    /// A boiling point on its label without a minimum to hold it against.
    NoMinimum(ThermodynamicTemperature),
    /// A boiling point on its label held against a minimum.
    Label {
        /// What the label says.
        says: ThermodynamicTemperature,
        /// The grade whose minimum it is.
        grade: Fluid,
        /// The minimum.
        least: ThermodynamicTemperature,
        /// Whether the label says less.
        is_less: bool,
    },
    /// It takes up no water.
    NoWater(Fluid),
    /// Its moisture was not read.
    NotRead,
    /// Its moisture was read.
    Moisture {
        /// The reading.
        moisture: Bounds<Ratio>,
        /// Whether that is more than is filled in.
        is_too_much: bool,
        /// Whether it is not judged because nobody knows its grade.
        lacks_grade: bool,
    },
    /// How long it has been open is not stated.
    OpeningNotStated,
    /// It is open.
    Open {
        /// For so long.
        time: Time,
        /// What that means.
        means: Opened,
    },
}

/// What it means that a bottle has been open for some time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opened {
    /// It takes up no water: its label says how long it keeps.
    KeepsByLabel,
    /// It is used up soon.
    ForShort,
    /// For so long that no tester vouches for it.
    Doubtful,
    /// Too long.
    TooLong,
}
