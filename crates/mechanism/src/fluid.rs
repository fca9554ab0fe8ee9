//! What is known about the fluid in the pipework.

use bleedwright_hydraulics::fluid::{Grade, Properties, State, ViscosityPoint};
use bleedwright_hydraulics::{Evidence, Known, OutOfRange};
use bleedwright_network::{Fluid, Network};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The temperature of fluid that nobody says anything of.
///
/// ASSUMPTION: 20 degrees Celsius.
pub fn usual_temperature() -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(20.0)
}

/// The fluid at a temperature: by the points measured where they are that fluid's and can be followed so far, else by its
/// grade. `poured` is what is filled in, where it is not the layout's.
///
/// Panics at a temperature for which a grade has no figures.
pub fn fluid_state(
    network: &Network,
    poured: Option<Fluid>,
    temperature: ThermodynamicTemperature,
) -> State {
    measured_state(network, poured, temperature)
        .and_then(Result::ok)
        .unwrap_or_else(|| {
            let fluid = poured.or(network.layout().fluid);
            Properties::of(grade(fluid))
                .and_then(|properties| properties.at(temperature))
                .expect("every grade has figures at the temperatures that are planned for")
        })
}

/// The same by measured points alone; none where the layout has none, or has
/// them for another fluid than is poured.
pub fn measured_state(
    network: &Network,
    poured: Option<Fluid>,
    temperature: ThermodynamicTemperature,
) -> Option<Result<State, OutOfRange>> {
    let layout = network.layout();
    if poured.is_some() && poured != layout.fluid {
        return None;
    }
    let points = layout.viscosity?.map(|point| ViscosityPoint {
        temperature: point.temperature,
        viscosity: Known {
            low: point.viscosity.low,
            nominal: point.viscosity.nominal,
            high: point.viscosity.high,
            standing: Evidence::Typical,
        },
    });
    let state = Properties::of(grade(layout.fluid))
        .and_then(|properties| properties.with_viscosity(points))
        .and_then(|properties| properties.at(temperature));
    Some(state)
}

/// ASSUMPTION: a layout that does not name its fluid has a DOT 4; the sheet
/// says "fluid not stated".
fn grade(fluid: Option<Fluid>) -> Grade {
    match fluid {
        Some(Fluid::Dot3) => Grade::Dot3,
        Some(Fluid::Dot4) | None => Grade::Dot4,
        Some(Fluid::Dot4LowViscosity) => Grade::Dot4LowViscosity,
        Some(Fluid::Dot5) => Grade::Dot5,
        Some(Fluid::Dot51) => Grade::Dot5_1,
        Some(Fluid::Mineral) => Grade::Mineral,
    }
}
