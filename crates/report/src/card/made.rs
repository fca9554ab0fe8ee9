//! The words of changes to the vehicle as they are made.

use super::filled::whole_ml;
use super::instruction::{Instruction, line};
use super::worked::{of_one, pressed, worked_text};
use crate::number::mm;
use crate::said::{Said, bare, figure, name, names, say};
use bleedwright_network::{Bounds, Control};
use bleedwright_planner::{Block, Made, Method, PedalBlock, Standing};
use uom::si::f64::Pressure;
use uom::si::pressure::{bar, psi};

/// What is done, and how it is left.
pub(super) fn made_text(made: &Made) -> Instruction {
    match made {
        Made::Stands(standing) => standing_text(*standing),
        Made::BreakawayOff => line!("Breakaway cable off, hanging free"),
        Made::ReverseLockSet(cylinder) => line!(
            say!("Reverse lock-out of {} set so that the wheels brake", name(cylinder));
            "Where fitted: with the shaft in, the wheels turned forwards hold."
        ),
        Made::PressureReleased { owner, routine } => {
            let routine = routine
                .as_deref()
                .map(|routine| say!(": {}", bare(routine)));
            line!(say!(
                "{} stores pressure: released by the maker's routine{}",
                name(owner),
                routine.unwrap_or_default()
            ))
        }
        Made::ServiceMode => line!("Electric parking brake in service mode, as the maker says"),
        Made::Tilted(part) => line!(
            say!("{}: in its turn unbolted, spacer in, tilted until the screw is on top", name(part));
            "The spacer as thick as the disc blocks the pistons; held there by a hand or wire, never by its hose; spacer \
             out and bolted back at once after."
        ),
        Made::LeverTied(valve) => line!(say!("Lever of {} tied toward laden", name(valve))),
        Made::MeteringHeld { valve, by } => {
            let by = by.as_deref().map_or("its stem or button".into(), bare);
            line!(say!("Metering valve {} held open ({})", name(valve), by))
        }
        Made::Clamp(line) => line!(say!(
            "Clamp on {} (smooth round jaws only) off before anybody presses the pedal",
            name(line)
        )),
        Made::Plug(at) => line!(say!(
            "Plug out of the open end at {}, joint made up, before anybody presses",
            name(at)
        )),
        Made::Propped(worked) => line!(
            say!(
                "{} propped just past the cut-off while a joint is open; prop away before screw 1",
                worked_text(worked)
            )
            .capitalised();
            say!(
                "Its pressure is let out at a screw before the joint is opened; then {} right up.",
                pressed(&[worked.control])
            )
        ),
        Made::PedalBlock(block) => pedal_block(block),
        Made::CapsOff(method) => screws_text(*method),
        Made::TankOn {
            fluid,
            pressure,
            is_given,
        } => line!(
            say!(
                "Tank with {} of the new fluid on the reservoir, tight; {}; goggles on",
                whole_ml(*fluid),
                tank_text(*pressure, *is_given)
            );
            "Never above what the reservoir and the kit are made for."
        ),
        Made::UnionsLoosened(unions) => line!(
            say!("Air gathers at {}: union a quarter turn, nipped up before the pedal rises", names(unions));
            "May come first. Slow held stroke, light foot, two spanners, cloth, goggles. Not on a \
             rusted pipe, never with stored pressure or a pump that can wake (TM 10-3930-633-12)."
        ),
        Made::BanjoFirst(cylinder) => line!(
            say!("First of all the banjo at {}, cracked like a screw", name(cylinder));
            "It has no screw: cloth around, goggles, lever held lightly, nipped up before it is let go."
        ),
    }
}

fn standing_text(standing: Standing) -> Instruction {
    match standing {
        Standing::CarOnStands => line!("Ignition off; chocks; level on stands, never a jack alone"),
        Standing::TrailerOnStands => line!(
            "Uncoupled; load off; drawbar, tail propped; chocks; on stands, never a jack alone";
            "Load off, or lashed and balanced; lifted level, not on the jockey wheel; rocked by hand before anybody kneels."
        ),
        Standing::MotorcycleOnStand => {
            line!("Ignition off; machine upright on a firm stand, so that it cannot fall")
        }
        Standing::WheelsOn => line!(
            "Ignition off; neutral, parking brake on, chocks; stands, never a jack alone";
            "Stands where somebody lies under it."
        ),
    }
}

/// How a screw is made ready.
fn screws_text(method: Method) -> Instruction {
    match method {
        Method::Pedal => line!(
            "Hose on, its end in fluid in the jar: ZERO marked there; jar above the screw";
            "Caps off, a clear hose; the jar's level below the reservoir's."
        ),
        Method::Pressure => {
            line!("Hose on, its end in fluid in the jar: ZERO marked there; jar below")
        }
        Method::Vacuum => line!(
            "Grease on the thread alone, not the cone; hose on; ZERO marked on the jar";
            "Brake-compatible grease, none in the bore, no tape: air drawn past a thread looks like air in the line."
        ),
        Method::Gravity => {
            line!("Hose on, its end under fluid in a low jar: ZERO marked there")
        }
        Method::Reverse => {
            line!("Screws clean, caps off; clear hose from the syringe, full to its end")
        }
    }
}

/// The pressure in the tank, and whose figure it is.
fn tank_text(pressure: Bounds<Pressure>, is_given: bool) -> Said {
    if is_given {
        let given = pressure.nominal.get::<bar>();
        return say!("{} as given", figure(format_args!("{given:.2} bar")));
    }
    let [low, high] = [pressure.low, pressure.high];
    say!(
        "{} ({})",
        figure(format_args!(
            "{:.2}-{:.2} bar",
            low.get::<bar>(),
            high.get::<bar>()
        )),
        figure(format_args!(
            "{:.0}-{:.0} psi",
            low.get::<psi>(),
            high.get::<psi>()
        ))
    )
}

/// Where the block stands. With two of them each names its steps.
fn pedal_block(block: &PedalBlock) -> Instruction {
    let what = match (block.control, block.is_clutch) {
        (Control::Pedal, false) => "Pedal block",
        (Control::Pedal, true) => "Clutch pedal block",
        (Control::HandLever, _) => "Lever stop",
        (Control::Coupler, _) => "Shaft stop",
    };
    let cylinders = of_one(&block.cylinders);
    let mut travels = Vec::new();
    for (stop, steps) in &block.stops {
        let Block::At(travel) = stop else {
            return firm_block(what, block);
        };
        let steps = steps.iter().map(|screws| bare(&screws.join(" + ")));
        let where_it_holds = if block.stops.len() == 1 {
            say!("of travel")
        } else {
            say!("for {}", Said::joined(steps, ", "))
        };
        travels.push(say!("after {} {}", figure(mm(*travel)), where_it_holds));
    }
    let travels = Said::joined(travels, "; ");
    line!(say!("{} {}", what, travels); say!("{} must not bottom.", cylinders))
}

/// Too little is known for a travel.
fn firm_block(what: &'static str, block: &PedalBlock) -> Instruction {
    let at = if block.moves_two {
        "at half the travel"
    } else {
        "at the travel"
    };
    let why = if block.moves_two {
        "Two pistons made that travel, one would reach its end. "
    } else {
        ""
    };
    let bottom = match block.control {
        Control::Pedal => "foot",
        Control::HandLever => "hand",
        Control::Coupler => "bar",
    };
    line!(
        say!(
            "{} {} where {} was firm before work: ____ mm, never beyond",
            what,
            at,
            of_one(&block.cylinders)
        );
        say!(
            "{}Pressed as in a stop. Not firm: the maker's stroke. Never find the bottom with the {}: cups sweep rust.",
            why,
            bottom
        )
    )
}
