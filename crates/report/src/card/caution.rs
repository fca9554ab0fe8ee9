//! The words of what can hurt.

use super::instruction::{Instruction, line};
use crate::said::{figure, name, say};
use bleedwright_planner::{Caution, Method};
use uom::si::thermodynamic_temperature::degree_celsius;

/// What can hurt, and what prevents it.
pub(crate) fn caution_text(caution: &Caution) -> Instruction {
    match caution {
        Caution::ManualGoverns => line!(
            "The maker's manual and local rules govern. Done or checked by a competent, where required licensed, person";
            "They govern wherever they differ from this sheet."
        ),
        Caution::PressedOpen { by_coupler } => line!(
            "Never press with a drum off, or a caliper off with its pistons free";
            if *by_coupler {
                "Pump until it is firm before the vehicle moves."
            } else {
                "Pump to a firm pedal before the vehicle moves."
            }
        ),
        Caution::FluidHarms { has_brakes } => line!(
            say!(
                "Fluid harms eyes, skin, paint: wash off; never reused. No dry brushing of {} dust",
                if *has_brakes { "brake" } else { "clutch" }
            );
            "Goggles, gloves; rinsed at once. Bled fluid is never used again. No blowing either."
        ),
        Caution::NeverClamp { has_braided } => line!(
            "Never clamp a pipe or a braided hose";
            if *has_braided { "This vehicle has braided ones." } else { "" }
        ),
        Caution::StoresPressure(owner) => line!(
            say!("{} stores pressure: a screw opened on it while charged injures", name(owner));
            "Leave the ignition off."
        ),
        Caution::Silicone => line!(
            "Silicone fluid: pour slowly, let it stand; it mixes with no other, DOT 5.1 included";
            "It holds much dissolved air."
        ),
        Caution::Cold {
            temperature,
            method,
        } => {
            let degrees = temperature.get::<degree_celsius>();
            let degrees = figure(format_args!("{degrees:.0} °C"));
            match method {
                Method::Pedal => line!(
                    say!("At {} the fluid is thick: slowly, and wait until the pedal is right up", degrees);
                    "Press and release slowly, after each stroke; that takes longer than is said here."
                ),
                _ => line!(say!(
                    "At {} the fluid is thick: give it the time it takes",
                    degrees
                )),
            }
        }
        Caution::BarTilts => {
            line!("One circuit alone tilts the balance bar: short strokes, stop if it jams")
        }
    }
}
