//! How long a pedal stroke takes.
//!
//! `cargo bench -p bleedwright-hydraulics --bench stroke`, or `benches/stroke_ratio.sh` beside `SciPy`.
//!
//! One line for each case: its name, the median time in microseconds, the number of steps.

#![expect(clippy::print_stdout, reason = "a benchmark prints what it measured")]

use bleedwright_hydraulics::gas::standard_atmosphere;
use bleedwright_hydraulics::stroke::{
    BranchLaw, Motion, Pocket, StrokeError, StrokeNetwork, StrokeTolerances,
};
use std::f64::consts::PI;
use std::hint::black_box;
use std::time::Instant;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, Time, Volume};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::milliliter;

const VISCOSITY_PA_S: f64 = 1050.0 * 15e-6;
const ROUNDS: usize = 201;

fn main() -> Result<(), StrokeError> {
    let small = three_lines(1.0)?;
    measure("three_lines_1e-8", &small, 1e-8)?;
    measure("three_lines_1e-5", &small, 1e-5)?;
    measure("three_lines_1e-4", &small, 1e-4)?;
    let fast = three_lines(1.4)?;
    measure("three_lines_fast_1e-5", &fast, 1e-5)?;
    for nodes in [10, 40] {
        let tree = tree(nodes)?;
        measure(&format!("tree_of_{nodes}_1e-5"), &tree, 1e-5)?;
    }
    Ok(())
}

fn measure(name: &str, network: &StrokeNetwork, relative: f64) -> Result<(), StrokeError> {
    let seconds = Time::new::<second>;
    let tolerances = StrokeTolerances::relative(Ratio::new::<ratio>(relative))?;
    let asked = [0.05, 0.1, 0.25, 0.5].map(seconds);
    let mut times_us = Vec::with_capacity(ROUNDS);
    let mut steps = 0;
    for _ in 0..ROUNDS {
        let begin = Instant::now();
        let trace = black_box(network).run(seconds(1.0), &asked, &tolerances)?;
        times_us.push(begin.elapsed().as_secs_f64() * 1e6);
        steps = black_box(trace).steps();
    }
    times_us.sort_by(f64::total_cmp);
    println!("{name} {:.1} {steps}", times_us[ROUNDS / 2]);
    Ok(())
}

fn area_m2(diameter_m: f64) -> f64 {
    PI / 4.0 * diameter_m * diameter_m
}

fn pipe(length_m: f64, bore_m: f64) -> f64 {
    128.0 * VISCOSITY_PA_S * length_m / (PI * bore_m.powi(4))
}

fn laminar(linear_pa_s_per_m3: f64) -> BranchLaw {
    BranchLaw {
        linear_pa_s_per_m3,
        quadratic_pa_s2_per_m6: 0.0,
    }
}

fn air(index: f64) -> Result<Pocket, StrokeError> {
    Pocket::new(
        Volume::new::<milliliter>(0.5),
        standard_atmosphere(),
        Ratio::new::<ratio>(index),
    )
}

fn press() -> Result<Motion, StrokeError> {
    Motion::resting_at(Length::default())?
        .then_move(Length::new::<millimeter>(20.0), Time::new::<second>(0.5))
}

/// 1 m of 3.3 mm pipe to a tee, from there 2 m to an open screw and 0.4 m to half a millilitre of air.
fn three_lines(index: f64) -> Result<StrokeNetwork, StrokeError> {
    let bore_m = 3.3e-3;
    let mut network = StrokeNetwork::new(standard_atmosphere())?;
    let master = network.add_node(6.820_273_889e-15, None)?;
    let tee = network.add_node(8.077_820_111e-15, None)?;
    let leg = network.add_node(0.0, Some(air(index)?))?;
    let outlet = network.add_end(Pressure::default())?;
    network.add_branch(master, tee, laminar(pipe(1.0, bore_m)))?;
    let screw = pipe(2.0, bore_m) + pipe(8e-3, 1.5e-3);
    network.add_branch(tee, outlet, laminar(screw))?;
    network.add_branch(tee, leg, laminar(pipe(0.4, bore_m)))?;
    let area = Area::new::<square_meter>(area_m2(20.64e-3));
    network.add_piston(master, area, press()?)?;
    Ok(network)
}

/// A tree that splits in two at every node, with a caliper's compliance at the last quarter, air at two of them and one
/// screw that is a drilling.
fn tree(nodes: usize) -> Result<StrokeNetwork, StrokeError> {
    let mut network = StrokeNetwork::new(standard_atmosphere())?;
    let mut ids = Vec::with_capacity(nodes);
    for nth in 0..nodes {
        let compliance = if nth * 4 >= nodes * 3 { 2e-14 } else { 3e-15 };
        let pocket = (nth + 2 >= nodes).then(|| air(1.0)).transpose()?;
        ids.push(network.add_node(compliance, pocket)?);
        if nth > 0 {
            let law = laminar(pipe(0.5, 3.3e-3));
            network.add_branch(ids[(nth - 1) / 2], ids[nth], law)?;
        }
    }
    let outlet = network.add_end(Pressure::default())?;
    let drilling = BranchLaw {
        linear_pa_s_per_m3: pipe(8e-3, 1.5e-3) + 3.0 * VISCOSITY_PA_S / (0.75e-3_f64).powi(3),
        quadratic_pa_s2_per_m6: 1.14 * 1050.0 / area_m2(1.5e-3).powi(2),
    };
    network.add_branch(ids[nodes - 3], outlet, drilling)?;
    let area = Area::new::<square_meter>(area_m2(20.64e-3));
    network.add_piston(ids[0], area, press()?)?;
    Ok(network)
}
