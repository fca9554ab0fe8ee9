//! The purge model against computations that share no code with it.

mod closed_forms;
mod joints;
mod properties;
mod quadrature;
mod streamlines;
mod tees;

use bleedwright_hydraulics::{Segment, Tank, Tube, Washout};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::milliliter;

fn ml(volume_ml: f64) -> Volume {
    Volume::new::<milliliter>(volume_ml)
}

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// A tube from pairs of contents and earlier pushes, both in millilitres, chamber first.
fn tube(parts_ml: &[(f64, f64)]) -> Tube {
    let segments = parts_ml
        .iter()
        .map(|&(contents, pushed)| Segment {
            contents: ml(contents),
            pushed_before: ml(pushed),
        })
        .collect();
    Tube::new(segments).expect("the parts are finite")
}

/// A run from a tube's parts, pairs of cavity volume in millilitres and old fraction, and the inflow's old fraction.
fn run(parts_ml: &[(f64, f64)], cavities_ml: &[(f64, f64)], inlet: f64) -> Washout {
    let tanks = cavities_ml
        .iter()
        .map(|&(volume, old)| Tank::new(ml(volume), share(old)).expect("the cavities are finite"))
        .collect();
    Washout::new(tube(parts_ml), tanks, share(inlet)).expect("the run is finite")
}

fn out(run: &Washout, pushed_ml: f64) -> f64 {
    run.old_fraction_out(ml(pushed_ml)).get::<ratio>()
}

fn push_ml(run: &Washout, residual: f64) -> f64 {
    let push = run
        .push_until(share(residual))
        .expect("the residual can be reached");
    push.unmixed.get::<milliliter>()
}
