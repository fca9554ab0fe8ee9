//! Pipes one behind the other against the library `fluids`, pipes side by side against `networkx`.
//!
//! `reference/flow/generate.py` draws them and asks the libraries; `reference/regenerate.sh` says whether the committed
//! values are still what it gives.

use bleedwright_hydraulics::fluid::Liquid;
use bleedwright_hydraulics::pipe::Pipe;
use bleedwright_hydraulics::{HydraulicResistance, effective_resistance};
use serde::Deserialize;
use uom::si::f64::{KinematicViscosity, Length, MassDensity, SurfaceTension, VolumeRate};
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::length::{meter, millimeter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::surface_tension::millinewton_per_meter;
use uom::si::volume_rate::milliliter_per_second;

/// Half a unit of the last of ten printed digits, and rounding.
const PRINTED: f64 = 1e-9;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Chain {
    density_kg_per_m3: f64,
    viscosity_mm2_per_s: f64,
    pieces: Vec<Piece>,
    flow_ml_per_s: f64,
    drop_pa: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Piece {
    length_m: f64,
    bore_mm: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Loops {
    pipes: Vec<(usize, usize, f64)>,
    from: usize,
    to: usize,
    resistance: f64,
}

#[test]
fn pipes_in_series_as_in_fluids() {
    let chains: Vec<Chain> = serde_json::from_str(include_str!("reference/flow/pipes.json"))
        .expect("generate.py writes what these structures hold");
    assert_eq!(chains.len(), 24, "as many as generate.py draws");
    for chain in &chains {
        let liquid = Liquid::new(
            MassDensity::new::<kilogram_per_cubic_meter>(chain.density_kg_per_m3),
            KinematicViscosity::new::<square_millimeter_per_second>(chain.viscosity_mm2_per_s),
            SurfaceTension::new::<millinewton_per_meter>(33.0),
        )
        .expect("it is a liquid");
        let all: HydraulicResistance = (chain.pieces.iter())
            .map(|piece| {
                let bore = Length::new::<millimeter>(piece.bore_mm);
                let pipe = Pipe::new(bore, Length::new::<meter>(piece.length_m));
                pipe.expect("it is a pipe")
                    .resistance(liquid.dynamic_viscosity())
            })
            .sum();
        let flow = VolumeRate::new::<milliliter_per_second>(chain.flow_ml_per_s);
        let found = all.pressure(flow).get::<pascal>();
        let difference = (found / chain.drop_pa - 1.0).abs();
        assert!(difference < PRINTED, "{found} and {} Pa", chain.drop_pa);
    }
}

#[test]
fn pipes_side_by_side_as_in_networkx() {
    let networks: Vec<Loops> = serde_json::from_str(include_str!("reference/flow/loops.json"))
        .expect("generate.py writes what these structures hold");
    assert_eq!(networks.len(), 12, "as many as generate.py draws");
    for network in &networks {
        let pipes: Vec<_> = (network.pipes.iter())
            .map(|&(a, b, resistance)| (a, b, HydraulicResistance::new(resistance)))
            .collect();
        let found = effective_resistance(&pipes, network.from, network.to)
            .expect("a tree reaches every joint")
            .pascal_seconds_per_cubic_metre();
        let difference = (found / network.resistance - 1.0).abs();
        assert!(difference < PRINTED, "{found} and {}", network.resistance);
    }
}
