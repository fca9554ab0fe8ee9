//! Everything that was assumed, each once, with what it was assumed of.

use super::Sheet;
use super::height::missing_heights;
use crate::amount::DEAD_SHARE;
use crate::drive::{
    CLEAR_ML, CLEAR_STROKES, PORT_MM, assumed_height, stated_height, syringe, usual_cycle,
    usual_tank, viscosity,
};
use crate::options::{Method, Purpose, usual_stroke};
use crate::plan::{Assumed, Assumption, Block};
use crate::shopping::SPILL_SHARE;
use crate::spread::assumed_figures;
use bleedwright_hydraulics::diffusion::DIFFUSIVITY_20_M2_PER_S;
use bleedwright_network::{Basis, Bounds, CellId, Network, ScrewId};
use std::collections::BTreeSet;
use uom::si::diffusion_coefficient::square_meter_per_second;
use uom::si::f64::{DiffusionCoefficient, Length, Ratio, Time, Volume};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

/// What was assumed of parts, lines and circuits.
#[derive(Default)]
struct Found(Vec<Assumption>);

impl Found {
    fn note(&mut self, what: Assumed, of: String) {
        match self.0.iter_mut().find(|found| found.what == what) {
            Some(found) => found.of.push(of),
            None => self.0.push(Assumption { what, of: vec![of] }),
        }
    }

    /// What was found, with the names of each assumption sorted and each once.
    fn each_once(mut self) -> Vec<Assumption> {
        for found in &mut self.0 {
            found.of.sort_unstable();
            found.of.dedup();
        }
        self.0
    }
}

/// The assumptions behind the figures of the runs in use, and the method's.
pub(crate) fn assumptions(sheet: &Sheet<'_, '_>) -> Vec<Assumption> {
    let network = sheet.network();
    let cells = cells_of_runs(network, sheet.order);
    let mut found = Found::default();
    for screw in sheet.order {
        if network.screw(*screw).at_top.is_none()
            && network.cavity(network.screw_place(*screw).cell).is_some()
        {
            found.note(Assumed::ScrewsAtTop, network.screw(*screw).id.clone());
        }
        for missing in missing_heights(network, *screw) {
            found.note(Assumed::NoneAbove, missing);
        }
    }
    assumed_figures(network, &cells, |usual, of| {
        found.note(Assumed::Usual(usual), of);
    });
    for guess in &network.layout().guesses {
        let what = match guess.item() {
            Some(("lines", index)) => network.layout().lines[index].id.clone(),
            Some(("parts", index)) => network.layout().parts[index].id.clone(),
            Some(("cylinders", index)) => network.layout().cylinders[index].id.clone(),
            Some(("reservoirs", index)) => network.layout().reservoirs[index].id.clone(),
            _ => continue,
        };
        match guess.field() {
            "from" | "to" => found.note(Assumed::Connected, what),
            field => {
                let field = field.replace('_', " ");
                found.note(Assumed::Guesses, format!("{what} {field}"));
            }
        }
    }
    if sheet.purpose() == Purpose::Renew {
        for circuit in &sheet.circuits {
            let Some((r, c)) = network.circuit(*circuit).compartment else {
                continue;
            };
            let compartment = &network.layout().reservoirs[r].compartments[c];
            if let Basis::Assumed(usual) = compartment.left_when_drawn_off.basis {
                found.note(Assumed::Usual(usual), compartment.id.clone());
            }
        }
    }
    of_method(sheet, &cells, &mut found);
    let mut assumptions = found.each_once();
    assumptions.extend(firm_pedal(sheet));
    if sheet.method() != Method::Pedal {
        assumptions.push(general(viscosity(network, sheet.request.options)));
    }
    assumptions.extend(taken_up(sheet));
    assumptions.extend(methods_own(sheet).into_iter().map(general));
    assumptions.extend(sheet.hold.map(stroke_time));
    assumptions
}

/// The cells that the runs of these screws pass.
fn cells_of_runs(network: &Network, screws: &[ScrewId]) -> BTreeSet<CellId> {
    let mut cells = BTreeSet::new();
    for screw in screws {
        let mut here = Some(network.screw_place(*screw).cell);
        while let Some(cell) = here.filter(|cell| cells.insert(*cell)) {
            here = network.step_to(cell).map(|(parent, _)| parent);
        }
    }
    cells
}

/// What a method rests on at parts of the way.
fn of_method(sheet: &Sheet<'_, '_>, cells: &BTreeSet<CellId>, found: &mut Found) {
    let network = sheet.network();
    if sheet.method() != Method::Reverse {
        for (_, cell) in sheet.joints.all() {
            if cells.contains(&cell) && network.height_of(network.cell(cell).owner).is_none() {
                found.note(Assumed::AirAtJoint, network.cell_name(cell));
            }
        }
    }
    if sheet.method() != Method::Pedal {
        for screw in sheet.order {
            let data = network.screw(*screw);
            if let Basis::Assumed(usual) = data.bore.basis {
                found.note(Assumed::Usual(usual), data.id.clone());
            }
            if stated_height(network, *screw).is_none() {
                found.note(Assumed::ReservoirHeight(assumed_height()), data.id.clone());
            }
        }
    }
}

/// What purpose and method rest on wherever they are used.
fn methods_own(sheet: &Sheet<'_, '_>) -> Vec<Assumed> {
    let spilt = Assumed::Spilt(Ratio::new::<ratio>(SPILL_SHARE));
    let mut method = match sheet.purpose() {
        Purpose::Renew => {
            let [low, nominal, high] =
                DIFFUSIVITY_20_M2_PER_S.map(DiffusionCoefficient::new::<square_meter_per_second>);
            vec![
                Assumed::Stirring(DEAD_SHARE.map(Ratio::new::<ratio>)),
                Assumed::Diffusion(Bounds { low, nominal, high }),
                spilt,
            ]
        }
        Purpose::Air | Purpose::Fill => vec![Assumed::CavityAfterAir, spilt, Assumed::AirAhead],
    };
    if sheet.method() == Method::Pedal {
        method.push(Assumed::ClearStrokes(CLEAR_STROKES));
        method.extend(short_strokes(sheet));
        return method;
    }
    method.push(Assumed::ClearVolume(Volume::new::<milliliter>(CLEAR_ML)));
    method.push(Assumed::Ports(PORT_MM.map(Length::new::<millimeter>)));
    method.push(if sheet.method() == Method::Reverse {
        Assumed::Syringe(syringe())
    } else {
        Assumed::JarAtScrew
    });
    if sheet.method() == Method::Pressure && sheet.request.options.tank_pressure.is_none() {
        method.push(Assumed::Tank(usual_tank()));
    }
    method
}

/// Of a vehicle that stood for long, whose strokes nobody chose.
fn short_strokes(sheet: &Sheet<'_, '_>) -> Option<Assumed> {
    let options = sheet.request.options;
    (options.is_laid_up && options.stroke == usual_stroke(true)).then_some(Assumed::ShortStrokes)
}

/// What one stroke takes, without what thick fluid asks for.
fn stroke_time(held: Time) -> Assumption {
    let stroke = usual_cycle(held);
    general(Assumed::Cycle { stroke, held })
}

/// What shut circuits take up of a stroke, by the circuits that are bled, and what that rests on.
fn taken_up(sheet: &Sheet<'_, '_>) -> Vec<Assumption> {
    if sheet.hold.is_none() || sheet.taken_up.is_empty() {
        return Vec::new();
    }
    let mut found = Found::default();
    for (circuit, taken) in &sheet.taken_up {
        let name = sheet.network().circuit(*circuit).name.clone();
        found.note(Assumed::TakenUp(taken.volume), name);
    }
    let mut assumptions = found.each_once();
    assumptions.push(general(Assumed::Takers));
    assumptions
}

/// How strokes are counted where no travel of the block is known.
fn firm_pedal(sheet: &Sheet<'_, '_>) -> Option<Assumption> {
    let of: Vec<String> = (sheet.pedal_blocks.iter())
        .filter(|block| block.stops.iter().any(|stop| stop.0 == Block::FirmPedal))
        .map(|block| block.cylinders.join(" + "))
        .collect();
    (!of.is_empty()).then_some(Assumption {
        what: Assumed::FirmPedal(sheet.request.options.stroke),
        of,
    })
}

/// What is assumed of the job and not of one thing.
fn general(what: Assumed) -> Assumption {
    Assumption {
        what,
        of: Vec::new(),
    }
}
