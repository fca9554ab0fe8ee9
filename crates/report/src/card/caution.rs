//! The words of what can hurt.

use crate::said::{Said, figure, name, say};
use bleedwright_planner::{Caution, Method};
use uom::si::thermodynamic_temperature::degree_celsius;

/// What can hurt, and what prevents it.
pub(crate) fn caution_text(caution: &Caution) -> Said {
    let fixed = match caution {
        Caution::ManualGoverns => {
            "The maker's manual and local rules govern where they differ from this sheet. Done or \
             checked by a competent, where required licensed, person."
        }
        Caution::PressedOpen { by_coupler } => {
            let firm = if *by_coupler {
                "until it is firm"
            } else {
                "to a firm pedal"
            };
            return say!(
                "Never press with a drum off, or with a caliper off whose pistons are not blocked. Pump {} before \
                 the vehicle moves.",
                firm
            );
        }
        Caution::FluidHarms { has_brakes } => {
            return say!(
                "Fluid harms eyes, skin and paint: goggles, gloves, rinse at once; bled fluid is never \
                 used again. No dry brushing or blowing of {} dust.",
                if *has_brakes { "brake" } else { "clutch" }
            );
        }
        Caution::NeverClamp { has_braided: true } => {
            "Never clamp a pipe or a braided hose; this vehicle has braided ones."
        }
        Caution::NeverClamp { has_braided: false } => "Never clamp a pipe or a braided hose.",
        Caution::StoresPressure(owner) => {
            return say!(
                "{} stores pressure: opening a screw on it while charged injures. Leave the \
                 ignition off.",
                name(owner)
            );
        }
        Caution::Silicone => {
            "Silicone fluid holds much dissolved air: pour slowly and let it stand before \
             bleeding. It mixes with no other fluid, DOT 5.1 included."
        }
        Caution::Cold {
            temperature,
            method,
        } => {
            let slowly = match method {
                Method::Pedal => {
                    "press and release slowly, and wait after each stroke until the pedal is all the \
                     way up; that takes longer than is said here"
                }
                _ => "give it the time it takes",
            };
            let degrees = temperature.get::<degree_celsius>();
            return say!(
                "At {} °C the fluid is thick: {}.",
                figure(format_args!("{degrees:.0}")),
                slowly
            );
        }
        Caution::BarTilts => {
            "One circuit alone tilts the balance bar: short strokes, and watch that it does not \
             jam."
        }
    };
    fixed.into()
}
