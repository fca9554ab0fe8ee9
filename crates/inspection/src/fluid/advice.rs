//! What was assumed, and what can hurt or mislead.

use super::car::Car;
use super::estimate::BoilingEstimate;
use super::judgement::Verdict;
use super::reading::FluidReading;
use bleedwright_network::{Fluid, FluidFamily};

/// The assumptions behind this judgement, and no others.
pub(super) fn assumptions(
    reading: &FluidReading,
    car: &Car<'_>,
    estimate: Option<&BoilingEstimate>,
) -> Vec<String> {
    let mut assumptions: Vec<String> = Vec::new();
    let mut assume = |text: &str| assumptions.push(text.to_owned());
    if reading.grade.is_none() && reading.required.is_some() {
        assume("The car holds the grade that it is made for.");
    }
    if reading.mixed_with.is_empty() {
        assume("It was not topped up with another grade.");
    }
    let has_no_tolerance = reading.moisture.is_some_and(|m| m.low == m.high)
        || reading.boiling.is_some_and(|b| b.low == b.high);
    if has_no_tolerance {
        assume(
            "A reading without a tolerance is exact. The tester's sheet states one: 2.5 % ± 0.5 %.",
        );
    }
    if reading.moisture.is_some() && !car.is_wrong_family {
        assume(
            "By the water alone fluid is renewed soon from 2 % and not driven from 4 %: our own lines, no rule of anybody. \
             3 % is common practice, no source.",
        );
    }
    if estimate.is_some() && reading.boiling.is_none() {
        assume(
            "Fluid estimated to boil below the least wet boiling point is renewed now, as one measured there; estimated \
             below 140 degC, the lowest of any class, it is not driven.",
        );
    }
    if reading.boiling.is_some() && !car.is_wrong_family {
        assume(
            "The lines for a measured boiling point are ours; the law has none for fluid in a car.",
        );
    }
    if let Some(estimate) = estimate {
        assume(
            "Water and fluid boil together as an ideal mixture with one factor for how tightly the fluid holds \
             water. The estimate is cautious: it lies below a fluid that just meets the class's minima, half-way to a \
             tenth looser than ideal. Low: least dry point, that tenth. High: a good fluid, 60 K above its class, its \
             factor a third of the class's, of DOT 3 nine tenths; a better one boils higher still. Only the minima are \
             known: nobody measured the fluid in this car.",
        );
        assume(
            "The wet minimum stands at 3.7 % of water. The law moistens a reference fluid to that and this one \
             beside it, so that its own share is another.",
        );
        if car.grade == Some(Fluid::Dot4LowViscosity) {
            assume("The limits of ISO 4925 class 6 are from memory.");
        }
        if estimate.is_extrapolated {
            assume("EXTRAPOLATED: so much water lies beyond that of the wet minimum.");
        }
    }
    if reading.is_of_the_label {
        assume(
            "The car was filled with the fluid of that label and nothing else; low leaves the label out.",
        );
    }
    if reading.age.is_some() && !is_without_water(car) {
        assume("Four years are overdue, whatever the interval.");
    }
    if let Some(bottle) = &reading.bottle {
        if bottle.grade.is_none() {
            assume("The bottle is of the grade that the car needs.");
        }
        if bottle.opened_for.is_some() && !is_without_water(car) {
            assume(
                "A bottle open for over a month is doubtful whatever it reads; after a year it is not used.",
            );
        }
        if bottle.moisture.is_some() {
            assume("New fluid that reads 1 % or more is not filled in: our own line.");
        }
    }
    assumptions
}

/// The cautions, the ones that govern all others first.
///
/// Source: [SAEJ1705](crate#sources) for the air in silicone fluid.
pub(super) fn cautions(
    car: &Car<'_>,
    verdict: Verdict,
    estimate: Option<&BoilingEstimate>,
) -> Vec<String> {
    let mut cautions: Vec<String> = Vec::new();
    let mut warn = |text: &str| cautions.push(text.to_owned());
    match verdict {
        Verdict::Unsafe if car.is_wrong_family => warn(
            "Do not drive: seals that meet the wrong fluid fail without warning, days later too. Nobody tops up or \
             bleeds before it is known what is in the car.",
        ),
        Verdict::Unsafe => warn(
            "Do not drive: fluid that boils leaves the pedal without pressure, without warning. Renew it, and find \
             out how it came to this.",
        ),
        Verdict::RenewNow => warn(
            "Until it is renewed: no descents, no towing, no loads. Hot brakes boil such fluid, and the pedal falls \
             through without warning.",
        ),
        _ => {}
    }
    warn(
        "The maker's manual and local rules govern where they differ. Done or checked by a competent, where \
         required licensed, person.",
    );
    if !is_without_water(car) {
        warn(
            "A tester's reading alone clears no fluid. No legal limit for moisture in service was found (US, UK). Fluid is \
             renewed at the maker's interval whatever it reads.",
        );
        warn(
            "The reservoir's fluid is not that of the brakes, which may hold more water: measure a sample from a \
             bleed screw too (common practice, no source).",
        );
    }
    if estimate.is_some() {
        warn(
            "An estimate is no measurement. For mountains, towing or heavy loads measure the boiling point.",
        );
    }
    warn(
        "Colour is no test of the condition; dirt, cloudiness or drops in it are a fault by themselves.",
    );
    if car.grade == Some(Fluid::Dot5) {
        warn(
            "Silicone fluid holds much dissolved air: pour slowly and let it stand. It mixes with no other fluid, DOT 5.1 included. \
             A sample without drops does not show that there are none at the brakes.",
        );
    }
    warn(
        "Fluid harms eyes, skin and paint: goggles, gloves, rinse at once. A sample is waste: it is not poured back.",
    );
    cautions
}

/// Whether the fluid is known to take up no water.
fn is_without_water(car: &Car<'_>) -> bool {
    car.grade
        .is_some_and(|grade| grade.family() != FluidFamily::Glycol)
}
