//! How far old fluid diffuses across the bore while it passes a run: by run,
//! with the mean flow, pauses between strokes included.

use crate::corner::Corner;
use bleedwright_hydraulics::Diffusion;
use bleedwright_hydraulics::diffusion::{diffusivity, radial_time};
use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_network::{Bounds, ScrewId};
use std::collections::HashMap;
use uom::si::f64::{DiffusionCoefficient, Length, Ratio, ThermodynamicTemperature, VolumeRate};

/// `tau` of every run, see [`bleedwright_hydraulics::diffusion`].
#[derive(Debug, Default)]
pub(crate) struct Radial {
    of_runs: HashMap<ScrewId, Bounds<Ratio>>,
}

impl Radial {
    pub(crate) fn new(of_runs: impl Iterator<Item = (ScrewId, Bounds<Ratio>)>) -> Self {
        Self {
            of_runs: of_runs.collect(),
        }
    }

    /// What counts for a push: the middle, or the least or the most that can
    /// leave for any diffusivity of the range. More diffusion does not always
    /// ask for more.
    pub(super) fn of(&self, screw: ScrewId, corner: Corner) -> Diffusion {
        let Some(tau) = self.of_runs.get(&screw) else {
            return Diffusion::NONE;
        };
        match corner {
            Corner::Low => Diffusion::at_least(tau.low, tau.high),
            Corner::Nominal => Diffusion::of(tau.nominal),
            Corner::High => Diffusion::at_most(tau.low, tau.high),
        }
    }

    /// What counts for what stays: the more diffusion, the less. The upper
    /// bound is the figure without any.
    pub(super) fn of_what_stays(&self, screw: ScrewId, corner: Corner) -> Diffusion {
        let tau = self.of_runs.get(&screw);
        match (tau, corner) {
            (Some(tau), Corner::Low) => Diffusion::of(tau.high),
            (Some(tau), Corner::Nominal) => Diffusion::of(tau.nominal),
            (None, _) | (_, Corner::High) => Diffusion::NONE,
        }
    }
}

/// `tau` of one run, each corner at its worst.
pub(crate) fn radial_times(
    temperature: ThermodynamicTemperature,
    liquid: Bounds<Liquid>,
    length: Bounds<Length>,
    mean_flow: Bounds<VolumeRate>,
) -> Bounds<Ratio> {
    // Thin fluid diffuses fast.
    let coefficient = |liquid: Liquid| diffusivity(temperature, liquid.dynamic_viscosity());
    let fast: DiffusionCoefficient = coefficient(liquid.low).high;
    let slow = coefficient(liquid.high).low;
    Bounds {
        low: radial_time(slow, length.low, mean_flow.high),
        nominal: radial_time(
            coefficient(liquid.nominal).nominal,
            length.nominal,
            mean_flow.nominal,
        ),
        high: radial_time(fast, length.high, mean_flow.low),
    }
}
