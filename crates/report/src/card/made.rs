//! The words of changes to the vehicle as they are made.

use super::filled::whole_ml;
use super::worked::{of_one, pressed, worked_text};
use crate::number::mm;
use crate::said::{Said, bare, figure, name, names, say};
use bleedwright_network::{Bounds, Control};
use bleedwright_planner::{Block, Made, Method, PedalBlock, Standing};
use uom::si::f64::Pressure;
use uom::si::pressure::{bar, psi};

/// What is done, and how it is left.
pub(super) fn made_text(made: &Made) -> Said {
    match made {
        Made::Stands(standing) => standing_text(*standing).into(),
        Made::BreakawayOff => say!("Breakaway cable off, hanging free."),
        Made::ReverseLockSet(cylinder) => say!(
            "Reverse lock-out of {}, where fitted, set so that the wheels brake when the \
             shaft goes in: shaft in, the wheels turned forwards hold.",
            name(cylinder)
        ),
        Made::PressureReleased { owner, routine } => {
            let routine = routine
                .as_deref()
                .map(|routine| say!(": {}", bare(routine)));
            say!(
                "{} stores pressure: make sure it was released by the maker's routine{}.",
                name(owner),
                routine.unwrap_or_default()
            )
        }
        Made::ServiceMode => say!("Electric parking brake in service mode, as the maker says."),
        Made::Tilted(part) => say!(
            "{}: when its turn comes unbolted, pistons blocked by a spacer as thick as \
             the disc, tilted until the screw is on top, held there by a hand or wire, never by its hose; spacer \
             out and bolted back at once after.",
            name(part)
        ),
        Made::LeverTied(valve) => say!("Lever of {} tied toward laden.", name(valve)),
        Made::MeteringHeld { valve, by } => {
            let by = by.as_deref().map_or("its stem or button".into(), bare);
            say!("Metering valve {} held open ({}).", name(valve), by)
        }
        Made::Clamp(line) => say!(
            "Clamp on {} (smooth round jaws only) off before anybody presses the pedal.",
            name(line)
        ),
        Made::Plug(at) => say!(
            "Clean plug out of the open end at {}, joint made up, before anybody presses the pedal.",
            name(at)
        ),
        Made::Propped(worked) => say!(
            "{} propped just past the cut-off and its pressure let out at a screw \
             before the joint is opened; prop away, {} right up, before the first screw.",
            worked_text(worked),
            pressed(&[worked.control])
        )
        .capitalised(),
        Made::PedalBlock(block) => pedal_block(block),
        Made::CapsOff(method) => say!("Screws clean, caps off; {}", screws_text(*method)),
        Made::TankOn {
            fluid,
            pressure,
            is_given,
        } => say!(
            "Tank with {} of the new fluid on the reservoir, tight; {}, \
             never above what the reservoir and the kit are made for; goggles on.",
            whole_ml(*fluid),
            tank_text(*pressure, *is_given)
        ),
        Made::UnionsLoosened(unions) => say!(
            "May come first, air gathers there: {}. Slow held stroke, light foot: union open \
             a quarter turn, two spanners, cloth, goggles; nipped up before the pedal rises. Not \
             on a rusted pipe, never with stored pressure or a pump that can wake (TM \
             10-3930-633-12).",
            names(unions)
        ),
        Made::BanjoFirst(cylinder) => say!(
            "First of all the banjo at {}, which has no screw, cracked like one: cloth \
             around, goggles, lever held lightly, nipped up before it is let go.",
            name(cylinder)
        ),
    }
}

fn standing_text(standing: Standing) -> &'static str {
    match standing {
        Standing::CarOnStands => {
            "Ignition off; wheels chocked; lifted level on stands, never a jack alone."
        }
        Standing::TrailerOnStands => {
            "Not coupled to any vehicle; load off, or lashed and balanced; drawbar and tail propped against tipping; wheels chocked; \
             lifted level on stands, never a jack or jockey wheel alone; rocked by hand before anybody \
             kneels."
        }
        Standing::MotorcycleOnStand => {
            "Ignition off; machine upright on a firm stand, so that it cannot fall."
        }
        Standing::WheelsOn => {
            "Ignition off; neutral, parking brake on, chocked; stands where somebody lies under it, \
             never a jack alone."
        }
    }
}

/// How a screw is made ready.
fn screws_text(method: Method) -> &'static str {
    match method {
        Method::Pedal => {
            "clear hose from the screw into fluid, jar above the screw, its level below the reservoir's."
        }
        Method::Pressure => "clear hose from the screw into fluid, jar below.",
        Method::Vacuum => {
            "brake-compatible grease on the thread alone, none on cone or bore, no tape: air drawn \
             past a thread looks like air in the line."
        }
        Method::Gravity => {
            "clear hose from the screw into fluid, jar low, hose end under the surface."
        }
        Method::Reverse => "clear hose from the syringe, full to its end.",
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
fn pedal_block(block: &PedalBlock) -> Said {
    let what = match (block.control, block.is_clutch) {
        (Control::Pedal, false) => "Pedal block",
        (Control::Pedal, true) => "Clutch pedal block",
        (Control::HandLever, _) => "Lever stop",
        (Control::Coupler, _) => "Shaft stop",
    };
    let mut travels = Vec::new();
    for (stop, steps) in &block.stops {
        let Block::At(travel) = stop else {
            return say!(
                "{} {} where {} was firm before work (pressed as in a stop): ____ mm, never \
                 beyond. Not firm: the maker's stroke. Never find the bottom with the {}: cups \
                 sweep rust.",
                what,
                if block.moves_two {
                    "at half of the travel (two pistons made it, one would reach its end)"
                } else {
                    "at the travel"
                },
                of_one(&block.cylinders),
                match block.control {
                    Control::Pedal => "foot",
                    Control::HandLever => "hand",
                    Control::Coupler => "bar",
                }
            );
        };
        let steps = steps.iter().map(|screws| bare(&screws.join(" + ")));
        let where_it_holds = if block.stops.len() == 1 {
            say!("of travel")
        } else {
            say!("for {}", Said::joined(steps, ", "))
        };
        travels.push(say!("after {} {}", figure(mm(*travel)), where_it_holds));
    }
    say!(
        "{} {}: {} must not bottom.",
        what,
        Said::joined(travels, "; "),
        of_one(&block.cylinders)
    )
}
