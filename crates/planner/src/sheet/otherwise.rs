//! What to do when something goes otherwise, where it can.

use super::Sheet;
use crate::options::{Method, Purpose};
use crate::plan::Otherwise;
use bleedwright_network::{Fluid, ParkingBrake};

pub(crate) fn otherwise(sheet: &Sheet<'_, '_>) -> Vec<Otherwise> {
    let is_open_to_the_foot = sheet.has_brakes();
    let network = sheet.network();
    let options = sheet.request.options;
    let fluid = options.new_fluid.or(network.layout().fluid);
    let compartments = sheet.compartments();
    let feeds_others = network.circuits().any(|(id, circuit)| {
        let is_shared = (circuit.compartment).is_some_and(|it| compartments.contains(&it));
        is_shared && !sheet.circuits.contains(&id)
    });
    let soft = Otherwise::StaysSoft {
        fed: sheet.fed(),
        has_unit: sheet.has_unit(),
        is_parked_by_motor: sheet.parking_brake() == Some(ParkingBrake::Electric),
    };
    let list = [
        (Otherwise::ScrewStuck, true),
        (Otherwise::NeverClear, true),
        (Otherwise::NothingComes, true),
        (
            Otherwise::RanDry { feeds_others },
            sheet.method() != Method::Reverse,
        ),
        (
            Otherwise::WrongFluid(fluid.map(Fluid::family)),
            sheet.purpose() != Purpose::Fill,
        ),
        (Otherwise::Sinks, is_open_to_the_foot),
        (soft, is_open_to_the_foot),
        (Otherwise::ClutchDrags, sheet.has_clutch()),
    ];
    list.into_iter()
        .filter_map(|(what, can_be)| can_be.then_some(what))
        .collect()
}
