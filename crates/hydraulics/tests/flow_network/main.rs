//! The flow solver against closed forms, and what must hold for every network.

mod closed_forms;
mod edges;
mod properties;

use bleedwright_hydraulics::{BranchId, BranchLaw, FlowError, FlowNetwork, Flows, NodeId};
use std::f64::consts::PI;
use uom::si::f64::{Length, MassDensity, Pressure};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::milliliter_per_second;

const DENSITY_KG_PER_M3: f64 = 1050.0;

fn end(network: &mut FlowNetwork, height_m: f64, gauge_pa: f64) -> NodeId {
    network.add_end(
        Length::new::<meter>(height_m),
        Pressure::new::<pascal>(gauge_pa),
    )
}

fn joint(network: &mut FlowNetwork, height_m: f64) -> NodeId {
    network.add_joint(Length::new::<meter>(height_m))
}

fn try_solve(network: &FlowNetwork) -> Result<Flows, FlowError> {
    network.solve(MassDensity::new::<kilogram_per_cubic_meter>(
        DENSITY_KG_PER_M3,
    ))
}

fn solve(network: &FlowNetwork) -> Flows {
    try_solve(network).expect("the network is sound")
}

fn ml_per_s(flows: &Flows, branch: BranchId) -> f64 {
    flows.through(branch).get::<milliliter_per_second>()
}

fn gauge_pa(flows: &Flows, node: NodeId) -> Option<f64> {
    let gauge = flows.gauge_pressure(node);
    gauge.map(|gauge| gauge.get::<pascal>())
}

/// Laminar flow of 15 mm2/s through 3.33 mm pipe, with a loss in velocity heads.
fn pipe(length_m: f64, loss: f64) -> BranchLaw {
    let bore_m = 3.33e-3_f64;
    let viscosity_pa_s = 15e-6 * DENSITY_KG_PER_M3;
    let area_m2 = PI / 4.0 * bore_m.powi(2);
    BranchLaw {
        linear_pa_s_per_m3: 128.0 * viscosity_pa_s * length_m / (PI * bore_m.powi(4)),
        quadratic_pa_s2_per_m6: loss * DENSITY_KG_PER_M3 / (2.0 * area_m2.powi(2)),
    }
}

fn assert_near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found}, expected {expected} within {tolerance:e}"
    );
}
