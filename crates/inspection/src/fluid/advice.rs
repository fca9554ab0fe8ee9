//! Which assumptions and cautions belong to a judgement.

use super::assumption::FluidAssumption;
use super::boiling_lines::lowest_wet;
use super::car::Car;
use super::caution::FluidCaution;
use super::estimate::BoilingEstimate;
use super::reading::FluidReading;
use super::verdict::Verdict;
use bleedwright_network::{Fluid, FluidFamily};

/// The assumptions behind this judgement, and no others.
pub(super) fn assumptions(
    reading: &FluidReading,
    car: &Car<'_>,
    estimate: Option<&BoilingEstimate>,
) -> Vec<FluidAssumption> {
    use FluidAssumption as It;
    let mut all = Vec::new();
    let mut assume = |holds: bool, assumption| all.extend(holds.then_some(assumption));
    let has_no_tolerance = reading.moisture.is_some_and(|m| m.low == m.high)
        || reading.boiling.is_some_and(|b| b.low == b.high);
    let (has_moisture, has_boiling) = (reading.moisture.is_some(), reading.boiling.is_some());
    let takes_water = !is_without_water(car);
    assume(
        reading.grade.is_none() && reading.required.is_some(),
        It::GradeAsAsked,
    );
    assume(reading.mixed_with.is_empty(), It::NotToppedUp);
    assume(has_no_tolerance, It::ExactReading);
    assume(has_moisture && !car.is_wrong_family, It::WaterLines);
    if let (Some(_), Some(lowest)) = (estimate, lowest_wet()) {
        assume(!has_boiling, It::EstimateLines(lowest));
    }
    assume(has_boiling && !car.is_wrong_family, It::BoilingLines);
    if let Some(estimate) = estimate {
        let is_from_memory = car.grade == Some(Fluid::Dot4LowViscosity);
        assume(true, It::Curves);
        assume(true, It::WetPoint);
        assume(is_from_memory, It::ClassFromMemory);
        assume(estimate.is_extrapolated, It::Extrapolated);
    }
    assume(reading.is_of_the_label, It::OfTheLabel);
    assume(reading.age.is_some() && takes_water, It::Overdue);
    if let Some(bottle) = &reading.bottle {
        assume(bottle.grade.is_none(), It::BottleGrade);
        assume(bottle.opened_for.is_some() && takes_water, It::OpenedFor);
        assume(bottle.moisture.is_some(), It::NewWater);
    }
    all
}

/// The cautions, the ones that govern all others first.
///
/// Source: [SAEJ1705](crate#sources) for the air in silicone fluid.
pub(super) fn cautions(
    car: &Car<'_>,
    verdict: Verdict,
    estimate: Option<&BoilingEstimate>,
) -> Vec<FluidCaution> {
    use FluidCaution as It;
    let mut all = Vec::new();
    let mut warn = |holds: bool, caution| all.extend(holds.then_some(caution));
    let is_unsafe = verdict == Verdict::Unsafe;
    warn(is_unsafe && car.is_wrong_family, It::WrongFluid);
    warn(is_unsafe && !car.is_wrong_family, It::MayBoil);
    warn(verdict == Verdict::RenewNow, It::BoilsHot);
    warn(true, It::ManualGoverns);
    warn(!is_without_water(car), It::TesterAlone);
    warn(!is_without_water(car), It::ReservoirOnly);
    warn(estimate.is_some(), It::Estimate);
    warn(true, It::Colour);
    warn(car.grade == Some(Fluid::Dot5), It::Silicone);
    warn(true, It::Harms);
    all
}

/// Whether the fluid is known to take up no water.
fn is_without_water(car: &Car<'_>) -> bool {
    car.grade
        .is_some_and(|grade| grade.family() != FluidFamily::Glycol)
}
