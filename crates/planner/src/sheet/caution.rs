//! What can hurt.

use super::Sheet;
use crate::plan::Caution;
use bleedwright_network::{Control, Fluid, FluidFamily, HoseMaterial, LineKind};
use uom::si::thermodynamic_temperature::degree_celsius;

/// A fluid below this is thick enough to draw air past seals when the pedal
/// is released fast.
///
/// ASSUMPTION: our own judgement; by ASTM D341 through the limit points of
/// DOT 4 a fluid is 2.8 times as thick at 0 degC as at 20 degC.
const COLD_DEGC: f64 = 5.0;

/// The cautions, the ones that govern all others first.
pub(crate) fn cautions(sheet: &Sheet<'_, '_>) -> Vec<Caution> {
    let layout = sheet.network().layout();
    let options = sheet.request.options;
    let has_brakes = sheet.has_brakes();
    let mut cautions = vec![Caution::ManualGoverns];
    if has_brakes {
        let by_coupler = sheet.controls() == [Control::Coupler];
        cautions.push(Caution::PressedOpen { by_coupler });
    }
    cautions.push(Caution::FluidHarms { has_brakes });
    let is_braided = |kind: &LineKind| {
        matches!(
            kind,
            LineKind::Hose {
                material: Some(HoseMaterial::Braided),
                ..
            }
        )
    };
    let has_braided = layout.lines.iter().any(|line| is_braided(&line.kind));
    cautions.push(Caution::NeverClamp { has_braided });
    for (owner, _) in sheet.pressure_stores() {
        cautions.push(Caution::StoresPressure(owner.to_owned()));
    }
    let fluid: Option<Fluid> = options.new_fluid.or(layout.fluid);
    if fluid.is_some_and(|fluid| fluid.family() == FluidFamily::Silicone) {
        cautions.push(Caution::Silicone);
    }
    if options.temperature.get::<degree_celsius>() < COLD_DEGC {
        cautions.push(Caution::Cold {
            temperature: options.temperature,
            method: sheet.method(),
        });
    }
    if !layout.balance_bars.is_empty() && sheet.circuits.len() == 1 {
        cautions.push(Caution::BarTilts);
    }
    cautions
}
