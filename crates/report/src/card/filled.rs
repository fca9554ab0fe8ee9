//! The words of what is done at the reservoir before the first screw.

use super::instruction::{Instruction, line};
use super::worked::pressed;
use crate::number::ml_mark;
use crate::said::{Said, bare, figure, name, say};
use bleedwright_network::{Control, Fluid};
use bleedwright_planner::{DrawnOff, Method};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// Whole millilitres, with their unit.
pub(super) fn whole_ml(volume: Volume) -> Said {
    figure(format_args!("{} ml", ml_mark(volume)))
}

pub(super) fn drawn_off(compartments: &[DrawnOff]) -> Instruction {
    line!(
        say!(
            "Reservoir drawn down to just above its ports{}",
            rinsed(compartments)
        );
        left(compartments)
    )
}

pub(super) fn taken_as_drawn_off(compartments: &[DrawnOff], poured: Volume) -> Instruction {
    line!(
        say!(
            "Taken as done: reservoir drawn down{}. If not: now, {} more to buy",
            rinsed(compartments),
            whole_ml(poured)
        );
        left(compartments)
    )
}

/// How often it is rinsed, and with how much; compartments apart only where they differ.
fn rinsed(all: &[DrawnOff]) -> Said {
    let rinse = |it: &DrawnOff| match it.rinses {
        0 => say!("not rinsed"),
        rinses => say!("rinsed {} x {} of new", figure(rinses), whole_ml(it.rinse)),
    };
    if all.iter().all(|it| it.rinses == 0) {
        return Said::default();
    }
    if all.iter().all(|it| rinse(it) == rinse(&all[0])) {
        return say!(", {}", rinse(&all[0]));
    }
    let each = all
        .iter()
        .map(|it| say!("{} {}", name(&it.compartment), rinse(it)));
    say!(", {}", Said::joined(each, ", "))
}

/// What stays in each compartment, and what that makes of the filling.
fn left(all: &[DrawnOff]) -> Said {
    let old = all
        .iter()
        .map(|it| it.old)
        .fold(Ratio::default(), Ratio::max);
    let each = all
        .iter()
        .map(|it| say!("{} about {}", name(&it.compartment), whole_ml(it.left)));
    say!(
        "A syringe leaves {}: the ports stay covered, nothing is pressed, each rinse is drawn off; filled, at most {} is \
         old.",
        Said::joined(each, ", "),
        figure(format_args!("{:.1} %", old.get::<ratio>() * 100.0))
    )
}

pub(super) fn new_fluid(fluid: Option<Fluid>, method: Method) -> Instruction {
    let does = match method {
        Method::Reverse => "New fluid from a sealed bottle within its date",
        _ => "Filled to the max mark: new fluid from a sealed bottle within its date",
    };
    match fluid {
        Some(fluid) => line!(does; say!("It is {}.", fluid.text())),
        None => line!(does; "Of the grade that the maker's manual names."),
    }
}

/// The level that top-ups are counted down to.
pub(super) fn lowest_text(take_offs: &[(String, Volume)]) -> Said {
    if take_offs.is_empty() {
        return say!("LEVEL never below half nor below the min mark.");
    }
    let take_offs =
        (take_offs.iter()).map(|(outlet, level)| say!("{} ({})", name(outlet), whole_ml(*level)));
    say!(
        "LEVEL never below half, the min mark or the clutch's outlet of {}, the highest.",
        Said::joined(take_offs, ", ")
    )
}

pub(super) fn gravity_first(controls: &[Control], through: &[String]) -> Instruction {
    let back = match pressed(controls) {
        pedal @ "pedal" => say!("{} right up", pedal),
        other => say!("{} right back", other),
    };
    line!(say!(
        "Filled, then by gravity first, {}, cap vented: each screw of {} open until it drips, shut, topped up",
        back,
        bare(&through.join(", "))
    ))
}

/// A level that is set must leave room: it is rounded down.
pub(super) fn level_lowered(rooms: &[(String, Volume)]) -> Instruction {
    let rooms = rooms.iter().map(|(compartment, room)| {
        let room_ml = room.get::<milliliter>().floor();
        let room = figure(format_args!("{room_ml:.0} ml"));
        say!("{} {}", name(compartment), room)
    });
    line!(
        say!("Level set below the max mark: {}", Said::joined(rooms, ", "));
        "The fluid comes up there; at every stop it is drawn off to the same level."
    )
}
