//! The words of what was assumed of a fluid, and of what can hurt or mislead.

use super::figure::{percent, span};
use crate::number::{fraction, spelt};
use crate::said::{Said, figure, say};
use crate::words::capitalised;
use bleedwright_inspection::fluid::{
    ABOVE_CLASS_K, FluidAssumption, FluidCaution, LOOSEST_FACTOR, NEW_PERCENT,
    OPENED_LONGEST_YEARS, OPENED_MONTH_YEARS, OVERDUE_YEARS, RENEW_NOW_PERCENT, RENEW_SOON_PERCENT,
    TIGHTEST_OF_CLASS, UNSAFE_PERCENT, WET_PERCENT,
};
use uom::si::thermodynamic_temperature::degree_celsius;

/// What was assumed.
pub(crate) fn assumption(assumption: FluidAssumption) -> Said {
    match assumption {
        FluidAssumption::GradeAsAsked => "The car holds the grade that it is made for.".into(),
        FluidAssumption::NotToppedUp => "It was not topped up with another grade.".into(),
        FluidAssumption::ExactReading => {
            "A reading without a tolerance is exact. The tester's sheet states one: 2.5 % ± 0.5 %.".into()
        }
        FluidAssumption::WaterLines => say!(
            "By the water alone fluid is renewed soon from {} and not driven from {}: our own lines, no rule of anybody. {} \
             is common practice, no source.",
            percent(RENEW_SOON_PERCENT),
            percent(UNSAFE_PERCENT),
            percent(RENEW_NOW_PERCENT)
        ),
        FluidAssumption::EstimateLines(lowest) => say!(
            "Fluid estimated to boil below the least wet boiling point is renewed now, as one measured there; estimated \
             below {}, the lowest of any class, it is not driven.",
            figure(format!("{:.0} degC", lowest.get::<degree_celsius>()))
        ),
        FluidAssumption::BoilingLines => {
            "The lines for a measured boiling point are ours; the law has none for fluid in a car.".into()
        }
        FluidAssumption::Curves => {
            let (of_dot_3, of_others) = TIGHTEST_OF_CLASS;
            let looser = fraction(LOOSEST_FACTOR - 1.0);
            say!(
                "Water and fluid boil together as an ideal mixture with one factor for how tightly the fluid holds water. \
                 The estimate is cautious: it lies below a fluid that just meets the class's minima, half-way to {} looser \
                 than ideal. Low: least dry point, that {}. High: a good fluid, {} above its class, its factor {} of the \
                 class's, of DOT 3 {}; a better one boils higher still. Only the minima are known: nobody measured the \
                 fluid in this car.",
                figure(&looser),
                figure(looser.trim_start_matches("a ")),
                figure(format!("{ABOVE_CLASS_K} K")),
                figure(fraction(of_others)),
                figure(fraction(of_dot_3))
            )
        }
        FluidAssumption::WetPoint => say!(
            "The wet minimum stands at {} of water. The law moistens a reference fluid to that and this one beside it, so \
             that its own share is another.",
            percent(WET_PERCENT)
        ),
        FluidAssumption::ClassFromMemory => {
            "The limits of ISO 4925 class 6 are from memory.".into()
        }
        FluidAssumption::Extrapolated => {
            "EXTRAPOLATED: so much water lies beyond that of the wet minimum.".into()
        }
        FluidAssumption::OfTheLabel => {
            "The car was filled with the fluid of that label and nothing else; low leaves the label out.".into()
        }
        FluidAssumption::Overdue => say!(
            "{} years are overdue, whatever the interval.",
            figure(capitalised(&spelt(OVERDUE_YEARS)))
        ),
        FluidAssumption::BottleGrade => "The bottle is of the grade that the car needs.".into(),
        FluidAssumption::OpenedFor => say!(
            "A bottle open for over {} is doubtful whatever it reads; after {} it is not used.",
            span(OPENED_MONTH_YEARS),
            span(OPENED_LONGEST_YEARS)
        ),
        FluidAssumption::NewWater => say!(
            "New fluid that reads {} or more is not filled in: our own line.",
            percent(NEW_PERCENT)
        ),
    }
}

/// What can hurt or mislead.
pub(crate) fn caution(caution: FluidCaution) -> &'static str {
    match caution {
        FluidCaution::WrongFluid => {
            "Do not drive: seals that meet the wrong fluid fail without warning, days later too. Nobody tops up or \
             bleeds before it is known what is in the car."
        }
        FluidCaution::MayBoil => {
            "Do not drive: fluid that boils leaves the pedal without pressure, without warning. Renew it, and find \
             out how it came to this."
        }
        FluidCaution::BoilsHot => {
            "Until it is renewed: no descents, no towing, no loads. Hot brakes boil such fluid, and the pedal falls \
             through without warning."
        }
        FluidCaution::ManualGoverns => {
            "The maker's manual and local rules govern where they differ. Done or checked by a competent, where \
             required licensed, person."
        }
        FluidCaution::TesterAlone => {
            "A tester's reading alone clears no fluid. No legal limit for moisture in service was found (US, UK). Fluid is \
             renewed at the maker's interval whatever it reads."
        }
        FluidCaution::ReservoirOnly => {
            "The reservoir's fluid is not that of the brakes, which may hold more water: measure a sample from a \
             bleed screw too (common practice, no source)."
        }
        FluidCaution::Estimate => {
            "An estimate is no measurement. For mountains, towing or heavy loads measure the boiling point."
        }
        FluidCaution::Colour => {
            "Colour is no test of the condition; dirt, cloudiness or drops in it are a fault by themselves."
        }
        FluidCaution::Silicone => {
            "Silicone fluid holds much dissolved air: pour slowly and let it stand. It mixes with no other fluid, DOT 5.1 included. \
             A sample without drops does not show that there are none at the brakes."
        }
        FluidCaution::Harms => {
            "Fluid harms eyes, skin and paint: goggles, gloves, rinse at once. A sample is waste: it is not poured back."
        }
    }
}
