//! Everything that was assumed, each once, with what it was assumed of.

use super::Sheet;
use super::height::missing_heights;
use crate::drive::{stated_height, usual_cycle, viscosity_text};
use crate::options::{Method, Purpose, usual_stroke};
use crate::plan::{Assumption, Block};
use crate::spread::assumed_figures;
use bleedwright_mechanism::assumed;
use bleedwright_network::{Basis, CellId};
use std::collections::{BTreeMap, BTreeSet};
use uom::si::f64::Time;
use uom::si::ratio::percent;
use uom::si::time::second;
use uom::si::volume::milliliter;

/// Said of heights that the layout does not give.
const NONE_ABOVE: &str = "no brake above its reservoir (these heights decide)";

/// Of the lines that leave a cylinder it is a guess which half feeds which wheels.
const CONNECTED: &str = "where these lines are connected is a guess (`?`): follow them, and swap their ends if they are";

/// What renewal takes for granted.
const OF_RENEWAL: [&str; 3] = [
    "pipes flow laminar, cavities stir but for 15 % (0-30)",
    "diffusion 0.6e-10 m2/s (0.2-1), Stokes-Einstein",
    "10 % spilt",
];

/// The assumptions behind the figures of the runs in use, and the method's.
pub(crate) fn assumptions(sheet: &Sheet<'_, '_>) -> Vec<Assumption> {
    let network = sheet.network();
    let mut found: BTreeMap<&'static str, Vec<String>> = BTreeMap::new();
    let mut cells: BTreeSet<CellId> = BTreeSet::new();
    for screw in sheet.order {
        let mut here = Some(network.screw_place(*screw).cell);
        while let Some(cell) = here {
            if !cells.insert(cell) {
                break;
            }
            here = network.step_to(cell).map(|(parent, _)| parent);
        }
        if network.screw(*screw).at_top.is_none()
            && network.cavity(network.screw_place(*screw).cell).is_some()
        {
            found
                .entry("screws at the top of their cavity")
                .or_default()
                .push(network.screw(*screw).id.clone());
        }
    }
    for screw in sheet.order {
        let missing = missing_heights(network, *screw);
        if !missing.is_empty() {
            found.entry(NONE_ABOVE).or_default().extend(missing);
        }
    }
    assumed_figures(network, &cells, |why, of| {
        found.entry(why).or_default().push(of);
    });
    let guesses = &network.layout().guesses;
    for guess in guesses {
        let what = match guess.item() {
            Some(("lines", index)) => network.layout().lines[index].id.clone(),
            Some(("parts", index)) => network.layout().parts[index].id.clone(),
            Some(("cylinders", index)) => network.layout().cylinders[index].id.clone(),
            Some(("reservoirs", index)) => network.layout().reservoirs[index].id.clone(),
            _ => continue,
        };
        let (why, of) = match guess.field() {
            "from" | "to" => (CONNECTED, what),
            field => (
                "guesses of the layout (`?`), not measured",
                format!("{what} {}", field.replace('_', " ")),
            ),
        };
        found.entry(why).or_default().push(of);
    }
    if sheet.purpose() == Purpose::Renew {
        for circuit in &sheet.circuits {
            let Some((r, c)) = network.circuit(*circuit).compartment else {
                continue;
            };
            let compartment = &network.layout().reservoirs[r].compartments[c];
            if let Basis::Assumed(why) = compartment.left_when_drawn_off.basis {
                found.entry(why).or_default().push(compartment.id.clone());
            }
        }
    }
    of_method(sheet, &cells, &mut found);
    let mut assumptions = each_once(found);
    let mut method = methods_own(sheet);
    assumptions.extend(firm_pedal(sheet));
    method.extend(usual_tank(sheet));
    if sheet.method() != Method::Pedal {
        assumptions.push(general(viscosity_text(network, sheet.request.options)));
    }
    assumptions.extend(taken_up(sheet));
    assumptions.extend(method.into_iter().map(general));
    assumptions.extend(sheet.hold.map(stroke_time));
    assumptions
}

/// What a method rests on at parts of the way.
fn of_method(
    sheet: &Sheet<'_, '_>,
    cells: &BTreeSet<CellId>,
    found: &mut BTreeMap<&'static str, Vec<String>>,
) {
    let network = sheet.network();
    if sheet.method() != Method::Reverse {
        for (_, cell) in sheet.joints.all() {
            if cells.contains(&cell) && network.height_of(network.cell(cell).owner).is_none() {
                found
                    .entry("air stays at an opened joint of unknown height")
                    .or_default()
                    .push(network.cell_name(cell));
            }
        }
    }
    if sheet.method() != Method::Pedal {
        for screw in sheet.order {
            if let Basis::Assumed(why) = network.screw(*screw).bore.basis {
                found
                    .entry(why)
                    .or_default()
                    .push(network.screw(*screw).id.clone());
            }
            if stated_height(network, *screw).is_none() {
                found
                    .entry("reservoir 0.4 m (0.1-0.8) above the screw")
                    .or_default()
                    .push(network.screw(*screw).id.clone());
            }
        }
    }
}

/// What purpose and method rest on wherever they are used.
fn methods_own(sheet: &Sheet<'_, '_>) -> Vec<&'static str> {
    let mut method: Vec<&'static str> = match sheet.purpose() {
        Purpose::Renew => OF_RENEWAL.to_vec(),
        Purpose::Air | Purpose::Fill => vec![
            "one cavity of fluid after the last bubble",
            "10 % spilt",
            "air leaves ahead of the fluid",
        ],
    };
    method.extend(match sheet.method() {
        Method::Pedal if is_short(sheet) => &["3 clear strokes", SHORT_STROKES][..],
        Method::Pedal => &["3 clear strokes"],
        Method::Pressure | Method::Vacuum | Method::Gravity => &[
            "10 ml clear",
            "ports 1 mm (0.7-1.5)",
            "jar at the screw's height",
        ],
        Method::Reverse => &[
            "10 ml clear",
            "ports 1 mm (0.7-1.5)",
            "syringe 0.5 bar (0.2-1)",
        ],
    });
    method
}

/// Of a vehicle that stood for long, whose strokes nobody chose.
const SHORT_STROKES: &str =
    "strokes half as long as usual after long standing (common practice, no source)";

fn is_short(sheet: &Sheet<'_, '_>) -> bool {
    let options = sheet.request.options;
    options.is_laid_up && options.stroke == usual_stroke(true)
}

/// What one stroke takes, without what thick fluid asks for.
fn stroke_time(hold: Time) -> Assumption {
    let cycle = usual_cycle(hold).map(|time| time.get::<second>());
    general(format!(
        "{:.0} s a stroke ({:.0}-{:.0}), {:.0} s of it held",
        cycle.nominal,
        cycle.low,
        cycle.high,
        hold.get::<second>()
    ))
}

/// What shut circuits take up of a stroke, by the circuits that are bled, and what that rests on.
fn taken_up(sheet: &Sheet<'_, '_>) -> Vec<Assumption> {
    if sheet.hold.is_none() || sheet.taken_up.is_empty() {
        return Vec::new();
    }
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (circuit, taken) in &sheet.taken_up {
        let ml = taken.volume.map(|volume| volume.get::<milliliter>());
        let text = format!(
            "the shut circuit takes up {:.2} ml ({:.2}-{:.2}) of a stroke",
            ml.nominal, ml.low, ml.high
        );
        let name = sheet.network().circuit(*circuit).name.clone();
        found.entry(text).or_default().push(name);
    }
    let mut assumptions = each_once(found);
    let words = |[low, nominal, high]: [f64; 3]| format!("{nominal} ({low}-{high})");
    assumptions.push(general(format!(
            "master pistons move at {} N, floating ones at {} N; brakes without a clearance in the layout: discs {} mm closed \
             by {} bar, adjusted drums {} mm by {} bar; all of it back when the pedal comes up",
            words(assumed::DRAG_N),
            words(assumed::FLOATING_DRAG_N),
            words(assumed::DISC_CLEARANCE_MM),
            words(assumed::DISC_TOUCH_BAR),
            words(assumed::DRUM_CLEARANCE_MM),
            words(assumed::DRUM_TOUCH_BAR),
    )));
    assumptions
}

fn usual_tank(sheet: &Sheet<'_, '_>) -> Option<&'static str> {
    let is_usual = sheet.request.options.tank_pressure.is_none();
    (sheet.method() == Method::Pressure && is_usual)
        .then_some("tank 0.83-1.03 bar (12-15 psi, TB 9-2320-335-13&P)")
}

/// How strokes are counted where no travel of the block is known.
fn firm_pedal(sheet: &Sheet<'_, '_>) -> Option<Assumption> {
    let of: Vec<String> = (sheet.pedal_blocks.iter())
        .filter(|block| block.stops.iter().any(|stop| stop.0 == Block::FirmPedal))
        .map(|block| block.cylinders.join(" + "))
        .collect();
    let share = sheet.request.options.stroke.get::<percent>();
    (!of.is_empty()).then(|| Assumption {
        text: format!(
            "strokes counted as if the block let the piston go {share:.0} % of its stroke"
        ),
        of,
    })
}

/// What is assumed of the job and not of one thing.
fn general(text: impl Into<String>) -> Assumption {
    Assumption {
        text: text.into(),
        of: Vec::new(),
    }
}

/// What was found, with the names of each assumption sorted and each once.
fn each_once(found: BTreeMap<impl Into<String>, Vec<String>>) -> Vec<Assumption> {
    found
        .into_iter()
        .map(|(text, mut of)| {
            of.sort_unstable();
            of.dedup();
            Assumption {
                text: text.into(),
                of,
            }
        })
        .collect()
}
