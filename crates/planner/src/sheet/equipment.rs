//! What is done at the screws, and what the method brings along.

use super::Sheet;
use super::reservoir::lowered;
use crate::build::LEFT_IN_TANK_ML;
use crate::drive::{pump, tank};
use crate::options::Method;
use crate::plan::{Before, Made};
use bleedwright_network::CircuitId;
use uom::si::f64::Volume;
use uom::si::volume::milliliter;

/// What the method brings along.
pub(super) fn equipment(sheet: &Sheet<'_, '_>, list: &mut Vec<Before>) {
    let method = sheet.method();
    if method != Method::Pedal {
        list.push(Before::PortsOpen(sheet.controls()));
    }
    match method {
        Method::Pedal => {
            let bars = |circuit: &CircuitId| sheet.network().bar_partner(*circuit);
            let is_paired = sheet
                .circuits
                .iter()
                .filter_map(bars)
                .any(|partner| sheet.circuits.contains(&partner));
            list.extend(is_paired.then_some(Before::OpenInPairs));
        }
        Method::Pressure => {
            let options = sheet.request.options;
            list.push(Before::Made(Made::TankOn {
                fluid: sheet.pushed + Volume::new::<milliliter>(LEFT_IN_TANK_ML),
                pressure: tank(options),
                is_given: options.tank_pressure.is_some(),
            }));
        }
        Method::Vacuum => {
            list.push(Before::VacuumPump {
                below: pump(),
                controls: sheet.controls(),
            });
            list.extend(sheet.has_drums().then_some(Before::CupsMayLeak));
        }
        Method::Gravity => list.push(Before::CapLoose),
        Method::Reverse => {
            list.push(Before::LevelLowered(lowered(sheet)));
            list.push(Before::CapOff);
            list.extend(sheet.has_unit().then_some(Before::DirtIntoUnit));
        }
    }
}
