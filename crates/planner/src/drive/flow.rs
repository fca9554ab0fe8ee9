//! The steady flow through one open screw.

mod head;
mod run;

pub(crate) use head::{assumed_height, stated_height, valve_at, weight};
pub(crate) use run::PORT_MM;
pub use run::{line_resistance, screw_loss};

use super::pressure::driving;
use crate::corner::{Corner, against};
use crate::options::{Method, Options};
use crate::plan::{Assumed, ViscosityFrom};
use bleedwright_hydraulics::fluid::{Liquid, State};
use bleedwright_hydraulics::{Evidence, HydraulicResistance, Known};
use bleedwright_mechanism::measured_state;
use bleedwright_network::{Bounds, Element, Network, ScrewId};
use run::run_flow;
use uom::si::f64::{Pressure, Time, Volume, VolumeRate};
use uom::si::time::second;

/// What flows through a screw while nothing but pressure and weight drives it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SteadyFlow {
    /// What drives it, heights and valves included; zero where that is not
    /// enough to open a valve or to lift the fluid.
    pub(crate) pressure: Bounds<Pressure>,
    pub(crate) flow: Bounds<VolumeRate>,
    /// The largest Reynolds number of a line on the run, at the largest flow.
    pub(crate) reynolds: f64,
}

impl SteadyFlow {
    /// How long a volume takes; infinite where nothing flows.
    pub(crate) fn time(&self, volume: Bounds<Volume>) -> Bounds<Time> {
        let time = |volume: Volume, flow: VolumeRate| {
            if flow > VolumeRate::default() {
                volume / flow
            } else {
                Time::new::<second>(f64::INFINITY)
            }
        };
        volume.zip(against(self.flow), time)
    }
}

/// Works out the flow through any screw of a layout.
#[derive(Debug)]
pub(crate) struct Flows<'n> {
    network: &'n Network,
    method: Method,
    driving: Bounds<Pressure>,
    /// The fluid at the least, the usual and the largest viscosity.
    liquid: Bounds<Liquid>,
}

impl<'n> Flows<'n> {
    pub(crate) fn new(network: &'n Network, options: &Options) -> Self {
        Self {
            network,
            method: options.method,
            driving: driving(options),
            liquid: liquid(network, options),
        }
    }

    /// The flow through a screw that is the only one open. Bounds are corners:
    /// the slow one has the thickest fluid in the longest and narrowest pipes
    /// under the least pressure.
    pub(crate) fn through(&self, screw: ScrewId) -> SteadyFlow {
        let pressure = self.pressure(screw);
        // Thin fluid runs fast.
        let liquid = against(self.liquid);
        let at = |corner: Corner| {
            let (liquid, pressure) = (corner.of(liquid), corner.of(pressure));
            run_flow(self.network, self.method, screw, corner, &liquid, pressure)
        };
        let fast = at(Corner::High);
        SteadyFlow {
            pressure,
            flow: Bounds {
                low: at(Corner::Low).flow,
                nominal: at(Corner::Nominal).flow,
                high: fast.flow,
            },
            reynolds: fast.reynolds,
        }
    }

    /// What the run and its open screw resist to a flow that has nearly stopped, with everything nominal; of a loop the
    /// shorter way alone.
    pub(crate) fn resistance(&self, screw: ScrewId) -> HydraulicResistance {
        let liquid = &self.liquid.nominal;
        let pipes: HydraulicResistance = (self.network.run(screw).into_iter())
            .filter_map(|element| match element {
                Element::Link(link) => Some(line_resistance(self.network, link, liquid)),
                Element::Cell(_) => None,
            })
            .sum();
        let loss = screw_loss(self.network, screw, liquid);
        pipes + HydraulicResistance::new(loss.linear_pa_s_per_m3)
    }

    /// What is left to drive the fluid, low where it is least.
    fn pressure(&self, screw: ScrewId) -> Bounds<Pressure> {
        let (network, method) = (self.network, self.method);
        let given = self.driving;
        // Below zero it draws at the far end: either way it drives.
        let given = match method {
            Method::Vacuum => against(given).map(|given| -given),
            _ => given,
        };
        let density = self.liquid.nominal.density();
        let head = head::head(network, method, screw, density);
        let valves = head::valves(network, method, screw);
        (given + head).zip(against(valves), |given, valves| {
            (given - valves).max(Pressure::default())
        })
    }
}

/// The fluid of a job at its temperature, at the least, the usual and the
/// largest viscosity of its grade.
///
/// At a temperature that nothing is planned for it is the fluid at the default
/// one, see [`crate::TEMPERATURES_DEGC`].
pub fn liquid(network: &Network, options: &Options) -> Bounds<Liquid> {
    let state = fluid_state(network, options);
    let liquid = |density, viscosity| {
        Liquid::new(density, viscosity, state.surface_tension.nominal)
            .expect("the figures of a grade are above zero")
    };
    let (density, viscosity) = (state.density, state.kinematic_viscosity);
    Bounds {
        low: liquid(density.low, viscosity.low),
        nominal: liquid(density.nominal, viscosity.nominal),
        high: liquid(density.high, viscosity.high),
    }
}

/// What is known about the fluid of a job at its temperature. At a temperature that nothing is planned for it is the state
/// at the default one, see [`crate::TEMPERATURES_DEGC`].
pub fn fluid_state(network: &Network, options: &Options) -> State {
    bleedwright_mechanism::fluid_state(network, options.new_fluid, options.usual_temperature())
}

/// The viscosity that times rest on, and how well it is known.
pub(crate) fn viscosity(network: &Network, options: &Options) -> Assumed {
    let state = fluid_state(network, options);
    let viscosity = state.kinematic_viscosity;
    let temperature = options.usual_temperature();
    let measured = measured_state(network, options.new_fluid, temperature);
    let is_measured = measured.is_some_and(|state| state.is_ok());
    let from = match (is_measured, viscosity.standing) {
        (true, _) if state.is_viscosity_extrapolated => ViscosityFrom::BeyondPoints,
        (true, _) => ViscosityFrom::Measured,
        (false, Evidence::Typical) => ViscosityFrom::Typical,
        (false, Evidence::Guess) => ViscosityFrom::Guess,
    };
    let Known {
        low, nominal, high, ..
    } = viscosity;
    Assumed::Viscosity(Bounds { low, nominal, high }, from)
}
