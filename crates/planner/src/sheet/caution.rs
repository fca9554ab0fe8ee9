//! What can hurt.

use super::Sheet;
use crate::options::Method;
use bleedwright_network::{Control, Fluid, FluidFamily, HoseMaterial, LineKind};
use uom::si::thermodynamic_temperature::degree_celsius;

/// A fluid below this is thick enough to draw air past seals when the pedal
/// is released fast.
///
/// ASSUMPTION: our own judgement; by ASTM D341 through the limit points of
/// DOT 4 a fluid is 2.8 times as thick at 0 degC as at 20 degC.
const COLD_DEGC: f64 = 5.0;

/// The cautions, the ones that govern all others first.
pub(crate) fn cautions(sheet: &Sheet<'_, '_>) -> Vec<String> {
    let governs = "The maker's manual and local rules govern where they differ from this sheet. Done or \
                   checked by a competent, where required licensed, person.";
    let has_brakes = sheet.has_brakes();
    let mut cautions = vec![governs.to_owned()];
    if has_brakes {
        let firm = if sheet.controls() == [Control::Coupler] {
            "until it is firm"
        } else {
            "to a firm pedal"
        };
        cautions.push(format!(
            "Never press with a drum off, or with a caliper off whose pistons are not blocked. Pump {firm} before the vehicle moves."
        ));
    }
    cautions.push(format!(
        "Fluid harms eyes, skin and paint: goggles, gloves, rinse at once; bled fluid is never \
         used again. No dry brushing or blowing of {} dust.",
        if has_brakes { "brake" } else { "clutch" }
    ));
    let layout = sheet.network().layout();
    let has_braided = layout.lines.iter().any(|line| {
        matches!(
            line.kind,
            LineKind::Hose {
                material: Some(HoseMaterial::Braided),
                ..
            }
        )
    });
    cautions.push(if has_braided {
        "Never clamp a pipe or a braided hose; this vehicle has braided ones.".to_owned()
    } else {
        "Never clamp a pipe or a braided hose.".to_owned()
    });
    for (owner, _) in sheet.pressure_stores() {
        cautions.push(format!(
            "`{owner}` stores pressure: opening a screw on it while charged injures. Leave the \
             ignition off."
        ));
    }
    let fluid: Option<Fluid> = sheet.request.options.new_fluid.or(layout.fluid);
    if fluid.is_some_and(|fluid| fluid.family() == FluidFamily::Silicone) {
        cautions.push(
            "Silicone fluid holds much dissolved air: pour slowly and let it stand before \
             bleeding. It mixes with no other fluid, DOT 5.1 included."
                .to_owned(),
        );
    }
    let temperature = sheet.request.options.temperature.get::<degree_celsius>();
    if temperature < COLD_DEGC {
        let slowly = match sheet.method() {
            Method::Pedal => {
                "press and release slowly, and wait after each stroke until the pedal is all the \
                 way up; that takes longer than is said here"
            }
            _ => "give it the time it takes",
        };
        cautions.push(format!(
            "At {temperature:.0} °C the fluid is thick: {slowly}."
        ));
    }
    if sheet
        .network()
        .layout()
        .balance_bars
        .iter()
        .any(|_| sheet.circuits.len() == 1)
    {
        cautions.push(
            "One circuit alone tilts the balance bar: short strokes, and watch that it does not \
             jam."
                .to_owned(),
        );
    }
    cautions
}
