//! The words of what is done at the reservoir before the first screw.

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

pub(super) fn drawn_off(compartments: &[DrawnOff]) -> Said {
    say!("Reservoir {}.", how_drawn_off(compartments))
}

pub(super) fn taken_as_drawn_off(compartments: &[DrawnOff], poured: Volume) -> Said {
    say!(
        "Taken as done: reservoir {}. If not, do it now: {} more to buy.",
        how_drawn_off(compartments),
        whole_ml(poured)
    )
}

/// One sentence for all compartments; their rinses are said apart only where they differ.
fn how_drawn_off(all: &[DrawnOff]) -> Said {
    let old = all
        .iter()
        .map(|it| it.old)
        .fold(Ratio::default(), Ratio::max);
    let rinse = |it: &DrawnOff| match it.rinses {
        0 => Said::default(),
        rinses => say!(
            "rinsed {} with {} each and drawn off",
            figure(format_args!("{rinses} x")),
            whole_ml(it.rinse)
        ),
    };
    let is_alike = all.iter().all(|it| rinse(it) == rinse(&all[0]));
    let is_equal = all
        .iter()
        .all(|it| whole_ml(it.left) == whole_ml(all[0].left));
    let each = if is_alike && is_equal {
        say!("each to about {}", whole_ml(all[0].left))
    } else {
        let each = all.iter().map(|it| {
            let own = Some(rinse(it)).filter(|own| !is_alike && !own.is_empty());
            say!(
                "{} to about {}{}",
                name(&it.compartment),
                whole_ml(it.left),
                own.map_or_else(Said::default, |own| say!(" {}", own))
            )
        });
        Said::joined(each, ", ")
    };
    let shared = Some(rinse(&all[0])).filter(|shared| is_alike && !shared.is_empty());
    say!(
        "drawn off to just above its ports, which stay covered, nothing pressed ({}), {}filled with new: at most {} old",
        each,
        shared.map_or_else(Said::default, |shared| say!("{}, ", shared)),
        figure(format_args!("{:.1} %", old.get::<ratio>() * 100.0))
    )
}

pub(super) fn new_fluid(
    fluid: Option<Fluid>,
    method: Method,
    take_offs: &[(String, Volume)],
) -> Said {
    let fluid = fluid.map_or("New fluid as the maker's manual says,".into(), |fluid| {
        say!("New {}", fluid.text())
    });
    let filled = match method {
        Method::Reverse => "",
        _ => "; filled to the maximum",
    };
    let level = match method {
        Method::Pedal | Method::Vacuum | Method::Gravity => lowest_text(take_offs),
        Method::Pressure | Method::Reverse => Said::default(),
    };
    say!(
        "{} from a sealed bottle within its date{}.{}",
        fluid,
        filled,
        level
    )
}

/// The level that top-ups are counted down to.
fn lowest_text(take_offs: &[(String, Volume)]) -> Said {
    if take_offs.is_empty() {
        return " Its level never below half (common practice) or the minimum mark, the higher."
            .into();
    }
    let take_offs =
        (take_offs.iter()).map(|(outlet, level)| say!("{} ({})", name(outlet), whole_ml(*level)));
    say!(
        " Its level never below the highest of half (common practice), the minimum mark, the take-off of {}.",
        Said::joined(take_offs, ", ")
    )
}

pub(super) fn gravity_first(controls: &[Control], through: &[String]) -> Said {
    let back = match pressed(controls) {
        pedal @ "pedal" => say!("{} right up", pedal),
        other => say!("{} right back", other),
    };
    say!(
        "Reservoir filled; by gravity first, {}, cap vented: each screw of {} open \
         until it drips, shut, topped up.",
        back,
        bare(&through.join(", "))
    )
}

/// A level that is set must leave room: it is rounded down.
pub(super) fn level_lowered(rooms: &[(String, Volume)]) -> Said {
    let rooms = rooms.iter().map(|(compartment, room)| {
        let room_ml = room.get::<milliliter>().floor();
        let room = figure(format_args!("{room_ml:.0} ml"));
        say!("{} {}", name(compartment), room)
    });
    say!(
        "Level set below the maximum mark: {}. The fluid comes up there; at every stop it is \
         drawn off to the same level.",
        Said::joined(rooms, ", ")
    )
}
