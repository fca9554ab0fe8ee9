//! Flow and bubbles: what must hold for every pipe and every fluid.

mod bubbles;
mod pipework;

use bleedwright_hydraulics::fluid::Liquid;
use uom::si::f64::{KinematicViscosity, MassDensity, SurfaceTension};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::surface_tension::millinewton_per_meter;

fn liquid(density_kg_m3: f64, nu_mm2_s: f64, tension_mn_m: f64) -> Liquid {
    Liquid::new(
        MassDensity::new::<kilogram_per_cubic_meter>(density_kg_m3),
        KinematicViscosity::new::<square_millimeter_per_second>(nu_mm2_s),
        SurfaceTension::new::<millinewton_per_meter>(tension_mn_m),
    )
    .expect("all three are above zero")
}
