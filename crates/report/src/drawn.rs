//! The words of a drawing.

use crate::words::listed;
use bleedwright_drawing::{Told, printed_volume};
use bleedwright_network::{Wheel, Works};
use uom::si::volume::milliliter;

/// What a drawing says in words.
pub fn drawn_words(told: Told<'_>) -> String {
    let fixed = match told {
        Told::FromAbove => "Seen from above, front up; not to scale.",
        Told::FramedNumbers => "Framed numbers: lines of the table.",
        Told::Hoses => "Wavy or on a pale band: hose.",
        Told::Crossings => {
            "Lines meet at dots, rings (unions) and boxes only; elsewhere they cross."
        }
        Told::Direct => "In a case: screwed straight in.",
        Told::Steps => "Full circle: screw with its step.",
        Told::StaysShut => "Hollow circle: stays shut.",
        Told::Drillings => {
            "A line beside the disc is the drilling between two halves of a caliper."
        }
        Told::BalanceBar(cylinders) => {
            let cylinders = cylinders.join(" and ");
            return format!("One pedal, with a balance bar, for {cylinders}.");
        }
        Told::Guesses(1) => "? One value of the layout is a guess.",
        Told::Guesses(count) => return format!("? {count} values of the layout are guesses."),
        Told::ManualGoverns => "The maker's manual governs.",
        Told::Competent => {
            "Brakes are worked on or checked by a competent, where required licensed, person."
        }
        Told::Leaks => "Look for leaks afterwards.",
        Told::Circuit {
            purpose,
            wheels,
            holds,
        } => {
            let feeds = if purpose == Works::Clutch {
                "clutch".to_owned()
            } else {
                named(wheels, "no wheel brake")
            };
            return format!("{feeds}; holds {}", printed_volume(holds));
        }
        Told::ScrewsInOrder => "Screws in the order of the plan",
        Told::Full(name, full) => {
            let full_ml = full.get::<milliliter>();
            return format!("{name}: {full_ml:.0} ml at the maximum mark");
        }
        Told::Title(vehicle) => return format!("Brake pipework: {vehicle}"),
        Told::Split(split) => return format!("{}. ", split.text()),
        Told::Described {
            name,
            lines,
            screws,
            wheels,
        } => {
            let wheels = named(wheels, "no wheel");
            return format!("Circuit {name}: {lines} lines, {screws} screws, {wheels}. ");
        }
        Told::Listed => "All lines are listed below the drawing.",
    };
    fixed.to_owned()
}

fn named(wheels: &[Wheel], none: &str) -> String {
    if wheels.is_empty() {
        none.to_owned()
    } else {
        listed(wheels, ", ", |wheel| wheel.text())
    }
}
