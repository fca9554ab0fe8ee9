//! What is done at the screws, and what the method brings along.

use super::reservoir::room_text;
use super::{List, Sheet};
use crate::build::LEFT_IN_TANK_ML;
use crate::drive::tank;
use crate::options::{Method, Options};
use crate::plan::{Before, Change};
use bleedwright_network::CircuitId;
use uom::si::pressure::bar;
use uom::si::volume::milliliter;

/// How a screw is made ready.
pub(super) fn screws(sheet: &Sheet<'_, '_>, list: &mut List) {
    list.change(
        Change::CapsOff,
        match sheet.method() {
            Method::Pedal => {
                "Screws clean, caps off; clear hose from the screw into fluid, jar above the screw, its \
                 level below the reservoir's."
            }
            Method::Pressure => {
                "Screws clean, caps off; clear hose from the screw into fluid, jar below."
            }
            Method::Vacuum => {
                "Screws clean, caps off; brake-compatible grease on the thread alone, none on cone or \
                 bore, no tape: air drawn past a thread looks like air in the line."
            }
            Method::Gravity => {
                "Screws clean, caps off; clear hose from the screw into fluid, jar low, hose end \
                 under the surface."
            }
            Method::Reverse => {
                "Screws clean, caps off; clear hose from the syringe, full to its end."
            }
        },
    );
}

/// What the method brings along.
pub(super) fn equipment(sheet: &Sheet<'_, '_>, list: &mut List) {
    match sheet.method() {
        Method::Pedal => {
            let bars = |circuit: &CircuitId| sheet.network().bar_partner(*circuit);
            let is_paired = sheet
                .circuits
                .iter()
                .filter_map(bars)
                .any(|partner| sheet.circuits.contains(&partner));
            if is_paired {
                list.add(
                    "Three people, two hoses, two jars: screws of both circuits are open at once.",
                );
            }
        }
        Method::Pressure => {
            list.fact(Before::PortsOpen(sheet.controls()));
            list.change(
                Change::TankOn,
                format!(
                    "Tank with {:.0} ml of the new fluid on the reservoir, tight; {}, \
                     never above what the reservoir and the kit are made for; goggles on.",
                    sheet.pushed.get::<milliliter>() + LEFT_IN_TANK_ML,
                    tank_text(sheet.request.options)
                ),
            );
        }
        Method::Vacuum => {
            list.fact(Before::PortsOpen(sheet.controls()));
            list.add(format!(
                "Pump at the screw, jar upright; 0.6-0.7 bar below the air outside. Small bubbles \
                 that never end prove nothing: dissolved air, or air past the thread. Finish, and \
                 judge by the {}.",
                sheet.pressed_word()
            ));
            if sheet.has_drums() {
                list.add(
                    "A vacuum may draw air past the cups of wheel cylinders: another method is \
                     better for these.",
                );
            }
        }
        Method::Gravity => {
            list.fact(Before::PortsOpen(sheet.controls()));
            list.add("Reservoir cap loose. One screw open at a time: a second one draws air in.");
        }
        Method::Reverse => {
            list.fact(Before::PortsOpen(sheet.controls()));
            list.add(room_text(sheet));
            list.add(
                "Cap off, cloth round the reservoir, goggles on. When drawing back hold the \
                 syringe nozzle down.",
            );
            if sheet.has_unit() {
                list.add(
                    "Dirt from the brakes would be pushed into the anti-lock unit: first let a \
                     little fluid out of each screw, and ask the maker's manual whether reverse \
                     is allowed.",
                );
            }
        }
    }
}

/// The pressure in the tank, and whose figure it is.
fn tank_text(options: &Options) -> String {
    let pressure = tank(options).map(|pressure| pressure.get::<bar>());
    match options.tank_pressure {
        Some(_) => format!("{:.2} bar as given", pressure.nominal),
        None => format!("{:.2}-{:.2} bar (12-15 psi)", pressure.low, pressure.high),
    }
}
