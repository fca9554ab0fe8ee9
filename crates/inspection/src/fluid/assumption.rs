//! What a judgement rests on that nobody measured.

use uom::si::f64::ThermodynamicTemperature;

/// An assumption behind a judgement of a fluid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FluidAssumption {
    /// The car holds what the maker asks for.
    GradeAsAsked,
    /// Nothing was added.
    NotToppedUp,
    /// A reading without a tolerance is exact.
    ExactReading,
    /// The lines for water.
    WaterLines,
    /// The lines for an estimated boiling point; below this one, the lowest of any class, it is not driven.
    EstimateLines(ThermodynamicTemperature),
    /// The lines for a measured boiling point.
    BoilingLines,
    /// How water and fluid boil together.
    Curves,
    /// The water of the wet minimum.
    WetPoint,
    /// Where the limits of low-viscosity DOT 4 come from.
    ClassFromMemory,
    /// There is more water than that of the wet minimum.
    Extrapolated,
    /// The label's figures are those of the fluid in the car.
    OfTheLabel,
    /// The age that is overdue.
    Overdue,
    /// The bottle's grade.
    BottleGrade,
    /// How long a bottle may be open.
    OpenedFor,
    /// The water of new fluid.
    NewWater,
}
